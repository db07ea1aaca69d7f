// What each layer may include: the layers below it, and the outside libraries of its own column in
// the table in DEVELOPERS.md. The include roots in engine/CMakeLists.txt hold the first already;
// the second needs this test, for the headers of GLM, toml++ and the rest lie in /usr/include,
// where every layer's compiler finds them.

#include "source_files.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <map>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <vector>

using namespace backrow::structure;

namespace {

struct Layer {
    std::set<std::string> above;      ///< Layers it names.
    std::set<std::string> libraries;  ///< First folder or word of their headers, or "posix".
};

const std::map<std::string, Layer> layers{
    {"base",
     {{},
      {"fmt", "tl", "stb", "utf8proc", "webp", "posix"}}},  // posix: files are synced and renamed
    {"optics", {{"base"}, {"Eigen", "unsupported", "fmt"}}},
    {"measure", {{"base"}, {"tl"}}},
    {"inspection", {{"measure", "optics"}, {"dlib"}}},
    // stb: textures come packed inside model files.
    {"photographs", {{"base"}, {"libexif", "fmt", "stb", "tl"}}},
    {"shapes", {{"base"}, {"glm"}}},
    {"figures", {{"shapes"}, {"glm"}}},
    {"setting", {{"shapes"}, {"glm"}}},
    {"scene", {{"figures", "setting", "optics"}, {"glm", "fmt"}}},
    {"arranging", {{"scene"}, {"glm", "fmt"}}},
    // tl: what Checked<T> is made of.
    {"scene_file", {{"arranging"}, {"toml++", "lensfun", "glm", "fmt", "tl"}}},
    {"stage", {{"scene", "photographs"}, {"assimp", "glm", "nlohmann", "fmt", "stb", "tl"}}},
    {"plan", {{"scene"}, {"glm"}}},
    {"report", {{"plan", "arranging", "inspection"}, {"cairo", "pango", "nlohmann", "fmt"}}},
    {"papers", {{"report"}, {"fmt", "glib"}}},
    {"render", {{"stage", "measure"}, {"glad", "glm", "fmt"}}},
    {"rehearsal", {{"plan", "scene_file", "stage"}, {"glm", "fmt"}}},
    {"delivery", {{"papers", "render"}, {"fmt"}}},
    {"window", {{"rehearsal", "delivery"}, {"imgui", "GLFW", "fontconfig", "nlohmann", "fmt"}}},
};

const std::set<std::string> posix_headers{"unistd.h", "fcntl.h", "sys/stat.h"};

/// The layer itself and all below it.
std::set<std::string> visible_from(const std::string& name) {
    std::set<std::string> visible{name};
    for (const std::string& above : layers.at(name).above)
        visible.merge(visible_from(above));
    return visible;
}

std::string library_of(const std::string& header) {
    if (posix_headers.contains(header))
        return "posix";
    if (header.starts_with("backends/imgui"))
        return "imgui";
    const auto slash = header.find('/');
    if (slash != std::string::npos)
        return header.substr(0, slash);
    for (const std::string library : {"cairo", "glib", "imgui", "utf8proc"})
        if (header.starts_with(library))
            return library;
    const bool is_standard = header.find('.') == std::string::npos;
    return is_standard ? "" : header;
}

/// What is wrong with one include of a layer; empty where nothing is.
std::string complaint(const std::string& layer, char bracket, const std::string& header) {
    if (header.find("..") != std::string::npos)
        return "goes up with ..";
    if (bracket == '"') {
        const std::string folder = header.substr(0, header.find('/'));
        return visible_from(layer).contains(folder) ? "" : layer + " does not see " + folder;
    }
    const std::string library = library_of(header);
    return library.empty() || layers.at(layer).libraries.contains(library)
               ? ""
               : layer + " does not use " + library;
}

std::vector<std::string> complaints(const std::string& layer, const std::string& text) {
    static const std::regex include{R"(^\s*#\s*include\s*([<"])([^>"]+)[>"])"};
    std::vector<std::string> found;
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        std::smatch match;
        if (!std::regex_search(line, match, include))
            continue;
        const std::string wrong = complaint(layer, match[1].str().front(), match[2].str());
        if (!wrong.empty())
            found.push_back(line + ": " + wrong);
    }
    return found;
}

