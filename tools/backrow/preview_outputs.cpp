#include "preview_outputs.h"

#include "console.h"

#include "scene/export_gltf.h"

#include "base/image_files.h"
#include "base/whole_files.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <system_error>

namespace {

namespace fs = std::filesystem;
using namespace backrow;

bool ends_in(const std::string& path, std::string_view ending) {
    std::string tail = path.size() < ending.size() ? path : path.substr(path.size() - ending.size());
    std::transform(tail.begin(), tail.end(), tail.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return tail == ending;
}

// Two spellings of one place compare equal, whether or not a file is there yet.
fs::path place_of(const std::string& path) {
    std::error_code none;
    const fs::path known = fs::weakly_canonical(path, none);
    return none ? fs::path{path} : known;
}

struct Named {
    const char* option;
    const std::string& path;
    std::vector<std::string_view> endings;
};

std::array<Named, 5> named(const PreviewOutputs& outputs) {
    return {Named{"-o", outputs.picture, {".png"}},
            Named{"--faces-sheet", outputs.faces_sheet, {".png"}},
            Named{"--linear", outputs.linear, {".pfm", ".hdr"}},
            Named{"--export", outputs.model, {".glb"}},
            Named{"--camera-json", outputs.camera_json, {}}};
}

bool is_device(const fs::path& path) {
    std::error_code none;
    return fs::is_character_file(path, none);
}

}  // namespace

void PreviewOutputs::add_to(CLI::App& verb) {
    verb.add_option("-o,--output", picture, "The picture (PNG)")
        ->required()
        ->type_name("OUT.png");
    verb.add_option("--faces-sheet", faces_sheet, "Each face at 100 % (PNG)")->type_name("OUT.png");
    verb.add_option("--linear", linear, "Linear light before tone mapping (PFM is lossless)")
        ->type_name("OUT.pfm|hdr");
    verb.add_option("--export", model, "Exactly what is drawn, as binary glTF 2.0")
        ->type_name("OUT.glb");
    verb.add_option("--camera-json", camera_json, "The camera as numbers")->type_name("OUT.json");
}

ExitCode check(const PreviewOutputs& outputs, const std::string& scene_path) {
    std::vector<fs::path> taken{place_of(scene_path)};
    for (const auto& [option, path, endings] : named(outputs)) {
        if (path.empty())
            continue;
        if (is_device(path))
            continue;
        if (!endings.empty() &&
            std::none_of(endings.begin(), endings.end(),
                         [&](std::string_view ending) { return ends_in(path, ending); }))
            return console::refuse_command(fmt::format("{} {} must end in {}", option, path,
                                                       fmt::join(endings, " or ")));
        const fs::path place = place_of(path);
        if (std::find(taken.begin(), taken.end(), place) != taken.end())
            return console::refuse_command(fmt::format(
                "{} {} is named already, as the scene or another output; choose another name",
                option, path));
        taken.push_back(place);
    }
    for (const auto& [option, path, endings] : named(outputs))
        if (!path.empty())
            if (const auto writable = check_writable(path); !writable)
                return console::refuse(writable.error());
    return ExitCode::done;
}

Made<void> write_outputs(const PreviewOutputs& outputs, const PreviewContents& contents) {
    PendingFiles files;
    const auto add = [&](const std::string& path, const auto& make) -> Made<void> {
        if (path.empty())
            return {};
        return files.add(path, make());
    };
    auto written = add(outputs.picture, [&] { return png_bytes(contents.picture.developed); });
    if (written)
        written = add(outputs.faces_sheet, [&] {
            return png_bytes(report::faces_sheet(contents.sheet, contents.title));
        });
    if (written)
        written = add(outputs.linear, [&] {
            return ends_in(outputs.linear, ".hdr") ? radiance_bytes(contents.picture.linear)
                                                   : pfm_bytes(contents.picture.linear);
        });
    if (written && !outputs.model.empty()) {
        const auto model = glb_from_stage(contents.stage, contents.view);
        written = model ? files.add(outputs.model, *model)
                        : Made<void>{tl::make_unexpected(model.error())};
    }
    if (written)
        written = add(outputs.camera_json, [&] {
            return camera_json(contents.view, contents.picture.developed.width_px(),
                               contents.picture.developed.height_px());
        });
    if (written)
        written = files.keep();
    return written;
}
