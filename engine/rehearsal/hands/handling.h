#pragma once

// What hands do to a scene, as the change that it makes to the file: people led about and turned,
// the camera carried, its rings set.

#include "scene/scene.h"
#include "scene_file/reading/bag_file.h"
#include "scene_file/reading/lens_profile_file.h"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace backrow::rehearsal {

/// What EditedScene::change() takes: the deed's name and what it sets. No values where there is
/// nothing to change.
struct Change {
    std::string what;
    std::vector<std::string> values;
};

/// Somebody led to another place, across and back, counted from the mark; rounded to centimetres.
/// Whoever is carried cannot be led, stepped or turned alone: the carrier is.
///
/// person   index in Scene::people
/// snaps    in a row, the line of the row is kept and only the place in it changes
[[nodiscard]] Change lead(const scene::Scene& scene, std::size_t person, double across_m,
                          double back_m, bool snaps);

/// The same by a step from where the person stands.
[[nodiscard]] Change step(const scene::Scene& scene, std::size_t person, double across_m,
                          double back_m);

/// Turned to face there; whole degrees, − 180 … 180.
[[nodiscard]] Change turn(const scene::Scene& scene, std::size_t person, double turn_deg);
/// Turned to face a place, counted from the mark.
[[nodiscard]] Change turn_towards(const scene::Scene& scene, std::size_t person, double across_m,
                                  double back_m);
/// + leans the head away from the camera; centimetres, kept within what a body can.
[[nodiscard]] Change lean(const scene::Scene& scene, std::size_t person, double lean_m);
[[nodiscard]] Change take_posture(const scene::Scene& scene, std::size_t person,
                                  figures::Posture posture);
/// Kept within what people measure.
[[nodiscard]] Change grow(const scene::Scene& scene, std::size_t person, double stature_m);

/// The camera carried to another distance, and sideways; centimetres.
[[nodiscard]] Change carry_camera(const scene::Scene& scene, double lens_to_mark_m,
                                  double across_m);
[[nodiscard]] Change raise_camera(double height_m);
[[nodiscard]] Change aim_at_group();
/// The least distance from which everybody is whole in the picture through this lens, aimed at the
/// group. Nothing where no distance up to four times the present will do.
[[nodiscard]] std::optional<Change> frame_group(const scene::Scene& scene);
[[nodiscard]] Change aim_at(const scene::Scene& scene, std::size_t person);
/// Whether the axis is kept along the ground.
[[nodiscard]] Change keep_level(bool level);
[[nodiscard]] Change orient_camera(scene::Orientation orientation);

/// A value of the file as it was typed: what it may be is told when the change is tried.
///
/// key  "camera.f_number"
[[nodiscard]] Change type_in(std::string_view key, double value);

/// To the next marks of the aperture ring; + stops down, in thirds of a stop.
[[nodiscard]] Change stop_down(const scene::Scene& scene, int thirds);
/// Likewise the shutter, + for shorter, and ISO, + for higher.
[[nodiscard]] Change shorten_shutter(const scene::Scene& scene, int thirds);
[[nodiscard]] Change raise_iso(const scene::Scene& scene, int thirds);
/// To another focal length, whole millimetres from 10 mm on; the profile of the lens stays with the
/// scene.
[[nodiscard]] Change zoom(double focal_length_mm);

/// A lens of the bag, opened no further than it goes, with its profile or as a perfect one.
[[nodiscard]] Change take_lens(const scene::Scene& scene, const scene_file::BagLens& lens);
/// One of the program's own lenses, as it would be of the camera's focal length.
///
/// named  as `lens.profile` names it
[[nodiscard]] Change take_own_lens(const scene::Scene& scene, const std::string& named,
                                   const scene_file::NamedLensProfile& lens);
/// The same focal length without any faults; nothing where it has none.
[[nodiscard]] Change take_perfect_lens(const scene::Scene& scene);
[[nodiscard]] Change take_body(const scene_file::BagBody& body);
/// What is mounted now, for the bag; opened as far as it is set.
[[nodiscard]] scene_file::BagLens lens_on_camera(const scene::Scene& scene);
[[nodiscard]] scene_file::BagBody body_of_camera(const scene::Scene& scene);

[[nodiscard]] Change focus_on(const scene::Scene& scene, std::size_t person);
[[nodiscard]] Change focus_evenly();
/// The value that focuses so, as for --set.
[[nodiscard]] std::string value_of_focus(const scene::Focus& focus);
/// Axial, to the centimetre.
[[nodiscard]] Change focus_at(double axial_m);

/// How the picture will be looked at.
[[nodiscard]] Change view_as(const scene::Viewing& viewing);

}  // namespace backrow::rehearsal
