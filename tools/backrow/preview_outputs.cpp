#include "preview_outputs.h"

#include "console.h"

#include "scene/export_gltf.h"

#include "base/image_files.h"

#include <fmt/format.h>

#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <system_error>

namespace {

namespace fs = std::filesystem;
using namespace backrow;

bool ends_in(const std::string& path, std::string_view ending) {
    std::string tail =
        path.size() < ending.size() ? path : path.substr(path.size() - ending.size());
    std::transform(tail.begin(), tail.end(), tail.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    return tail == ending;
}

// Two spellings of one place compare equal, whether or not a file is there yet.
fs::path place_of(const std::string& path) {
    std::error_code none;
    const fs::path known = fs::weakly_canonical(fs::absolute(path, none), none);
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

// "/dev/stdout", or the file that the shell sends the table to.
bool is_stdout(const std::string& path) {
    struct stat there {};
    struct stat here {};
    return ::stat(path.c_str(), &there) == 0 && ::fstat(STDOUT_FILENO, &here) == 0 &&
           there.st_dev == here.st_dev && there.st_ino == here.st_ino;
}

// An empty word, as an unset variable of a script leaves, would otherwise mean "not wanted".
std::string names_a_file(const std::string& path) {
    return path.empty() ? "needs the name of a file" : std::string{};
}

}  // namespace

void PreviewOutputs::add_to(CLI::App& verb) {
    const auto add = [&](const char* option, std::string& path, const char* description,
                         const char* type) {
        return verb.add_option(option, path, description)->type_name(type)->check(names_a_file);
    };
    add("-o,--output", picture, "The picture (PNG)", "OUT.png")->required();
    add("--faces-sheet", faces_sheet, "Each face at 100 % (PNG)", "OUT.png");
    add("--linear", linear, "Linear light before tone mapping (PFM is lossless)", "OUT.pfm|hdr");
    add("--export", model, "Exactly what is drawn, as binary glTF 2.0", "OUT.glb");
    add("--camera-json", camera_json, "The camera as numbers", "OUT.json");
}

ExitCode check(const PreviewOutputs& outputs, const std::string& scene_path,
               const std::vector<scene::Model>& models) {
    std::vector<fs::path> taken{place_of(scene_path)};
    for (const scene::Model& model : models)
        taken.push_back(place_of(model.file));
    for (const auto& [option, path, endings] : named(outputs)) {
        if (path.empty())
            continue;
        if (is_device(path))
            continue;
        if (!endings.empty() &&
            std::none_of(endings.begin(), endings.end(),
                         [&](std::string_view ending) { return ends_in(path, ending); }))
            return console::refuse_command(
                fmt::format("{} {} must end in {}", option, path, fmt::join(endings, " or ")));
        if (is_stdout(path))
            return console::refuse_command(
                fmt::format("{} {} is where the table goes; choose another name", option, path));
        const fs::path place = place_of(path);
        if (std::find(taken.begin(), taken.end(), place) != taken.end())
            return console::refuse_command(fmt::format(
                "{} {} is the scene, a model in it, or another output; choose another name", option,
                path));
        taken.push_back(place);
    }
    for (const auto& [option, path, endings] : named(outputs))
        if (!path.empty())
            if (const auto writable = check_writable(path); !writable)
                return console::refuse(writable.error());
    return ExitCode::done;
}

Made<void> write_aside(PendingFiles& files, const PreviewOutputs& outputs,
                       const PreviewContents& contents) {
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
    return written;
}
