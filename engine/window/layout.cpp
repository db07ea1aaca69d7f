#include "window/layout.h"

#include <algorithm>
#include <cmath>

namespace backrow::window {
namespace {

// Units of a plain screen.
constexpr float gap_units = 6;
struct LeastRoom {
    float width, height;
};
constexpr LeastRoom least_for_all{780, 470};
constexpr LeastRoom least_for_one{520, 320};
constexpr float panel_beside_units = 330;
constexpr float least_beside_panel_units = 300;

/// The room between top and foot.
Area between(const ImVec2& size, float gap, const Margins& margins) {
    return {{gap, margins.top + gap}, {size.x - gap, size.y - margins.foot - gap}};
}

void lay_all(Layout& layout, const Area& room, float scale) {
    const float gap = gap_units * scale;
    const float middle = room.least.x + std::round(room.width() * 0.60f);
    const float faces = std::max(150 * scale, room.height() * 0.25f);
    const float panel = std::max(250 * scale, room.height() * 0.36f);
    const float above = std::round((room.height() - panel - 2 * gap) * 0.6f);
    const float faces_top = room.most.y - faces;
    const float panel_top = room.most.y - panel;
    const float side_top = room.least.y + above + gap;
    layout.of_part = {Area{room.least, {middle - gap, faces_top - gap}},
                      Area{{room.least.x, faces_top}, {middle - gap, room.most.y}},
                      Area{{middle, room.least.y}, {room.most.x, side_top - gap}},
                      Area{{middle, side_top}, {room.most.x, panel_top - gap}},
                      Area{{middle, panel_top}, room.most}};
}

}  // namespace

const char* to_word(Part part) noexcept {
    switch (part) {
    case Part::picture:
        return "the picture";
    case Part::faces:
        return "the faces";
    case Part::above:
        return "from above";
    case Part::side:
        return "from the side";
    case Part::panel:
        return "the panel";
    }
    return "";
}

bool has_room_for_all(const ImVec2& size, double scale) noexcept {
    const auto s = static_cast<float>(scale);
    return size.x >= least_for_all.width * s && size.y >= least_for_all.height * s;
}

Layout lay_out(const ImVec2& size, double scale, const Margins& margins,
               std::optional<Part> enlarged) {
    const auto s = static_cast<float>(scale);
    const float gap = std::round(gap_units * s);
    const Area room = between(size, gap, margins);
    Layout layout{.top = {{gap, 0}, {size.x - gap, margins.top}},
                  .foot = {{gap, size.y - margins.foot}, {size.x - gap, size.y}}};
    const auto area_of = [&](Part part) -> std::optional<Area>& {
        return layout.of_part[static_cast<std::size_t>(part)];
    };
    if (!enlarged && has_room_for_all(size, scale)) {
        lay_all(layout, room, s);
        return layout;
    }
    const Part shown = enlarged.value_or(Part::picture);
    const bool has_panel_beside =
        !has_room_for_all(size, scale) && shown != Part::panel &&
        room.width() >= (panel_beside_units + least_beside_panel_units) * s;
    Area alone = room;
    if (has_panel_beside) {
        alone.most.x = room.most.x - panel_beside_units * s - gap;
        area_of(Part::panel) = Area{{alone.most.x + gap, room.least.y}, room.most};
    }
    area_of(shown) = alone;
    return layout;
}

double greatest_scale(const ImVec2& size) noexcept {
    return std::min(size.x / least_for_one.width, size.y / least_for_one.height);
}

}  // namespace backrow::window
