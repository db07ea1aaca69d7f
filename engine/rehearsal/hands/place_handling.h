#pragma once

// The place by hand: what lies under the group and stands behind it, models beside it.

#include "rehearsal/hands/handling.h"

#include "scene/scene.h"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace backrow::rehearsal {

[[nodiscard]] Change lay_ground(setting::Ground ground);

/// Another behind all that are there, or where the first usually stands: a hedge.
[[nodiscard]] Change add_backdrop(const scene::Scene& scene);
/// number  index in Setting::backdrops, here and below
[[nodiscard]] Change take_backdrop_away(const scene::Scene& scene, std::size_t number);
/// kind  any but a photo, which needs a file: hang_photo()
[[nodiscard]] Change choose_backdrop(const scene::Scene& scene, std::size_t number,
                                     setting::BackdropKind kind);
[[nodiscard]] Change choose_finish(std::size_t number, setting::Finish finish);
/// Behind the mark, to the centimetre.
[[nodiscard]] Change move_backdrop(const scene::Scene& scene, std::size_t number, double back_m);

/// A picture of the place: as a backdrop that is there, or as another where number is one more.
/// Where nothing else is known its middle stands behind the mark and its foot on the ground.
///
/// file     as the scene will name it: scene_name_of()
/// width_m  that the picture shows, to the centimetre
[[nodiscard]] Change hang_photo(const scene::Scene& scene, std::size_t number,
                                std::string_view file, double width_m);
/// Its size, its middle, its lower edge; centimetres.
[[nodiscard]] Change scale_photo(std::size_t number, double width_m);
[[nodiscard]] Change shift_photo(std::size_t number, double across_m);
[[nodiscard]] Change raise_photo(std::size_t number, double up_m);

/// A point on a picture, from its top-left corner, both counted in widths of the picture.
struct PicturePoint {
    double across = 0;
    double down = 0;
};

/// How wide a place is of which two points on its picture lie so far apart; nothing where they are
/// the same.
[[nodiscard]] std::optional<double> width_between_m(const PicturePoint& one,
                                                    const PicturePoint& other, double apart_m);

/// As wide as the frame where this backdrop stands, or will stand: until its size is known.
[[nodiscard]] double frame_width_at_m(const scene::Scene& scene, std::size_t number);

/// A picture all round in place of the sky.
[[nodiscard]] Change hang_panorama(std::string_view file);
/// Where its middle lies, whole degrees; 0 behind the group.
[[nodiscard]] Change turn_panorama(double turn_deg);
[[nodiscard]] Change take_panorama_away();

/// Beside the group, at the picture's right.
///
/// file  as hang_photo() takes it
[[nodiscard]] Change add_model(const scene::Scene& scene, std::string_view file);
/// number  index in Scene::models, here and below
[[nodiscard]] Change take_model_away(const scene::Scene& scene, std::size_t number);
/// Counted from the mark, centimetres.
[[nodiscard]] Change place_model(const scene::Scene& scene, std::size_t number,
                                 const scene::FromMark& place);
/// Whole degrees, + towards picture right.
[[nodiscard]] Change turn_model(std::size_t number, double turn_deg);
[[nodiscard]] Change size_model(std::size_t number, double scale);

/// "bench" for ".../bench.glb".
[[nodiscard]] std::string short_name(std::string_view file);

/// A file as a scene names it: from the scene's folder on where it lies in there, else as it is.
///
/// file  as typed or chosen; ~/ stands for the home folder
[[nodiscard]] std::string scene_name_of(std::string_view file, const std::string& scene_path);
/// Where the file lies that a scene names so.
[[nodiscard]] std::string file_named(const std::string& scene_name, const std::string& scene_path);

}  // namespace backrow::rehearsal
