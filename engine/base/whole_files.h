#pragma once

// Files that appear whole or not at all.

#include "base/image_files.h"
#include "base/problem.h"

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace backrow {

/// Whether a file could be written here, asked before long work: the folder exists and may be
/// written, and path is no folder. Nothing is left behind.
[[nodiscard]] Made<void> check_writable(const std::string& path);

/// Files written aside in their own folders. keep() renames all of them into place; without it the
/// destructor removes them and whatever stood there before is untouched.
class PendingFiles {
public:
    PendingFiles() = default;
    PendingFiles(const PendingFiles&) = delete;
    PendingFiles& operator=(const PendingFiles&) = delete;
    ~PendingFiles();

    /// Fails, leaving nothing of this file, where the folder or the disk refuses. A path that names
    /// a device or a pipe is remembered and written by keep().
    [[nodiscard]] Made<void> add(const std::string& path, std::span<const std::byte> bytes);
    [[nodiscard]] Made<void> add(const std::string& path, std::string_view text);

    /// Puts every file in place.
    [[nodiscard]] Made<void> keep();

private:
    struct Pending {
        std::string aside;  ///< Empty: straight to a device, from bytes.
        std::string path;
        std::vector<std::byte> bytes;
    };
    std::vector<Pending> files_;
};

}  // namespace backrow
