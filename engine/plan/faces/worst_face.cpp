#include "plan/faces/worst_face.h"

#include <algorithm>
#include <numeric>
#include <utility>

namespace backrow::plan {
namespace {

/// Less is worse.
std::pair<bool, double> rank_of(const Face& face) {
    return {!face.in_frame, -face.predicted_blur_px};
}

}  // namespace

std::vector<std::size_t> worst_first(std::span<const Face> faces) {
    std::vector<std::size_t> order(faces.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::stable_sort(order, {}, [&](std::size_t i) { return rank_of(faces[i]); });
    return order;
}

std::size_t worst_face(std::span<const Face> faces) {
    return static_cast<std::size_t>(std::ranges::min_element(faces, {}, rank_of) - faces.begin());
}

}  // namespace backrow::plan
