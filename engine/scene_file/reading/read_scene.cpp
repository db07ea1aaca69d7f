#include "scene_file/reading/read_scene.h"

#include "scene/settle.h"
#include "scene_file/editing/overrides.h"
#include "scene_file/reading/scene_draft.h"
#include "scene_file/toml/toml_file.h"

#include <filesystem>

namespace backrow::scene_file {
namespace {

constexpr std::size_t most_title_bytes = 400;

void read_title(TableReader& root, scene::Scene& scene) {
    if (root.read("title", scene.title) && scene.title.size() > most_title_bytes) {
        root.complain(root.place_at("title"), "the title is too long to stand over a picture",
                      "write one line");
    }
}

}  // namespace

Checked<std::string> scene_file_text(const std::string& path) {
    Findings findings{path};
    auto text = read_text("scene", findings);
    if (!text)
        return tl::unexpected(std::move(findings).in_order());
    return std::move(*text);
}

Checked<scene::Scene> read_scene(const std::string& path,
                                 const std::vector<std::string>& overrides) {
    const auto text = scene_file_text(path);
    if (!text)
        return tl::unexpected(text.error());
    return read_scene_text(*text, path, overrides);
}

Checked<scene::Scene> read_scene_text(const std::string& text, const std::string& path,
                                      const std::vector<std::string>& overrides) {
    auto tree = parse_toml(text, path);
    if (!tree)
        return tl::unexpected(std::vector{tree.error()});
    Findings findings{path};
    apply_overrides(*tree, overrides, findings);

    SceneDraft draft;
    draft.places.aim = draft.places.f_number = draft.places.focus = findings.start_of_file();
    TableReader root{*tree, "", findings};
    read_title(root, draft.scene);
    read_camera(root, draft);
    read_focus(root, draft);
    read_lens(root, draft, findings);
    read_viewing(root, draft);
    read_people(root, draft);
    read_surroundings(root, draft, path);
    read_odds_and_light(root, draft);
    root.refuse_unknown_keys();

    resolve_names(draft, findings);
    resolve_carriers(draft, findings);
    if (findings.empty())
        settle(draft.scene.people);
    if (findings.empty())
        check_geometry(draft.scene, draft.places, findings);
    if (!findings.empty())
        return tl::unexpected(std::move(findings).in_order());
    return std::move(draft.scene);
}

std::string beside_scene(const std::string& scene_file, const std::string& path) {
    return (std::filesystem::path{scene_file}.parent_path() / path).string();
}

}  // namespace backrow::scene_file
