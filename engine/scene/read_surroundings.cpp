// [setting], [[setting.backdrop]], [[model]], [odds] and [light].

#include "scene/scene_draft.h"
#include "scene/scene_keys.h"

#include <fmt/format.h>

#include <filesystem>
#include <fstream>

namespace backrow::scene {
namespace {

namespace fs = std::filesystem;

constexpr std::uintmax_t most_model_bytes = 512u << 20;

void check_model_file(const std::string& path, TableReader& model) {
    const auto complain = [&](std::string_view what, std::string mend) {
        model.complain(model.place_at("file"), fmt::format("model file {} {}", path, what),
                       std::move(mend));
    };
    std::error_code trouble;
    const fs::file_status status = fs::status(path, trouble);
    if (!fs::exists(status))
        return complain("does not exist", "paths start at the scene file's folder");
    if (!fs::is_regular_file(status))
        return complain("is not a file", "name the model itself, not its folder");
    if (fs::file_size(path, trouble) > most_model_bytes)
        return complain(fmt::format("is larger than {} MB", most_model_bytes >> 20),
                        "export a lighter model");
    if (!std::ifstream{path, std::ios::binary})
        complain("may not be read", "allow reading it, or copy it to a folder of your own");
}

void read_model(TableReader& table, Scene& scene, const std::string& scene_file) {
    Model model;
    std::string file;
    if (table.read("file", file)) {
        model.file = beside_scene(scene_file, file);
        model.named_at = table.place_at("file");
        check_model_file(model.file, table);
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
        Setting& setting = draft.scene.setting;
        table->read(keys::ground, setting.ground);
        for (TableReader& entry : table->tables("backdrop")) {
            setting::Backdrop backdrop;
            entry.read(keys::backdrop_kind, backdrop.kind);
            entry.read(keys::backdrop_back_m, backdrop.back_m);
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
        Odds& odds = draft.scene.odds;
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
        Light& light = draft.scene.light;
        table->read(keys::scene_ev100, light.scene_ev100);
        table->read(keys::sun_elevation_deg, light.sun_elevation_deg);
        table->read(keys::sun_azimuth_deg, light.sun_azimuth_deg);
        table->refuse_unknown_keys();
    }
}

}  // namespace backrow::scene
