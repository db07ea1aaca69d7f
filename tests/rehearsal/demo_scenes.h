#pragma once

// The scenes that come with the program.

#include "scene_file/reading/read_scene.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

namespace backrow::rehearsal {

inline std::vector<std::string> demo_scene_files() {
    std::vector<std::string> files;
    for (const auto& entry :
         std::filesystem::directory_iterator{std::string{BACKROW_SOURCE_DIR} + "/scenes"})
        if (entry.path().extension() == ".toml")
            files.push_back(entry.path().string());
    std::ranges::sort(files);
    REQUIRE(files.size() > 5);
    return files;
}

inline std::string demo_scene_file(const std::string& name) {
    return std::string{BACKROW_SOURCE_DIR} + "/scenes/" + name + ".toml";
}

inline scene::Scene demo_scene(const std::string& name,
                               const std::vector<std::string>& overrides = {}) {
    auto scene = scene_file::read_scene(demo_scene_file(name), overrides);
    REQUIRE(scene);
    return std::move(*scene);
}

}  // namespace backrow::rehearsal
