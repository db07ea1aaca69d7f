#pragma once

// The group as it is seen from one place through one lens, before the aperture is chosen.

#include "scene/camera_view.h"
#include "scene/scene.h"

#include "optics/blur/focus_span.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace backrow::plan {

struct Viewpoint {
    scene::Scene scene;                     ///< With the camera here.
    scene::CameraView view;                 ///< Focused as the scene says.
    std::vector<optics::PointInView> eyes;  ///< Everybody's nearer one, in the order of the people.
    double background_axial_m = 0;          ///< Infinite where nothing stands behind the group.
};

[[nodiscard]] Viewpoint viewpoint(scene::Scene scene);

/// The scene with everything bound to its place that is not to travel with the camera: a focus that
/// is given as a distance becomes the plane through the point where it lies now, so that it stays
/// among the people. The aim is the scene's: at the group it keeps of it what each place can.
[[nodiscard]] scene::Scene bound_to_places(scene::Scene scene);

/// The camera goes back or comes nearer along the ground, and everything else stays.
///
/// bound           bound_to_places() of a scene
/// lens_to_mark_m  no nearer than nearest_viewpoint_m() allows
[[nodiscard]] Viewpoint viewpoint_from(scene::Scene bound, double lens_to_mark_m);

/// How near the camera may come.
///
/// bound     bound_to_places() of a scene
/// from_m    lens to mark, metres, where it may stand
/// to_m      0 < to_m ≤ from_m
/// returns   to_m if it can go all the way; else the last place, within a hundredth of a metre,
///           before somebody would be nearer to the lens than scene::nearest_person_m, or the focus
///           within the focal length
[[nodiscard]] double nearest_viewpoint_m(const scene::Scene& bound, double from_m, double to_m);

struct MostBlurred {
    std::size_t person = 0;  ///< Index in Scene::people; the first of equals.
    double blur_mm = 0;      ///< On the sensor.
};

/// The most blurred face, lens profile included; the group is never empty.
[[nodiscard]] MostBlurred most_blurred(const Viewpoint& at, double f_number);

/// Diameter of the blur of the background, as `Background::percent_of_height` (background.h).
///
/// focus_m  axial
[[nodiscard]] double background_percent(const Viewpoint& at, double f_number, double focus_m);

/// How large the faces are on the sensor for what they are, on average: millimetres a metre.
///
///     mean of v/d
[[nodiscard]] double face_scale_mm_per_m(const Viewpoint& at);

/// The focal length that would make the faces this large from here, whatever the lens of the scene:
///
///     f = v s/(s + v),   v = scale / mean of 1/d
[[nodiscard]] double focal_length_for_scale_mm(const Viewpoint& at, double scale_mm_per_m);

/// Where a lens shows the faces this large, metres from lens to mark: the scene's own stays where
/// it is, and for any other the distance is found within a tenth of a millimetre. Nothing where
/// that would be among the people or beyond what a scene may have.
///
/// bound   bound_to_places() of a scene
/// scale   face_scale_mm_per_m() at its present distance
[[nodiscard]] std::optional<double>
framing_distance_m(const scene::Scene& bound, double focal_length_mm, double scale_mm_per_m);

}  // namespace backrow::plan
