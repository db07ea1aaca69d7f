#pragma once

// Which part of the window lies where.

#include <imgui.h>

#include <array>
#include <optional>

namespace backrow::window {

/// A rectangle on the screen.
struct Area {
    ImVec2 least{};
    ImVec2 most{};
    [[nodiscard]] float width() const { return most.x - least.x; }
    [[nodiscard]] float height() const { return most.y - least.y; }
    [[nodiscard]] bool contains(const ImVec2& point) const {
        return point.x >= least.x && point.x <= most.x && point.y >= least.y && point.y <= most.y;
    }
};

enum class Part { picture, faces, above, side, panel };
inline constexpr std::array parts{Part::picture, Part::faces, Part::above, Part::side, Part::panel};
/// "the picture", "the faces", … as one speaks of them.
[[nodiscard]] const char* to_word(Part part) noexcept;

struct Layout {
    Area top, foot;
    std::array<std::optional<Area>, parts.size()> of_part{};  ///< Nothing for what is not shown.
    [[nodiscard]] const std::optional<Area>& of(Part part) const {
        return of_part[static_cast<std::size_t>(part)];
    }
};

/// What wants room besides the parts.
struct Margins {
    float top = 0;   ///< Height of the buttons at the top,
    float foot = 0;  ///< and of what is told at the foot; units of the screen.
};

/// Whether all parts have room beside each other, letters being so large.
[[nodiscard]] bool has_room_for_all(const ImVec2& size, double scale) noexcept;

/// No two overlap, whatever the size. Where there is no room for all, the panel stands beside one
/// of the others, or there is one alone.
///
/// size      of the window
/// scale     of letters and lines, at most greatest_scale()
/// enlarged  the part that takes the room of the others
[[nodiscard]] Layout lay_out(const ImVec2& size, double scale, const Margins& margins,
                             std::optional<Part> enlarged);

/// How large letters and lines may be for everything to have its place: 1.5 for 800 × 500.
[[nodiscard]] double greatest_scale(const ImVec2& size) noexcept;

}  // namespace backrow::window
