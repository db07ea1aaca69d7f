#include "setting/backdrops/lattice.h"

#include <algorithm>
#include <cmath>

namespace backrow::setting {

std::vector<float> graded_lines(float low, float high, float step, float growth, float limit) {
    std::vector<float> lines;
    float gap = step;
    for (float line = low; line > -limit;) {
        gap *= growth;
        line -= gap;
        lines.push_back(line);
    }
    std::ranges::reverse(lines);
    const int steps = static_cast<int>(std::lround((high - low) / step));
    for (int i = 0; i <= steps; ++i) {
        lines.push_back(low + (high - low) * static_cast<float>(i) / static_cast<float>(steps));
    }
    gap = step;
    for (float line = high; line < limit;) {
        gap *= growth;
        line += gap;
        lines.push_back(line);
    }
    return lines;
}

}  // namespace backrow::setting
