#include "stage/model_folder.h"

#include "base/files_read.h"

#include <algorithm>
#include <string_view>
#include <system_error>
#include <utility>

namespace backrow::stage {
namespace {

namespace fs = std::filesystem;

fs::path resolved(const fs::path& path) {
    std::error_code ignored;
    fs::path real = fs::weakly_canonical(fs::absolute(path, ignored), ignored);
    return ignored ? fs::path{} : real;
}

char lower(char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

bool equal_in_any_case(const std::string& a, const std::string& b) {
    return std::ranges::equal(a, b, {}, lower, lower);
}

bool is_file(const fs::path& path) {
    std::error_code ignored;
    return fs::is_regular_file(path, ignored);
}

}  // namespace

ModelFolder::ModelFolder(fs::path model, std::uintmax_t most_bytes)
    : model_{std::move(model)}, folder_{resolved(model_.has_parent_path() ? model_.parent_path()
                                                                          : fs::path{"."})},
      most_bytes_{most_bytes} {}

bool ModelFolder::holds(const fs::path& file) const {
    if (file == model_)
        return true;
    const fs::path real = resolved(file);
    if (real.empty() || folder_.empty())
        return false;
    const auto [in_folder, in_file] = std::ranges::mismatch(folder_, real);
    return in_folder == folder_.end() && in_file != real.end();
}

bool ModelFolder::Exists(const char* file) const {
    return is_file(file) && holds(file);
}

Assimp::IOStream* ModelFolder::Open(const char* file, const char* mode) {
    if (std::string_view{mode}.find_first_of("wa+") != std::string_view::npos || !is_file(file))
        return nullptr;
    if (!holds(file)) {
        if (refused_.empty())
            refused_ = file;
        return nullptr;
    }
    std::error_code failed;
    const std::uintmax_t bytes = fs::file_size(file, failed);
    if (failed || bytes > most_bytes_)
        return nullptr;
    note_read(file);
    return DefaultIOSystem::Open(file, mode);
}

std::optional<fs::path> ModelFolder::find(const std::string& named) const {
    std::string with_slashes = named;
    std::ranges::replace(with_slashes, '\\', '/');
    const fs::path path{with_slashes};
    const fs::path beside = model_.parent_path();
    for (const fs::path& place : {beside / path, beside / path.filename()})
        if (is_file(place) && holds(place))
            return place;
    return beside_in_any_case(path.filename().string());
}

// Other systems take TEST.PNG and test.png for one file. Of several, the first in order of name.
std::optional<fs::path> ModelFolder::beside_in_any_case(const std::string& name) const {
    std::optional<fs::path> best;
    std::error_code failed;
    for (fs::directory_iterator it{folder_, failed}, end; !failed && it != end;
         it.increment(failed))
        if (equal_in_any_case(it->path().filename().string(), name) && is_file(it->path()) &&
            holds(it->path()) && (!best || it->path() < *best))
            best = it->path();
    return best;
}

}  // namespace backrow::stage
