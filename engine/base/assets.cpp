#include "base/assets.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <array>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <system_error>

namespace backrow {

namespace fs = std::filesystem;

Made<std::string> find_asset(const std::string& name) {
    std::error_code none;
    const fs::path program_folder = fs::read_symlink("/proc/self/exe", none).parent_path();
    const std::array<std::string, 4> places{
        (program_folder / name).string(),
        (program_folder.parent_path() / BACKROW_INSTALL_DATADIR / "backrow" / name).string(),
        (fs::path{BACKROW_BUILT_ASSETS} / name).string(),
        (fs::path{BACKROW_SOURCE_DIR} / name).string()};
    for (const std::string& place : places)
        if (fs::is_regular_file(place, none))
            return place;
    return tl::make_unexpected(
        MachineFailure{fmt::format("cannot find {} in {}", name, fmt::join(places, ", ")),
                       "install the program again"});
}

Made<std::string> read_text(const std::string& path) {
    std::ifstream file{path, std::ios::binary};
    if (!file)
        return tl::make_unexpected(MachineFailure{fmt::format("cannot read {}", path), {}});
    return std::string{std::istreambuf_iterator<char>{file}, {}};
}

}  // namespace backrow
