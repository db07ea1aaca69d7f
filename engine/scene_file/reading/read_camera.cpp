// [camera], [focus], [lens] and [viewing].

#include "scene_file/reading/lens_profile_file.h"
#include "scene_file/reading/read_scene.h"
#include "scene_file/reading/scene_draft.h"
#include "scene_file/scene_keys.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace backrow::scene_file {
namespace {

constexpr double pixels_in_a_megapixel = 1e6;

// How far from square pixels may be. Makers round a sensor's sides to a tenth of a millimetre, and
// its pixels leave out a rim: published pairs lie within 2 % (6.17 × 4.55 mm with 4000 × 3000, the
// smallest and worst of them, 1.7 %), while another shape of picture is off by 6 % and more (3:2
// for 16:10). So much off, a blur differs by half of it from one that is measured both ways.
constexpr double most_oblong = 0.03;

scene::FromMark from_triple(const std::array<double, 3>& across_up_back) {
    return {across_up_back[0], across_up_back[1], across_up_back[2]};
}

/// False where they are wrong; without the key they stay as they were.
bool read_pixels(TableReader& camera, std::array<int, 2>& into) {
    std::array<double, 2> pixels{};
    if (!camera.read(keys::pixels, pixels))
        return camera.find(keys::pixels.key) == nullptr;
    const std::array<int, 2> whole{static_cast<int>(pixels[0]), static_cast<int>(pixels[1])};
    const double megapixels = pixels[0] * pixels[1] / pixels_in_a_megapixel;
    if (whole[0] != pixels[0] || whole[1] != pixels[1])
        camera.complain(camera.place_at("pixels"), "a camera has no parts of pixels",
                        "write whole numbers");
    else if (megapixels > most_megapixels)
        camera.complain(
            camera.place_at("pixels"),
            fmt::format("{} × {} pixels are {:.0f} megapixels", whole[0], whole[1], megapixels),
            fmt::format("this program goes up to {:.0f} megapixels", most_megapixels));
    else {
        into = whole;
        return true;
    }
    return false;
}

/// Sensor and pixels must have one shape: everything here counts with square pixels.
void check_square_pixels(TableReader& table, const scene::Camera& camera) {
    const auto [width_mm, height_mm] = camera.sensor_mm;
    const auto [across, down] = camera.pixels;
    const double oblong = (width_mm / across) / (height_mm / down);
    if (oblong >= 1 - most_oblong && oblong <= 1 / (1 - most_oblong))
        return;
    const bool lies_down = (width_mm > height_mm) != (across > down) && across != down;
    // A picture of another shape is cut out of the sensor, whose one side stays whole.
    const double used_width_mm = std::min(width_mm, height_mm * across / down);
    const double used_height_mm = std::min(height_mm, width_mm * down / across);
    table.complain(
        table.place_at(table.find(keys::pixels.key) != nullptr ? keys::pixels.key
                                                               : keys::sensor_mm.key),
        fmt::format("{} × {} pixels on {:g} × {:g} mm would not be square but {:.3g} times as wide "
                    "as high",
                    across, down, width_mm, height_mm, oblong),
        lies_down ? fmt::format("write both as held for landscape: pixels = [{}, {}]", down, across)
                  : fmt::format("write the part of the sensor that the picture uses, as in "
                                "sensor_mm = [{:.1f}, {:.1f}]",
                                used_width_mm, used_height_mm));
}

void read_aim(TableReader& camera, scene::Aim& aim) {
    const toml::node* node = camera.find(keys::aim.key);
    if (node == nullptr)
        return;
    if (const auto* word = node->as_string()) {
        if (word->get() == "group")
            aim = scene::AimAtGroup{};
        else
            aim = scene::AimAtPerson{word->get()};
        return;
    }
    if (!node->is_array()) {
        camera.complain(place_of(*node), fmt::format("`aim` is {}", kind_of(*node)),
                        "write \"group\", a person's name, or [across, up, back]");
        return;
    }
    std::array<double, 3> point{};
    if (camera.read(keys::aim, point))
        aim = from_triple(point);
}

}  // namespace

void read_camera(TableReader& root, SceneDraft& draft) {
    auto table = root.table("camera");
    if (!table)
        return;
    scene::Camera& camera = draft.scene.camera;
    const bool sensor_is_right = table->read(keys::sensor_mm, camera.sensor_mm) ||
                                 table->find(keys::sensor_mm.key) == nullptr;
    if (read_pixels(*table, camera.pixels) && sensor_is_right)
        check_square_pixels(*table, camera);
    table->read(keys::orientation, camera.orientation);
    table->read(keys::focal_length_mm, camera.focal_length_mm);
    table->read(keys::f_number, camera.f_number);
    table->read(keys::lens_to_mark_m, camera.lens_to_mark_m);
    table->read(keys::height_m, camera.height_m);
    table->read(keys::camera_across_m, camera.across_m);
    read_aim(*table, camera.aim);
    table->read("level", camera.level);
    table->read(keys::shutter_s, camera.shutter_s);
    table->read(keys::iso, camera.iso);
    table->read(keys::filter_stops, camera.filter_stops);
    table->read(keys::exposure, camera.exposure);
    table->refuse_unknown_keys();
    draft.places.aim = table->place_at(keys::aim.key);
    if (std::holds_alternative<scene::AimAtPerson>(camera.aim))
        draft.aim_name = draft.places.aim;
    draft.places.focus = table->place();
}

