#include "plan/faces/worst_face.h"

#include "plan/faces/verdict.h"

#include <algorithm>
#include <numeric>
#include <utility>

namespace backrow::plan {
namespace {

/// Less is worse.
std::pair<int, double> rank_of(const Face& face) {
    const Verdict verdict = verdict_of(face);
    return {verdict == Verdict::hidden    ? 0
            : verdict == Verdict::cut_off ? 1
                                          : 2,
            -face.predicted_blur_px};
}

/// Less is less sharp.
std::pair<bool, double> rank_among_seen(const Face& face) {
    return {!is_seen(face), -face.predicted_blur_px};
}

}  // namespace

std::vector<std::size_t> worst_first(std::span<const Face> faces) {
    std::vector<std::size_t> order(faces.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::stable_sort(order, {}, [&](std::size_t i) { return rank_of(faces[i]); });
    return order;
}

std::size_t worst_face(std::span<const Face> faces) {
    return static_cast<std::size_t>(std::ranges::min_element(faces, {}, rank_among_seen) -
                                    faces.begin());
}

}  // namespace backrow::plan
