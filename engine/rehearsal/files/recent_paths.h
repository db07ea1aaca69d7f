#pragma once

// Scenes opened and folders used last, the newest first, kept in the state folder
// (base/state_folder.h). What is gone meanwhile is not listed.

#include <cstddef>
#include <string>
#include <vector>

namespace backrow::rehearsal {

enum class Recent { scenes, folders };

/// How many are kept.
[[nodiscard]] constexpr std::size_t most_recent(Recent of) noexcept {
    return of == Recent::scenes ? 12 : 6;
}

/// Those that are still there.
[[nodiscard]] std::vector<std::string> recent_paths(Recent of);

/// Puts one before all others. Where nothing can be kept nothing is, which is no reason to stop
/// anybody; nor is a path that does not stand on one line.
void note_recent(Recent of, const std::string& path);

}  // namespace backrow::rehearsal
