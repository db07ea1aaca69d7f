// [setting], [[setting.backdrop]], [[model]], [odds] and [light].

#include "scene_file/reading/scene_draft.h"

#include "scene/limits.h"
#include "scene_file/scene_keys.h"

#include "base/files_read.h"

#include <fmt/format.h>

#include <filesystem>
#include <fstream>

namespace backrow::scene_file {
namespace {

namespace fs = std::filesystem;

constexpr std::uintmax_t most_model_bytes = 512u << 20;

// what is it ("model"), and how to make one that is smaller
void check_file(std::string_view key, const std::string& path, std::string_view kind,
                std::uintmax_t most_bytes, std::string_view lighter, TableReader& table) {
    const auto complain = [&](std::string_view what, std::string mend) {
        table.complain(table.place_at(key), fmt::format("{} file {} {}", kind, path, what),
                       std::move(mend));
    };
    std::error_code trouble;
    const fs::file_status status = fs::status(path, trouble);
    if (!fs::exists(status))
        return complain("does not exist", "paths start at the scene file's folder");
    if (!fs::is_regular_file(status))
        return complain("is not a file", fmt::format("name the {} itself, not its folder", kind));
    if (fs::file_size(path, trouble) > most_bytes)
        return complain(fmt::format("is larger than {} MB", most_bytes >> 20),
                        std::string{lighter});
    if (!open_to_read(path))
        complain("may not be read", "allow reading it, or copy it to a folder of your own");
}

void check_picture_file(std::string_view key, const std::string& path, TableReader& table) {
    check_file(key, path, "picture", scene::most_photograph_bytes, "save it as a smaller JPEG",
               table);
}

// The other kinds do not look at these, so that a photo can be exchanged with --set for one of
// them.
void read_photograph_keys(TableReader& entry, setting::Backdrop& backdrop,
                          const std::string& scene_file) {
    const bool is_photo = backdrop.kind == setting::BackdropKind::photo;
    setting::Photograph& photograph = backdrop.photograph;
    std::string file;
    if (entry.read("file", file)) {
        photograph.file = beside_scene(scene_file, file);
        photograph.named_at = entry.place_at("file");
        if (is_photo)
            check_picture_file("file", photograph.file, entry);
    } else if (is_photo && entry.find("file") == nullptr) {
        entry.complain(entry.place(), "a photo lacks `file`", "name the picture of the place");
    }
    if (!entry.read(keys::photo_width_m, photograph.width_m) && is_photo &&
        entry.find("width_m") == nullptr)
        entry.complain(entry.place(), "a photo lacks `width_m`",
                       "say how wide the place is that the picture shows, in metres");
    entry.read(keys::across_m, photograph.across_m);
    entry.read(keys::photo_up_m, photograph.up_m);
    entry.read(keys::highlight_gain, photograph.highlight_gain);
}

void read_panorama(TableReader& table, scene::Setting& setting, const std::string& scene_file) {
    std::string file;
    if (table.read("panorama", file)) {
        setting.panorama = beside_scene(scene_file, file);
        setting.panorama_at = table.place_at("panorama");
        check_picture_file("panorama", setting.panorama, table);
    }
    table.read(keys::panorama_turn_deg, setting.panorama_turn_deg);
}

void read_model(TableReader& table, scene::Scene& scene, const std::string& scene_file) {
    scene::Model model;
    std::string file;
    if (table.read("file", file)) {
        model.file = beside_scene(scene_file, file);
        model.named_at = table.place_at("file");
        check_file("file", model.file, "model", most_model_bytes, "export a lighter model", table);
    } else if (table.find("file") == nullptr) {
        table.complain(table.place(), "[[model]] lacks `file`", "name the model file to import");
    }
    table.read(keys::across_m, model.place.across_m);
    table.read(keys::back_m, model.place.back_m);
    table.read(keys::up_m, model.place.up_m);
    table.read(keys::scale, model.scale);
    table.read(keys::model_turn_deg, model.turn_deg);
    table.refuse_unknown_keys();
    scene.models.push_back(model);
}

}  // namespace

void read_surroundings(TableReader& root, SceneDraft& draft, const std::string& scene_file) {
    if (auto table = root.table("setting")) {
        scene::Setting& setting = draft.scene.setting;
        table->read(keys::ground, setting.ground);
        read_panorama(*table, setting, scene_file);
        for (TableReader& entry : table->tables("backdrop")) {
            setting::Backdrop backdrop;
            entry.read(keys::backdrop_kind, backdrop.kind);
            entry.read(keys::backdrop_back_m, backdrop.back_m);
            entry.read(keys::finish, backdrop.finish);
            read_photograph_keys(entry, backdrop, scene_file);
            entry.refuse_unknown_keys();
            setting.backdrops.push_back(backdrop);
        }
        table->refuse_unknown_keys();
    }
    for (TableReader& model : root.tables("model"))
        read_model(model, draft.scene, scene_file);
}

void read_odds_and_light(TableReader& root, SceneDraft& draft) {
    if (auto table = root.table("odds")) {
        scene::Odds& odds = draft.scene.odds;
        table->read(keys::sway_mm, odds.sway_mm);
        table->read(keys::sideways_sway_mm, odds.sideways_sway_mm);
        table->read(keys::camera_sway_mm, odds.camera_sway_mm);
        table->read(keys::autofocus_mm, odds.autofocus_mm);
        table->read(keys::recompose_deg, odds.recompose_deg);
        table->read(keys::line_up_mm, odds.line_up_mm);
        table->read(keys::delay_s, odds.delay_s);
        table->read(keys::blinks_per_min, odds.blinks_per_min);
        table->read(keys::blink_s, odds.blink_s);
        table->refuse_unknown_keys();
    }
    if (auto table = root.table("light")) {
        scene::Light& light = draft.scene.light;
        table->read(keys::light_kind, light.kind);
        table->read(keys::scene_ev100, light.scene_ev100);
        table->read(keys::sun_elevation_deg, light.sun_elevation_deg);
        table->read(keys::sun_azimuth_deg, light.sun_azimuth_deg);
        table->read(keys::window_azimuth_deg, light.window.azimuth_deg);
        table->read(keys::window_distance_m, light.window.distance_m);
        table->read(keys::window_width_m, light.window.width_m);
        table->read(keys::window_height_m, light.window.height_m);
        table->read(keys::window_sill_m, light.window.sill_m);
        table->refuse_unknown_keys();
    }
}

}  // namespace backrow::scene_file
