#include "base/files_read.h"

#include <algorithm>
#include <mutex>
#include <set>
#include <system_error>

namespace backrow {
namespace {

namespace fs = std::filesystem;

// Names, not the files behind them: one that an editor has put in place of another counts as well.
struct FilesRead {
    std::mutex lock;
    std::set<fs::path> names;
};

FilesRead& files_read() {
    static FilesRead files;
    return files;
}

}  // namespace

std::ifstream open_to_read(const fs::path& file) {
    note_read(file);
    return std::ifstream{file, std::ios::binary};
}

void note_read(const fs::path& file) {
    std::error_code none;
    const fs::path whole = fs::absolute(file, none);
    FilesRead& files = files_read();
    const std::scoped_lock held{files.lock};
    files.names.insert(none ? file : whole);
}

bool was_read(const std::string& path) {
    FilesRead& files = files_read();
    const std::scoped_lock held{files.lock};
    return std::ranges::any_of(files.names, [&](const fs::path& name) {
        std::error_code none;
        return fs::equivalent(name, path, none) && !none;
    });
}

}  // namespace backrow
