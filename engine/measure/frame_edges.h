#pragma once

// The edges of one frame: where they lie in it, and whether all of it moved.

#include "measure/pixel_box.h"
#include "measure/slanted_edge.h"

#include "base/image.h"

#include <tl/expected.hpp>

#include <vector>

namespace backrow::measure {

struct FrameEdge {
    PixelBox box;
    double image_height = 0;  ///< Of the box's middle: 0 in the picture's, 1 in its corners.
    tl::expected<EdgeSharpness, Unfit> sharpness = tl::unexpected(Unfit::no_contrast);
};

/// Measures the edges in these boxes, which must lie within the picture. Where the frame moved, all
/// are unfit.
[[nodiscard]] std::vector<FrameEdge> measure_edges(const Image<float>& picture,
                                                   const std::vector<PixelBox>& boxes);

/// Whether edges in the middle of the picture, where no lens prefers a direction, are sharper in
/// one direction than in the other: at least two in each, alike among themselves.
[[nodiscard]] bool frame_moved(const std::vector<FrameEdge>& edges);

}  // namespace backrow::measure
