#include "measure/frame_edges.h"

#include "base/side_by_side.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace backrow::measure {
namespace {

double image_height_of(const PixelBox& box, int width_px, int height_px) {
    const double across = box.left + box.width_px / 2.0 - width_px / 2.0;
    const double down = box.top + box.height_px / 2.0 - height_px / 2.0;
    return std::hypot(across, down) / (std::hypot(width_px, height_px) / 2);
}

/// The range of MTF50 in the middle of the picture.
struct Range {
    int edges = 0;
    double low = 0;
    double high = 0;
};

Range range_of(const std::vector<FrameEdge>& edges, bool upright) {
    constexpr double middle = 0.4;  // of the way to the corners
    Range range;
    for (const FrameEdge& edge : edges) {
        if (!edge.sharpness || edge.sharpness->is_upright != upright || edge.image_height > middle)
            continue;
        const double mtf50 = edge.sharpness->mtf50_cy_per_px;
        range.low = range.edges == 0 ? mtf50 : std::min(range.low, mtf50);
        range.high = std::max(range.high, mtf50);
        ++range.edges;
    }
    return range;
}

}  // namespace

bool frame_moved(const std::vector<FrameEdge>& edges) {
    constexpr double apart = 1.3;
    constexpr double alike = 1.15;
    const Range upright = range_of(edges, true);
    const Range level = range_of(edges, false);
    if (upright.edges < 2 || level.edges < 2 || upright.high > alike * upright.low ||
        level.high > alike * level.low)
        return false;
    return upright.low > apart * level.high || level.low > apart * upright.high;
}

std::vector<FrameEdge> measure_edges(const Image<float>& picture,
                                     const std::vector<PixelBox>& boxes) {
    std::vector<FrameEdge> edges(boxes.size());
    side_by_side(boxes.size(), [&](std::size_t i) {
        edges[i].box = boxes[i];
        edges[i].image_height = image_height_of(boxes[i], picture.width_px(), picture.height_px());
        edges[i].sharpness = measure_edge(picture, boxes[i]);
    });
    if (frame_moved(edges))
        for (FrameEdge& edge : edges)
            edge.sharpness = tl::unexpected(Unfit::moved);
    return edges;
}

}  // namespace backrow::measure
