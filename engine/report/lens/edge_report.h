#pragma once

// Edges measured in frames, as text to read, JSON and CSV to work on.

#include "measure/frame_edges.h"

#include <optional>
#include <string>
#include <vector>

namespace backrow::report {

/// One frame's edges and what the camera noted beside it.
struct FrameEdges {
    std::string image;
    std::optional<double> f_number{};
    std::optional<double> focal_length_mm{};
    std::vector<measure::FrameEdge> edges{};
};

/// One line an edge, what was refused and why, and for each frame MTF50 in the middle of the
/// picture, half-way and in the corners. Ends with a line break.
[[nodiscard]] std::string edges_text(const std::vector<FrameEdges>& frames);

/// One JSON object with the documented keys. Ends with a line break.
[[nodiscard]] std::string edges_json(const std::vector<FrameEdges>& frames);

/// A heading and one record an edge that was measured.
[[nodiscard]] std::string edges_csv(const std::vector<FrameEdges>& frames);

/// "12 clipped, 1 noisy": why edges of a frame are unfit, the most frequent reason first.
[[nodiscard]] std::string unfit_counts(const std::vector<measure::FrameEdge>& edges);

}  // namespace backrow::report
