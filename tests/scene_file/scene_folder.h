#pragma once

// A folder for one test, holding a scene file and whatever it names; gone with the test.

#include "scene_file/reading/read_scene.h"

#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

namespace backrow::scene_file {

class SceneFolder {
public:
    SceneFolder() {
        std::string pattern = (std::filesystem::temp_directory_path() / "backrow-XXXXXX").string();
        folder_ = ::mkdtemp(pattern.data());
    }
    ~SceneFolder() {
        std::error_code ignored;
        std::filesystem::remove_all(folder_, ignored);
    }
    SceneFolder(const SceneFolder&) = delete;
    SceneFolder& operator=(const SceneFolder&) = delete;

    std::string write(const std::string& name, const std::string& text) const {
        const std::filesystem::path path = folder_ / name;
        std::filesystem::create_directories(path.parent_path());
        std::ofstream{path, std::ios::binary} << text;
        return path.string();
    }
    [[nodiscard]] std::string path(const std::string& name) const {
        return (folder_ / name).string();
    }

    [[nodiscard]] Checked<scene::Scene> read(const std::string& text,
                                             const std::vector<std::string>& overrides = {}) const {
        return scene_file::read_scene(write("x.toml", text), overrides);
    }

    /// The messages with the folder taken out: "x.toml:3:1: unknown key …".
    [[nodiscard]] std::vector<std::string>
    messages(const std::string& text, const std::vector<std::string>& overrides = {}) const {
        const auto scene = read(text, overrides);
        return scene ? std::vector<std::string>{} : lines(scene.error());
    }
    [[nodiscard]] std::vector<std::string> lines(const std::vector<Problem>& problems) const {
        std::vector<std::string> told;
        const std::string prefix = folder_.string() + "/";
        for (const Problem& problem : problems) {
            std::string line = to_line(problem);
            for (auto at = line.find(prefix); at != line.npos; at = line.find(prefix))
                line.erase(at, prefix.size());
            told.push_back(line);
        }
        return told;
    }

private:
    std::filesystem::path folder_;
};

}  // namespace backrow::scene_file
