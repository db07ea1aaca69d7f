#pragma once

// People for tests of what stands round them.

#include "scene/scene.h"

#include <fmt/format.h>

#include <optional>
#include <string>
#include <vector>

namespace backrow::scene {

/// An adult of 1.70 m in a row, or alone with row −1.
inline Person somebody(const std::string& name, const FromMark& place, int row = 0,
                       figures::Posture posture = figures::Posture::standing) {
    return {.name = name,
            .place = place,
            .measures = figures::body_measures(1.70, std::nullopt),
            .pose = {.posture = posture},
            .row = row};
}

/// Rows of four, 0.55 m apart; row i stands at ups_m[i], i times depth_m back.
inline std::vector<Person> rows_at(const std::vector<double>& ups_m, double depth_m = 0.8) {
    std::vector<Person> people;
    for (std::size_t row = 0; row < ups_m.size(); ++row)
        for (int i = 0; i < 4; ++i)
            people.push_back(
                somebody(fmt::format("p{}", people.size()),
                         {-0.825 + 0.55 * i, ups_m[row], depth_m * static_cast<double>(row)},
                         static_cast<int>(row)));
    return people;
}

}  // namespace backrow::scene
