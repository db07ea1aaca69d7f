#pragma once

// The camera of a scene as geometry: where the lens is, where it looks, where it is focused, and
// how a point in the world lands on the picture.

#include "scene/scene.h"

#include "optics/lens/lens.h"

#include <glm/vec2.hpp>
#include <glm/vec3.hpp>

#include <optional>
#include <string_view>
#include <vector>

namespace backrow::scene {

/// Engine space, metres. right, up and forward are unit vectors at right angles; up is as far up as
/// the axis allows, for the camera is never rolled.
struct CameraView {
    glm::dvec3 position_m{0};  ///< The lens.
    glm::dvec3 right{1, 0, 0};
    glm::dvec3 up{0, 1, 0};
    glm::dvec3 forward{0, 0, -1};
    glm::dvec3 look_at_m{0, 0, -1};
    double sensor_width_mm = 36;  ///< As held now: swapped for portrait.
    double sensor_height_mm = 24;
    int width_px = 6000;  ///< Likewise.
    int height_px = 4000;
    optics::LensSettings lens{};  ///< The focus may be one at which no image forms.

    /// The lens as it is set. Needs a focus beyond the focal length, which read_scene() ensures.
    [[nodiscard]] optics::Lens focused() const;
    [[nodiscard]] double image_distance_mm() const;  ///< v
    [[nodiscard]] double px_per_mm() const { return width_px / sensor_width_mm; }
};

/// A point as the camera sees it through the middle of its lens.
struct Seen {
    double axial_m = 0;
    glm::dvec2 at_px{0};  ///< Camera pixels from the top-left corner; meaningless if axial ≤ 0.
    double image_height = 0;  ///< 0 centre … 1 corner.
};

/// The ray through the middle of the lens: x = v·X/d on the sensor. Made once for many points.
class Projection {
public:
    /// view  outlives it
    explicit Projection(const CameraView& view);
    [[nodiscard]] Seen operator()(const glm::dvec3& point_m) const;
    /// Without its image height, which takes longest.
    [[nodiscard]] Seen place(const glm::dvec3& point_m) const;

private:
    /// right and up of the picture's middle, millimetres
    [[nodiscard]] glm::dvec2 on_sensor_mm(const glm::dvec3& from_lens_m, double axial_m) const;
    [[nodiscard]] glm::dvec2 px(const glm::dvec2& on_sensor_mm) const;

    const CameraView& view_;
    double image_distance_mm_;
    double diagonal_mm_;
};

/// A single point's.
[[nodiscard]] Seen project(const CameraView& view, const glm::dvec3& point_m);

/// Distance along the optical axis from the lens; negative behind the camera.
[[nodiscard]] double axial_m(const CameraView& view, const glm::dvec3& point_m);

/// Engine space from the mark's words.
[[nodiscard]] glm::dvec3 engine_from_mark(const FromMark& place);
[[nodiscard]] FromMark mark_from_engine(const glm::dvec3& point_m);

/// The origin of a person's figure space, engine space: their place, or what the feet of somebody
/// stand on who sits on a step there.
[[nodiscard]] glm::dvec3 figure_origin_m(const Person& person);

/// The person as figures know them, and the person's reference points and solids in engine space,
/// each alone or all together with the rest.
[[nodiscard]] figures::Person figure_of(const Person& person);
[[nodiscard]] figures::ReferencePoints reference_points(const Person& person);
[[nodiscard]] std::vector<figures::Capsule> solids(const Person& person);
[[nodiscard]] figures::PosedBody posed_body(const Person& person);

/// What somebody looks at, engine space: the lens, the middle between somebody's eyes, a point; or
/// nothing, straight ahead. Every name must resolve.
[[nodiscard]] std::optional<glm::dvec3> gaze_point_m(const Scene& scene, const CameraView& view,
                                                     const Person& person);

/// The eye with the smaller axial distance.
[[nodiscard]] glm::dvec3 nearer_eye_m(const CameraView& view, const Person& person);
[[nodiscard]] glm::dvec3 nearer_eye_m(const CameraView& view,
                                      const figures::ReferencePoints& points);

/// The lens, and what it points at: the middle of the box round everybody (feet to crown), the
/// midpoint between somebody's eyes, or the point given.
[[nodiscard]] glm::dvec3 lens_position_m(const Camera& camera);
[[nodiscard]] glm::dvec3 aim_point_m(const Scene& scene);

/// The person of this name, or null.
[[nodiscard]] const Person* person_named(const Scene& scene, std::string_view name);

/// Where the camera stands and looks, then what it is focused on. The focus is whatever the
/// scene says, even where no image can form there; read_scene() checks that. The aim must be apart
/// from the lens and not straight above or below it, and every name must resolve.
[[nodiscard]] CameraView camera_view(const Scene& scene);

}  // namespace backrow::scene
