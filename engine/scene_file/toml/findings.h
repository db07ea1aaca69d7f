#pragma once

// Everything found wrong while a file is read, so that all of it can be told at once.

#include "base/problem.h"

#include <string>
#include <vector>

namespace backrow::scene_file {

/// How many problems are told at once; the rest are counted.
inline constexpr int most_problems_told = 50;

class Findings {
public:
    explicit Findings(std::string file) : file_{std::move(file)} {}

    void add(Place where, std::string what, std::string mend);
    /// About the file as a whole, unopened.
    void add_unreadable(std::string what, std::string mend);
    void add_all(std::vector<Problem> problems);

    [[nodiscard]] bool empty() const noexcept { return problems_.empty(); }
    [[nodiscard]] const std::string& file() const noexcept { return file_; }

    /// Where to point when something is missing altogether: the first character.
    [[nodiscard]] Place start_of_file() const { return {file_, 1, 1}; }

    /// Overrides first, then down the file, then other files; at most most_problems_told and a
    /// count.
    [[nodiscard]] std::vector<Problem> in_order() &&;

private:
    std::string file_;
    std::vector<Problem> problems_;
    long further_ = 0;
};

}  // namespace backrow::scene_file