/// The libraries that whoever includes a file of ours includes with it, through any number of our
/// headers.
std::set<std::string> libraries_reached(const std::string& path,
                                        const std::map<std::string, std::string>& texts) {
    static const std::regex include{R"(#\s*include\s*([<"])([^>"]+)[>"])"};
    std::set<std::string> libraries;
    std::set<std::string> seen{path};
    std::vector<std::string> to_read{path};
    while (!to_read.empty()) {
        const auto found = texts.find(to_read.back());
        to_read.pop_back();
        if (found == texts.end())
            continue;
        const std::string& text = found->second;
        for (std::sregex_iterator it{text.begin(), text.end(), include}, end; it != end; ++it) {
            const std::string header = (*it)[2];
            if ((*it)[1] == "\"" && seen.insert(header).second)
                to_read.push_back(header);
            if ((*it)[1] == "<" && !library_of(header).empty())
                libraries.insert(library_of(header));
        }
    }
    return libraries;
}

/// In engine/ itself, in no layer.
bool lies_at_the_top(const std::string& path) {
    return path.find('/') == path.rfind('/');
}

}  // namespace

TEST_CASE("every folder of the engine is a layer of the table", "[structure][property]") {
    std::set<std::string> folders, names;
    for (const SourceFile& file : files_under("engine"))
        if (!lies_at_the_top(file.path))
            folders.insert(layer_of(file.path));
    for (const auto& [name, layer] : layers)
        names.insert(name);
    CHECK(folders == names);
}

TEST_CASE("layers include what stands below them and their own libraries",
          "[structure][property]") {
    for (const SourceFile& file : files_under("engine")) {
        if (!layers.contains(layer_of(file.path)))
            continue;
        CAPTURE(file.path);
        CHECK(complaints(layer_of(file.path), file.text) == std::vector<std::string>{});
    }
}

TEST_CASE("no layer meets a library through the headers of others that none of them may use",
          "[structure][property]") {
    std::map<std::string, std::string> texts;  // By "layer/…/file.h".
    for (const SourceFile& file : files_under("engine"))
        if (!lies_at_the_top(file.path))
            texts[file.path.substr(file.path.find('/') + 1)] = file.text;
    for (const auto& [path, text] : texts) {
        const std::string layer = layer_of("engine/" + path);
        if (!layers.contains(layer))
            continue;
        CAPTURE(path);
        for (const std::string& library : libraries_reached(path, texts)) {
            CAPTURE(library);
            const auto seen = visible_from(layer);
            CHECK(std::ranges::any_of(seen, [&](const std::string& name) {
                return layers.at(name).libraries.contains(library);
            }));
            if (layer == "plan")
                CHECK((library != "toml++" && library != "assimp"));
        }
    }
}

TEST_CASE("a library behind two headers is found", "[structure][property]") {
    const std::map<std::string, std::string> texts{{"plan/a.h", "#include \"scene/b.h\"\n"},
                                                   {"scene/b.h", "#include \"scene/c.h\"\n"},
                                                   {"scene/c.h", "#include <toml++/toml.h>\n"}};
    CHECK(libraries_reached("plan/a.h", texts) == std::set<std::string>{"toml++"});
}

TEST_CASE("an include that breaks the table is found", "[structure][property]") {
    const auto refuses = [](const std::string& layer, const std::string& line) {
        return complaints(layer, "#pragma once\n" + line + "\n").size() == 1;
    };
    CHECK(refuses("plan", "#include \"render/gl.h\""));
    CHECK(refuses("plan", "#include \"report/canvas.h\""));
    CHECK(refuses("plan", "#include <cairo.h>"));
    CHECK(refuses("plan", "#include <cairo-pdf.h>"));
    CHECK(refuses("report", "#include <glad/gl.h>"));
    CHECK(refuses("optics", "#include <glm/vec3.hpp>"));
    CHECK(refuses("measure", "  #  include <fmt/format.h>"));
    CHECK(refuses("measure", "#include \"optics/lens/lens.h\""));
    CHECK(refuses("optics", "#include <unistd.h>"));
    CHECK(refuses("scene", "#include \"../plan/face_table.h\""));
    CHECK(refuses("scene", "#include <png.h>"));
    CHECK(refuses("scene", "#include \"face_table.h\""));

    CHECK_FALSE(refuses("plan", "#include \"scene/scene.h\""));
    CHECK_FALSE(refuses("plan", "#include \"base/units.h\""));
    CHECK_FALSE(refuses("plan", "#include <vector>"));
    CHECK_FALSE(refuses("report", "#include <cairo.h>"));
}
