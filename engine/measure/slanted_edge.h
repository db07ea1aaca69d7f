#pragma once

// How sharp a picture is at a slanted edge, after ISO 12233: where the edge runs, row by row; all
// rows projected along it into bins of a quarter of a pixel; their differences, windowed; the
// transform of these.
//
// In: linear light, black 0 and full scale 1. Knows nothing of files and lenses.

#include "measure/pixel_box.h"

#include "base/image.h"

#include <tl/expected.hpp>

#include <vector>

namespace backrow::measure {

struct MtfPoint {
    double cy_per_px = 0;
    double mtf = 0;
};

/// Along the normal of the edge, the pixels' own width included.
struct EdgeSharpness {
    bool is_upright = true;  ///< Nearly upright; else nearly level.
    double angle_deg = 0;    ///< From upright or from level, ≥ 0.
    double across_deg = 0;   ///< Which way is across it, from right towards down; > −90, ≤ 90.
    double mtf50_cy_per_px = 0;
    /// Standard error: the noise of the pixels, and half a per cent of the method and their digits.
    double mtf50_error_cy_per_px = 0;
    double dark = 0;  ///< Either side of the edge.
    double bright = 0;
    double rise_px = 0;           ///< From 10 to 90 % of the step.
    std::vector<MtfPoint> mtf{};  ///< From 0 to 1 cycle a pixel in steps of mtf_step_cy_per_px.
};

inline constexpr double mtf_step_cy_per_px = 0.01;

/// Why an edge cannot be measured.
enum class Unfit {
    too_short,     ///< The edge is shorter than shortest_edge_px, or shifts by less than a pixel.
    too_straight,  ///< Less than least_slant_deg: too few phases of the pixels.
    too_steep,     ///< More than most_slant_deg.
    no_contrast,   ///< No step, or one lost in noise.
    clipped,       ///< Black or white without detail.
    not_straight,  ///< Bent.
    uneven,        ///< Beside the edge is something else: another edge, texture, a gradient.
    too_narrow,    ///< The blur reaches the box's sides.
    sharpened,     ///< Overshoot beside the edge.
    noisy,         ///< The noise leaves MTF50 uncertain by more than most_error.
    moved,         ///< Of a whole frame: blurred in one direction. See frame_moved().
};

inline constexpr int shortest_edge_px = 20;
inline constexpr double least_slant_deg = 2.0;
inline constexpr double most_slant_deg = 20.0;
inline constexpr double most_error = 0.05;  ///< Of MTF50, one standard error.

/// Measures the edge in a box, which must lie within the picture.
///
/// holds   the window is level over all of the edge's blur and falls off as Hamming's does beside
///         it: one that falls off from the middle, as the standard's, narrows a broad blur
/// source  [ISO12233] for the order of the steps
[[nodiscard]] tl::expected<EdgeSharpness, Unfit> measure_edge(const Image<float>& picture,
                                                              const PixelBox& box);

/// "is clipped: …": why, and what to do about it, to follow the name of an edge.
[[nodiscard]] const char* to_words(Unfit why) noexcept;
/// "clipped": for tables.
[[nodiscard]] const char* to_word(Unfit why) noexcept;

}  // namespace backrow::measure
