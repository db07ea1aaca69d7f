#pragma once

#include <catch2/catch.hpp>

#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <iterator>
#include <string>

namespace backrow {

/// A folder of our own that goes with the test.
class Folder {
public:
    Folder() {
        std::string name =
            (std::filesystem::temp_directory_path() / "backrow-test-XXXXXX").string();
        REQUIRE(::mkdtemp(name.data()) != nullptr);
        path_ = name;
    }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    ~Folder() { std::filesystem::remove_all(path_); }
    [[nodiscard]] std::string operator/(const char* name) const { return (path_ / name).string(); }
    [[nodiscard]] long entries() const {
        return std::distance(std::filesystem::directory_iterator{path_},
                             std::filesystem::directory_iterator{});
    }

private:
    std::filesystem::path path_;
};

}  // namespace backrow
