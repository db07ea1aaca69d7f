#include "window/layout.h"

#include <algorithm>
#include <cmath>

namespace backrow::window {

Layout lay_out(const ImVec2& size, double scale) {
    const auto s = static_cast<float>(scale);
    const float gap = 6 * s;
    const float top = 34 * s;
    const float foot = 20 * s;
    const float middle = std::round(size.x * 0.60f);
    const float end = size.y - foot - gap;
    const float faces = std::max(150 * s, (end - top) * 0.25f);
    const float below = end - faces - gap;
    const float right_height = end - top - gap;
    const float panel = std::max(250 * s, right_height * 0.36f);
    const float above = std::round((right_height - panel - 2 * gap) * 0.6f);
    const float side_top = top + gap + above + gap;
    return {.top = {{gap, 0}, {size.x - gap, top}},
            .camera = {{gap, top + gap}, {middle - gap, below}},
            .faces = {{gap, below + gap}, {middle - gap, end}},
            .above = {{middle, top + gap}, {size.x - gap, top + gap + above}},
            .side = {{middle, side_top}, {size.x - gap, end - panel - gap}},
            .panel = {{middle, end - panel}, {size.x - gap, end}},
            .foot = {{gap, end + gap}, {size.x - gap, size.y}}};
}

}  // namespace backrow::window