void read_focus(TableReader& root, SceneDraft& draft) {
    draft.has_focus = root.find("focus") != nullptr;
    auto table = root.table("focus");
    if (!table)
        return;

    scene::Focus& focus = draft.scene.focus;
    std::vector<std::string_view> given;
    const auto give = [&](std::string_view key) {
        given.push_back(key);
        draft.places.focus = table->place_at(key);
    };
    std::string name;
    bool balanced = false;
    double axial_m = 0;
    std::array<double, 3> point{};
    if (table->read("on", name)) {
        focus = scene::FocusOnPerson{name};
        draft.focus_name = table->place_at("on");
    }
    if (table->read("balanced", balanced) && balanced)
        focus = scene::FocusBalanced{};
    if (table->read(keys::focus_axial_m, axial_m))
        focus = scene::FocusAtDistance{axial_m};
    if (table->read(keys::focus_point, point))
        focus = from_triple(point);
    table->read(keys::focus_found_at, draft.scene.focus_found_at);
    table->refuse_unknown_keys();

    // A value of the wrong kind is complained of already, and still counts as given.
    for (const std::string_view key : {"on", "distance_m", "point"})
        if (table->find(key) != nullptr)
            give(key);
    const toml::node* flag = table->find("balanced");
    if (flag != nullptr && (balanced || !flag->is_boolean()))
        give("balanced");

    const char* choices = "write one of on, balanced = true, distance_m, point";
    if (given.empty() && flag != nullptr)
        table->complain(place_of(*flag), "`balanced = false` does not say where to focus", choices);
    else if (given.empty())
        table->complain(table->place(), "[focus] does not say where to focus", choices);
    else if (given.size() > 1)
        table->complain(
            draft.places.focus,
            fmt::format("[focus] says where to focus more than once: {}", fmt::join(given, ", ")),
            "keep one of them");
}

void read_lens(TableReader& root, SceneDraft& draft, Findings& findings) {
    auto table = root.table("lens");
    if (!table)
        return;
    scene::Lens& lens = draft.scene.lens;
    int blades = 0;
    if (table->read(keys::blades, blades)) {
        if (blades != 0 && blades < 5)
            table->complain(
                table->place_at("blades"),
                fmt::format("an aperture of {} blades is none this program draws", blades),
                "write 0 for a round opening, or 5 to 20");
        else
            lens.blades = blades;
    }
    std::string profile;
    if (table->read("profile", profile) && !profile.empty()) {
        auto read = read_named_lens(profile, beside_scene(findings.file(), ""));
        if (read) {
            lens.profile = read->profile;
            lens.profile_file = profile;
        } else
            for (Problem& problem : read.error()) {
                // A file that could not be opened is a mistake of the scene that names it.
                if (problem.where.line == 0) {
                    problem.what =
                        fmt::format("lens profile {}: {}", problem.where.file, problem.what);
                    problem.where = table->place_at("profile");
                }
                findings.add(problem.where, problem.what, problem.mend);
            }
    }
    table->refuse_unknown_keys();
}

void read_viewing(TableReader& root, SceneDraft& draft) {
    auto table = root.table("viewing");
    if (!table)
        return;
    scene::Viewing& viewing = draft.scene.viewing;
    scene::Use use{};
    optics::PrintViewing print{};
    if (table->read(keys::use, use))
        viewing = scene::viewing_for(use);
    const bool sized = table->read(keys::print_long_side_cm, print.long_side_cm);
    const bool distanced = table->read(keys::viewing_distance_cm, print.distance_cm);
    if (sized && distanced)
        viewing = print;
    table->refuse_unknown_keys();

    const bool has_use = table->find("use") != nullptr;
    const bool has_size = table->find("print_long_side_cm") != nullptr;
    const bool has_distance = table->find("viewing_distance_cm") != nullptr;
    const char* choices = "write use alone, or print_long_side_cm and viewing_distance_cm together";
    if (has_use && (has_size || has_distance))
        table->complain(table->place_at(has_size ? "print_long_side_cm" : "viewing_distance_cm"),
                        "[viewing] names a use and a print as well", choices);
    else if (has_size != has_distance)
        table->complain(table->place_at(has_size ? "print_long_side_cm" : "viewing_distance_cm"),
                        fmt::format("[viewing] lacks `{}`",
                                    has_size ? "viewing_distance_cm" : "print_long_side_cm"),
                        choices);
    else if (!has_use && !has_size)
        table->complain(table->place(), "[viewing] does not say how the picture is looked at",
                        choices);
}

}  // namespace backrow::scene_file
