#pragma once

// The papers that can be chosen.

namespace backrow::papers {

/// `phone` is a picture for the photographer's own screen, as tall as what stands on it needs.
enum class Paper { a4, a5, letter, phone };

/// Points, 1/72 inch.
struct PaperSize {
    int width_pt;
    int height_pt;  ///< 0: as tall as it needs to be.
    int margin_pt;
};

/// A sizes from ISO 216, from memory; Letter is 8½ × 11 inches.
[[nodiscard]] constexpr PaperSize size_of(Paper paper) noexcept {
    switch (paper) {
    case Paper::a4:
        return {595, 842, 34};
    case Paper::letter:
        return {612, 792, 34};
    case Paper::phone:
        return {360, 0, 12};
    case Paper::a5:
        break;
    }
    return {420, 595, 15};
}

}  // namespace backrow::papers
