#pragma once

// First names of many places for people whom nobody has named.

#include "figures/measures/body_measures.h"

#include <cstddef>
#include <set>
#include <string>
#include <vector>

namespace backrow::arranging {

/// Hands out names, none twice and none that is taken; when the list is through, "Odile 2".
class NameList {
public:
    explicit NameList(const std::vector<std::string>& taken) : taken_{taken.begin(), taken.end()} {}

    /// sex  female or male
    [[nodiscard]] std::string next(figures::Sex sex);

private:
    std::set<std::string> taken_;
    std::size_t next_woman_ = 0;
    std::size_t next_man_ = 0;
};

}  // namespace backrow::arranging
