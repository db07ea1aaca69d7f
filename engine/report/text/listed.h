#pragma once

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <string>
#include <vector>

namespace backrow::report {

/// "Odile", "Odile and Bram", "Odile, Bram and Sefu".
[[nodiscard]] inline std::string listed(std::vector<std::string> words) {
    if (words.empty())
        return {};
    const std::string last = words.back();
    words.pop_back();
    return words.empty() ? last : fmt::format("{} and {}", fmt::join(words, ", "), last);
}

}  // namespace backrow::report
