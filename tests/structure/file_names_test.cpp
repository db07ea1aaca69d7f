// A header, its .cpp and its test carry one name. Several .cpp files may make up what one header
// promises (a family: grounds, panels, clothes); each then begins with that header.

#include "source_files.h"

#include <catch2/catch.hpp>

#include <map>
#include <regex>
#include <set>
#include <string>

using namespace backrow::structure;

namespace {

/// Tests whose subject is no single file, and what it is.
const std::map<std::string, std::string> subjects{
    {"tests/figures/clothes_test.cpp", "figures/clothes, the folder"},
    {"tests/figures/expression_test.cpp", "what expressions do to all parts of a head"},
    {"tests/figures/mesh_measures_test.cpp", "whole figures, measured"},
    {"tests/figures/posture_test.cpp", "figures/posture, the folder"},
    {"tests/plan/advice_on_demo_scenes_test.cpp", "advice held to grids on the demo scenes"},
    {"tests/plan/arranged_test.cpp", "arranged groups, as the face table sees them"},
    {"tests/plan/demo_scenes_test.cpp", "what the demo scenes show"},
    {"tests/plan/difficult_lens_test.cpp", "what a lens with faults does to advice and odds"},
    {"tests/plan/diffraction_test.cpp", "what diffraction does to all answers"},
    {"tests/rehearsal/random_hands_test.cpp", "all that hands do, by lot"},
    {"tests/scene_file/demo_scenes_test.cpp", "the demo scenes' files"},
    {"tests/scene_file/scene_errors_test.cpp", "every mistake in a scene file"},
};

std::string folder_of(const std::string& path) {
    return path.substr(0, path.rfind('/'));
}

std::string stem_of(const std::string& path) {
    const auto name = path.substr(path.rfind('/') + 1);
    return name.substr(0, name.rfind('.'));
}

std::string first_include(const std::string& text) {
    static const std::regex include{R"(#include "([^"]+)\")"};
    std::smatch match;
    return std::regex_search(text, match, include) ? match[1].str() : "";
}

/// What a test is called after, without _test and _gl.
std::string subject_of(const std::string& path) {
    static const std::regex endings{"(_gl)?_test$"};
    return std::regex_replace(stem_of(path), endings, "");
}

}  // namespace

TEST_CASE("a source file begins with the header whose promise it keeps", "[structure][property]") {
    for (const SourceFile& file : files_under("engine")) {
        if (!file.path.ends_with(".cpp"))
            continue;
        CAPTURE(file.path);
        const std::string header = "engine/" + first_include(file.text);
        const std::string own = folder_of(file.path) + "/" + stem_of(file.path) + ".h";
        if (text_of(own).empty())
            CHECK(layer_of(header) == layer_of(file.path));
        else
            CHECK(header == own);
        CHECK_FALSE(text_of(header).empty());
    }
}

TEST_CASE("a test is called after what it tests", "[structure][property]") {
    std::set<std::string> known;  // "layer/stem"
    for (const SourceFile& file : files_under("engine"))
        known.insert(layer_of(file.path) + "/" + stem_of(file.path));
    std::set<std::string> excused;
    for (const SourceFile& file : files_under("tests")) {
        const std::string layer = layer_of(file.path);
        // These are about the whole project.
        static const std::set<std::string> of_no_layer{"structure", "command", "documents"};
        if (!file.path.ends_with("_test.cpp") || of_no_layer.contains(layer))
            continue;
        CAPTURE(file.path);
        if (known.contains(layer + "/" + subject_of(file.path)))
            continue;
        CHECK(subjects.contains(file.path));
        excused.insert(file.path);
    }
    for (const auto& [test, subject] : subjects) {
        CAPTURE(test, subject);
        CHECK(excused.contains(test));  // Whoever needs no excuse any more is taken off the list.
    }
}
