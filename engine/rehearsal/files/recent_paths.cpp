#include "rehearsal/files/recent_paths.h"

#include "base/state_folder.h"
#include "base/whole_path.h"

#include <algorithm>
#include <filesystem>
#include <optional>
#include <sstream>
#include <system_error>

namespace backrow::rehearsal {
namespace {

constexpr std::size_t most_recent_bytes = 1u << 18;

const char* file_of(Recent of) {
    return of == Recent::scenes ? "recent-scenes" : "recent-folders";
}

/// All that are kept, there or gone.
std::vector<std::string> kept_paths(Recent of) {
    const auto folder = state_folder();
    const auto text = folder ? read_state(*folder / file_of(of), most_recent_bytes) : std::nullopt;
    std::vector<std::string> paths;
    std::istringstream lines{text.value_or("")};
    for (std::string line; paths.size() < most_recent(of) && std::getline(lines, line);)
        if (line.starts_with('/'))
            paths.push_back(line);
    return paths;
}

}  // namespace

std::vector<std::string> recent_paths(Recent of) {
    std::vector<std::string> paths = kept_paths(of);
    std::erase_if(paths, [of](const std::string& path) {
        std::error_code none;
        return of == Recent::scenes ? !std::filesystem::is_regular_file(path, none)
                                    : !std::filesystem::is_directory(path, none);
    });
    return paths;
}

void note_recent(Recent of, const std::string& path) {
    const auto folder = state_folder();
    const std::string whole = whole_path(path);
    if (!folder || whole.find('\n') != whole.npos)
        return;
    std::vector<std::string> paths = kept_paths(of);
    std::erase(paths, whole);
    paths.insert(paths.begin(), whole);
    if (paths.size() > most_recent(of))
        paths.resize(most_recent(of));
    std::string text;
    for (const std::string& line : paths)
        text += line + '\n';
    static_cast<void>(write_state(*folder / file_of(of), text));
}

}  // namespace backrow::rehearsal
