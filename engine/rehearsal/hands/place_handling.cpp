#include "rehearsal/hands/place_handling.h"

#include "rehearsal/hands/hand_words.h"
#include "rehearsal/hands/kept_within.h"

#include "scene/camera_view.h"
#include "scene/limits.h"
#include "scene/set_words.h"
#include "scene/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <optional>

namespace backrow::rehearsal {
namespace {

constexpr double behind_the_last_m = 3;
constexpr double beside_the_group_m = 1;

std::string backdrop_key(std::size_t number, std::string_view key) {
    return fmt::format("setting.backdrop.{}.{}", number, key);
}

std::string model_key(std::size_t number, std::string_view key) {
    return fmt::format("model.{}.{}", number, key);
}

/// Where another backdrop goes.
double behind_all_m(const scene::Scene& scene) {
    double back_m = setting::Backdrop{}.back_m;
    for (const setting::Backdrop& other : scene.setting.backdrops)
        back_m = std::max(back_m, other.back_m + behind_the_last_m);
    return kept_within(to_the_centimetre(back_m), scene::limits::backdrop_back_m);
}

Change one(std::string what, std::string value) {
    return {.what = std::move(what), .values = {std::move(value)}};
}

}  // namespace

Change lay_ground(setting::Ground ground) {
    const std::string word{scene::word_for(scene::words::ground, ground)};
    return one("Ground: " + word, scene::set_words("setting.ground", word));
}

Change add_backdrop(const scene::Scene& scene) {
    const std::size_t number = scene.setting.backdrops.size();
    const std::string word{scene::word_for(scene::words::backdrop_kind, setting::Backdrop{}.kind)};
    return {.what = "Add a backdrop",
            .values = {scene::set_words(backdrop_key(number, "kind"), word),
                       scene::set_number(backdrop_key(number, "back_m"), behind_all_m(scene))}};
}

Change take_backdrop_away(const scene::Scene& scene, std::size_t number) {
    const std::string_view word =
        scene::word_for(scene::words::backdrop_kind, scene.setting.backdrops[number].kind);
    return one(fmt::format("Take the {} away", word),
               scene::set_words(backdrop_key(number, "kind"), ""));
}

Change choose_backdrop(const scene::Scene& scene, std::size_t number, setting::BackdropKind kind) {
    const std::string word{scene::word_for(scene::words::backdrop_kind, kind)};
    const bool is_new = kind != setting::BackdropKind::photo ||
                        !scene.setting.backdrops[number].photograph.file.empty();
    Change change{.what = "Backdrop: " + word, .values = {}};
    if (is_new)
        change.values = {scene::set_words(backdrop_key(number, "kind"), word)};
    return change;
}

Change choose_finish(std::size_t number, setting::Finish finish) {
    const std::string word{scene::word_for(scene::words::finish, finish)};
    return one("Wall of " + word, scene::set_words(backdrop_key(number, "finish"), word));
}

Change move_backdrop(const scene::Scene& scene, std::size_t number, double back_m) {
    const setting::Backdrop& backdrop = scene.setting.backdrops[number];
    const double to_m = kept_within(to_the_centimetre(back_m), scene::limits::backdrop_back_m);
    Change change{.what = fmt::format("Move the {}",
                                      scene::word_for(scene::words::backdrop_kind, backdrop.kind)),
                  .values = {}};
    if (to_m != backdrop.back_m)
        change.values = {scene::set_number(backdrop_key(number, "back_m"), to_m)};
    return change;
}

Change hang_photo(const scene::Scene& scene, std::size_t number, std::string_view file,
                  double width_m) {
    Change change{.what = "Photo of the place", .values = {}};
    if (number == scene.setting.backdrops.size())
        change.values = add_backdrop(scene).values;
    change.values.push_back(scene::set_words(backdrop_key(number, "kind"), "photo"));
    change.values.push_back(scene::set_words(backdrop_key(number, "file"), file));
    change.values.push_back(scale_photo(number, width_m).values.front());
    return change;
}

Change scale_photo(std::size_t number, double width_m) {
    return one("Size of the photo", scene::set_number(backdrop_key(number, "width_m"),
                                                      kept_within(to_the_centimetre(width_m),
                                                                  scene::limits::photo_width_m)));
}

Change shift_photo(std::size_t number, double across_m) {
    return one("Shift the photo", scene::set_number(backdrop_key(number, "across_m"),
                                                    kept_within(to_the_centimetre(across_m),
                                                                scene::limits::across_m)));
}

Change raise_photo(std::size_t number, double up_m) {
    return one("Height of the photo",
               scene::set_number(backdrop_key(number, "up_m"),
                                 kept_within(to_the_centimetre(up_m), scene::limits::photo_up_m)));
}

std::optional<double> width_between_m(const PicturePoint& one, const PicturePoint& other,
                                      double apart_m) {
    const double widths = std::hypot(one.across - other.across, one.down - other.down);
    return widths > 0 ? std::optional{apart_m / widths} : std::nullopt;
}

double frame_width_at_m(const scene::Scene& scene, std::size_t number) {
    const scene::CameraView view = camera_view(scene);
    const double back_m = number < scene.setting.backdrops.size()
                              ? scene.setting.backdrops[number].back_m
                              : behind_all_m(scene);
    const double axial_m = scene::axial_m(
        view, scene::engine_from_mark({.up_m = view.position_m.y, .back_m = back_m}));
    return std::abs(axial_m) * view.sensor_width_mm / view.image_distance_mm();
}

Change take_panorama_away() {
    return one("The built sky", scene::set_words("setting.panorama", ""));
}

Change hang_panorama(std::string_view file) {
    return one("Panorama", scene::set_words("setting.panorama", file));
}

Change turn_panorama(double turn_deg) {
    return one("Turn the panorama", scene::set_number("setting.panorama_turn_deg",
                                                      std::round(std::remainder(turn_deg, 360))));
}

Change add_model(const scene::Scene& scene, std::string_view file) {
    const std::size_t number = scene.models.size();
    double right_m = 0;
    for (const scene::Person& person : scene.people)
        right_m = std::max(right_m, person.place.across_m);
    return {
        .what = "Add " + short_name(file),
        .values = {scene::set_words(model_key(number, "file"), file),
                   scene::set_number(model_key(number, "across_m"),
                                     kept_within(to_the_centimetre(right_m + beside_the_group_m),
                                                 scene::limits::from_mark_m))}};
}

Change take_model_away(const scene::Scene& scene, std::size_t number) {
    return one(fmt::format("Take {} away", short_name(scene.models[number].file)),
               scene::set_words(model_key(number, "file"), ""));
}

Change place_model(const scene::Scene& scene, std::size_t number, const scene::FromMark& place) {
    const scene::FromMark& now = scene.models[number].place;
    Change change{.what = "Move " + short_name(scene.models[number].file), .values = {}};
    const auto set = [&](std::string_view key, double m, double now_m,
                         const scene::Range<double>& range) {
        const double to_m = kept_within(to_the_centimetre(m), range);
        if (to_m != now_m)
            change.values.push_back(scene::set_number(model_key(number, key), to_m));
    };
    set("across_m", place.across_m, now.across_m, scene::limits::across_m);
    set("back_m", place.back_m, now.back_m, scene::limits::back_m);
    set("up_m", place.up_m, now.up_m, scene::limits::up_m);
    return change;
}

Change turn_model(std::size_t number, double turn_deg) {
    return one("Turn the model", scene::set_number(model_key(number, "turn_deg"),
                                                   std::round(std::remainder(turn_deg, 360))));
}

Change size_model(std::size_t number, double scale) {
    return one("Size of the model", scene::set_number(model_key(number, "scale"),
                                                      kept_within(scale, scene::limits::scale)));
}

std::string short_name(std::string_view file) {
    return std::filesystem::path{file}.stem().string();
}

std::string scene_name_of(std::string_view file, const std::string& scene_path) {
    namespace fs = std::filesystem;
    fs::path path{file};
    const char* home = std::getenv("HOME");
    if (file.starts_with("~/") && home != nullptr)
        path = fs::path{home} / file.substr(2);
    if (path.is_relative())
        return path.string();
    std::error_code ignored;
    const fs::path folder =
        fs::weakly_canonical(fs::absolute(scene_path, ignored).parent_path(), ignored);
    const fs::path from_there = fs::weakly_canonical(path, ignored).lexically_relative(folder);
    const bool is_inside = !from_there.empty() && *from_there.begin() != "..";
    return is_inside ? from_there.generic_string() : path.string();
}

std::string file_named(const std::string& scene_name, const std::string& scene_path) {
    const std::filesystem::path path{scene_name};
    return path.is_absolute() ? scene_name
                              : (std::filesystem::path{scene_path}.parent_path() / path).string();
}

}  // namespace backrow::rehearsal
