#pragma once

// A folder of its own for what is kept between runs.

#include "../scene_file/scene_folder.h"

#include <cstdlib>
#include <filesystem>
#include <string>

namespace backrow::rehearsal {

struct KeptHome {
    scene_file::SceneFolder folder;
    std::string whole = std::filesystem::canonical(folder.path("")).string();

    KeptHome() { ::setenv("XDG_STATE_HOME", folder.path("state").c_str(), 1); }
    ~KeptHome() { ::unsetenv("XDG_STATE_HOME"); }
    KeptHome(const KeptHome&) = delete;
    KeptHome& operator=(const KeptHome&) = delete;
};

}  // namespace backrow::rehearsal
