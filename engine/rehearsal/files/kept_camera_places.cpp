#include "rehearsal/files/kept_camera_places.h"

#include "rehearsal/files/state_of_scene.h"

#include "scene_file/reading/read_scene.h"

#include "base/state_folder.h"
#include "base/whole_path.h"

#include <algorithm>
#include <filesystem>
#include <optional>
#include <sstream>
#include <string>
#include <system_error>

namespace backrow::rehearsal {
namespace {

constexpr std::size_t most_places_bytes = 1u << 18;
constexpr const char* first_line_of_places = "backrow camera places 1";
constexpr const char* before_each_place = "place";

std::optional<std::filesystem::path> places_file(const EditedScene& edited) {
    return state_of_scene(edited.path(), ".places");
}

/// As for --set, a list for each place; none where the file is of another scene or no such file.
std::vector<std::vector<std::string>> kept_place_values(const EditedScene& edited) {
    const auto file = places_file(edited);
    const auto text = file ? read_state(*file, most_places_bytes) : std::nullopt;
    std::istringstream lines{text.value_or("")};
    std::string line;
    if (!std::getline(lines, line) || line != first_line_of_places || !std::getline(lines, line) ||
        line != whole_path(edited.path()))
        return {};
    std::vector<std::vector<std::string>> places;
    while (std::getline(lines, line))
        if (line != before_each_place) {
            if (!places.empty())
                places.back().push_back(line);
        } else if (places.size() < most_camera_places) {
            places.emplace_back();
        } else {
            break;
        }
    return places;
}

/// Only what is set on a camera: a file of others must not rename anybody.
bool sets_camera(const std::string& value) {
    return value.starts_with("camera.") || value.starts_with("focus.") ||
           value.starts_with("lens.profile=");
}

}  // namespace

std::vector<CameraPlace> kept_camera_places(const EditedScene& edited) {
    std::vector<CameraPlace> places;
    if (edited.is_new())
        return places;  // what is there is of a scene that had this path before
    for (const std::vector<std::string>& values : kept_place_values(edited)) {
        if (!std::ranges::all_of(values, sets_camera))
            continue;
        if (const auto scene = scene_file::read_scene_text(edited.text(), edited.path(), values))
            places.push_back(camera_place(*scene));
    }
    return places;
}

void keep_camera_places(const EditedScene& edited, const std::vector<CameraPlace>& places) {
    const auto file = places_file(edited);
    const std::string path = whole_path(edited.path());
    if (!file || edited.is_new() || path.find('\n') != path.npos)
        return;
    if (places.empty()) {
        std::error_code ignored;
        std::filesystem::remove(*file, ignored);
        return;
    }
    std::string text = std::string{first_line_of_places} + '\n' + path + '\n';
    for (const CameraPlace& place : places) {
        text += std::string{before_each_place} + '\n';
        for (const std::string& value : values_of(place))
            text += value + '\n';
    }
    static_cast<void>(write_state(*file, text));
}

}  // namespace backrow::rehearsal
