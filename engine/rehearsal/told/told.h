#pragma once

// What differs between two states of a scene while it is being told, line by line.

#include "base/length_words.h"
#include "base/units.h"

#include <fmt/format.h>

#include <cmath>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace backrow::rehearsal {

[[nodiscard]] inline bool same_cm(double a_m, double b_m) {
    return std::lround(cm_from_m(a_m)) == std::lround(cm_from_m(b_m));
}

/// "15°"
[[nodiscard]] inline std::string degrees(double deg) {
    return fmt::format("{}°", std::lround(deg));
}

/// Takes what differs.
class Told {
public:
    explicit Told(Units units) : units_{units} {}

    [[nodiscard]] Units units() const noexcept { return units_; }
    /// "hedge 4 m → 8 m", where both are not the same.
    void words(std::string_view what, const std::string& before, const std::string& after) {
        if (before != after)
            lines_.push_back(fmt::format("{}{} → {}", what, before, after));
    }
    void add(std::string line) { lines_.push_back(std::move(line)); }

    std::vector<std::string> take() { return std::move(lines_); }

private:
    Units units_;
    std::vector<std::string> lines_;
};

}  // namespace backrow::rehearsal
