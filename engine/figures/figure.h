#pragma once

// A person: measures and a pose in, reference points, solids and triangles out.
//
// Figure space: engine axes, metres, origin on the ground (or riser) under the person's place,
// which is where the ankle line, seat bones' plumb line and ears meet when standing straight.
// An unturned figure faces +z (the camera side).

#include "figures/body_measures.h"
#include "figures/face_motion.h"
#include "figures/styling.h"

#include "shapes/mesh.h"

#include <glm/vec3.hpp>

#include <optional>
#include <string>
#include <vector>

namespace backrow::figures {

/// Kneeling is on one knee; on the ground, with legs crossed.
enum class Posture { standing, seated, kneeling, crouching, kneeling_both, on_ground };

/// Where the arms are: hanging, hands folded low in front, behind the back, or crossed on the
/// chest.
enum class Arms { down, folded, behind, crossed };

struct Pose {
    Posture posture = Posture::standing;
    double turn_deg = 0;         ///< Whole body; + turns towards picture right. −180 … 180.
    double head_turn_deg = 0;    ///< Head on the body; + towards picture right. −80 … 80.
    double lean_m = 0;           ///< + carries the head away from the camera. −0.6 … 0.6.
    std::optional<Arms> arms{};  ///< None: as goes with the posture, standing by name.
    std::optional<Expression> expression{};  ///< None: by name, between none and a light smile.
    std::optional<glm::dvec3> looks_at_m{};  ///< In figure space; none: straight ahead.
};

/// Whether cloth of a skirt would have to lie on the ground, which this program cannot make.
[[nodiscard]] constexpr bool wears_trousers(Posture posture) noexcept {
    return posture != Posture::standing && posture != Posture::seated;
}

/// Somebody to be built. The name decides what the styling leaves open, the same in every run.
struct Person {
    std::string name;
    BodyMeasures measures;
    Pose pose;
    Styling styling{};
};

/// Points a photographer focuses on. "Left" and "right" are the person's own.
struct ReferencePoints {
    glm::dvec3 left_eye_m;  ///< Front of the cornea.
    glm::dvec3 right_eye_m;
    glm::dvec3 nose_tip_m;
    glm::dvec3 left_ear_m;  ///< Tragus.
    glm::dvec3 right_ear_m;
    glm::dvec3 chin_m;
    glm::dvec3 crown_m;
};

/// A ball stretched between two points: what stands in for a body when asking who hides whom.
struct Capsule {
    glm::dvec3 from_m;
    glm::dvec3 to_m;
    double radius_m = 0;
};

/// What eyes meet and mirror, and from where that is seen; for every eye of a figure the same. Figure space.
struct EyeLight {
    glm::dvec3 towards_sun{-0.4, 0.6, 0.7};
    bool sun_is_up = true;
    glm::dvec3 towards_lens{0, 0, 1};
    double dazzle = 0;  ///< 0 … 1, how bright the sun is: faces turned to it narrow their eyes.
};

/// How fine to build, by what the camera can resolve.
enum class Detail { close, near, middle, far };

/// Whether eyes, hands and hair are built at their finest: close and near differ in their clothes.
[[nodiscard]] constexpr bool is_fine(Detail detail) noexcept {
    return detail == Detail::close || detail == Detail::near;
}

/// Whether the sheet of grain.h is laid over somebody; if not, all texture coordinates are zero.
enum class HasGrain { no, yes };

/// The triangles of one figure. The face is apart, so that its pixels can be counted.
struct FigureMesh {
    shapes::Mesh body;  ///< Clothes, hands, legs, shoes, hair, ears, neck.
    shapes::Mesh face;  ///< Skin from chin to hair line and ear to ear, eyes, brows, beard.
};

/// Cheap: no triangles are made.
[[nodiscard]] ReferencePoints reference_points(const Person& person);

/// Cheap solids that cover the figure; the last one is the head.
[[nodiscard]] std::vector<Capsule> solids(const Person& person);

/// How high above the ground the person's seat is, metres; 0 for postures that need none.
[[nodiscard]] double seat_height_m(const Person& person);

/// Triangles in figure space whose cornea, nose tip, chin and crown lie at reference_points().
[[nodiscard]] FigureMesh build_figure(const Person& person, Detail detail,
                                      const EyeLight& light = {}, HasGrain grain = HasGrain::no);

}  // namespace backrow::figures
