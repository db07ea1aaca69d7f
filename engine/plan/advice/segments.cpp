#include "plan/advice/segments.h"

#include <glm/geometric.hpp>

#include <algorithm>

namespace backrow::plan {

// On the endless lines the closest pair solves two linear equations; where that falls off the end
// of the second segment, its end is kept and the foot of the perpendicular from there is taken.
double closest_square_m2(const Segment& a, const Segment& b) {
    const glm::dvec3 along_a = a.to_m - a.from_m;
    const glm::dvec3 along_b = b.to_m - b.from_m;
    const glm::dvec3 between = a.from_m - b.from_m;
    const double a2 = glm::dot(along_a, along_a);
    const double b2 = glm::dot(along_b, along_b);
    const double both = glm::dot(along_a, along_b);
    const double off_a = glm::dot(along_a, between);
    const double off_b = glm::dot(along_b, between);

    double on_b = 0;
    if (b2 > 0) {
        const double spread = a2 * b2 - both * both;
        const double on_a =
            spread > 0 ? std::clamp((both * off_b - off_a * b2) / spread, 0.0, 1.0) : 0.0;
        on_b = std::clamp((both * on_a + off_b) / b2, 0.0, 1.0);
    }
    const double on_a = a2 > 0 ? std::clamp((on_b * both - off_a) / a2, 0.0, 1.0) : 0.0;
    const glm::dvec3 apart = between + on_a * along_a - on_b * along_b;
    return glm::dot(apart, apart);
}

}  // namespace backrow::plan
