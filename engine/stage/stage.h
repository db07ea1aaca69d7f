#pragma once

// Everything that is drawn, as triangles: the people, what they stand on, the surroundings,
// imported models. The renderer and the glTF export both take exactly this.

#include "scene/camera_view.h"
#include "scene/scene.h"
#include "stage/made_from.h"

#include "shapes/mesh.h"

#include "base/image.h"
#include "base/problem.h"

#include <glm/mat4x4.hpp>

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace backrow::stage {

enum class Role { body, face, surroundings, highlight };

/// One mesh at one place. person is the index into Scene::people, −1 for everything else.
struct Part {
    std::string name;
    shapes::Mesh mesh{};  ///< In the part's own space.
    glm::dmat4 world_from_part{1};
    shapes::Material material{};
    Role role = Role::surroundings;
    int person = -1;
    MadeFrom made_from{};
};

/// A window's pane of light: its middle, and half its sides. It shines the way it faces.
struct WindowLight {
    glm::dvec3 middle_m{0};
    glm::dvec3 half_across_m{0};
    glm::dvec3 half_up_m{0};
    glm::dvec3 facing{0};  ///< Unit, into the room.
};

struct Stage {
    std::vector<Part> parts;
    std::vector<Image<Rgba8>> textures;  ///< sRGB.
    glm::dvec3 towards_sun{0, 1, 0};     ///< Unit, engine space.
    bool sun_is_up = true;
    /// In place of sun and sky; room light fills the shadows.
    std::optional<WindowLight> window{};
};

/// Towards the sun from its place in the sky, unit, engine space.
///
///     (sin a · cos e, sin e, cos a · cos e)
///
/// elevation_deg  e, −90 … 90 above the horizon
/// azimuth_deg    a, 0 from behind the camera's back (+z), 90 from picture right (+x), 180 from
///                behind the group (−z)
[[nodiscard]] glm::dvec3 towards_sun(double elevation_deg, double azimuth_deg);

/// The pane of a scene's window, engine space.
[[nodiscard]] WindowLight window_light(const scene::WindowPlace& window);

/// Builds everything, in the order in which a renderer with a depth test does least work: people
/// from near to far, what they stand on, models, backdrops from near to far, ground, sky. The same
/// scene gives the same stage, however many threads the machine has.
///
/// errors    one problem for every model or picture file that cannot be read (import_model.h,
///           read_photograph.h)
[[nodiscard]] Checked<Stage> build_stage(const scene::Scene& scene, const scene::CameraView& view);

/// One stage for several pictures of a scene, from wherever they are taken: figures as fine as the
/// largest head among the pictures deserves, backdrops as wide as the widest needs.
///
/// views   at least one; people and backdrops lie in the order of the first
/// skin_detail   none: sooner done, and skin, hair and eyes have one colour each
/// earlier   a stage of this scene or another: what it has of this one is not built again
[[nodiscard]] Checked<Stage>
build_stage(const scene::Scene& scene, std::span<const scene::CameraView> views,
            figures::HasSkinDetail skin_detail = figures::HasSkinDetail::yes,
            const Stage& earlier = {});

}  // namespace backrow::stage
