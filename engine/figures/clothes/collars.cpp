#include "figures/clothes/collars.h"

#include "figures/body/loft.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <span>
#include <vector>

namespace backrow::figures {
namespace {

using glm::dvec3;

/// A line along the collar, in statures off the neckline.
struct Course {
    double above, off;
    double ambient_visibility;
    double point = 0;   ///< How far it hangs down at the collar's points.
    double spread = 0;  ///< How far its ends lie away from the opening, radians.
};

/// Courses from the lowest outside over the top, or the other way round, so that outside stays out.
void lay(const Neckline& line, std::span<const Course> courses, double open_rad, double point_rad,
         int columns, const dvec3& colour, shapes::Mesh& onto) {
    const double u = line.stature_m;
    const bool closed = open_rad <= 0;
    std::vector<Neckline::Place> places;
    std::vector<double> ends, arounds;
    for (int i = 0; i < columns; ++i) {
        const double share = closed ? i / static_cast<double>(columns) : i / (columns - 1.0);
        // Columns crowd at the opening, where the points are.
        const double even =
            closed ? share : share - 0.09 * std::sin(4 * std::numbers::pi * share) / 2;
        const double around = open_rad + even * 2 * (std::numbers::pi - open_rad);
        places.push_back(line.at(around));
        arounds.push_back(around);
        const double from_end =
            std::min(around - open_rad, 2 * std::numbers::pi - open_rad - around);
        ends.push_back(std::exp(-from_end * from_end / (point_rad * point_rad)));
    }
    // Between the places that are known, towards the nape by so much.
    const auto drawn_back = [&](std::size_t i, double by_rad) -> Neckline::Place {
        const bool from_left = arounds[i] < std::numbers::pi;
        const std::size_t next = from_left ? i + 1 : i - 1;
        if (by_rad <= 0 || next >= places.size())
            return places[i];
        const double share = std::min(1.0, by_rad / std::abs(arounds[next] - arounds[i]));
        return {glm::mix(places[i].at_m, places[next].at_m, share),
                glm::normalize(glm::mix(places[i].out, places[next].out, share))};
    };
    Loft loft{columns, closed, {}};
    for (const Course& course : courses)
        for (std::size_t i = 0; i < places.size(); ++i) {
            const Neckline::Place place = drawn_back(i, course.spread * ends[i]);
            loft.points.push_back(
                {place.at_m +
                     line.skeleton.trunk[1] * ((course.above - course.point * ends[i]) * u) +
                     place.out * ((course.off + 0.25 * course.point * ends[i]) * u),
                 colour, course.ambient_visibility});
        }
    append(loft, onto);
}

}  // namespace

void add_neckband(const Neckline& line, const dvec3& colour, int columns, shapes::Mesh& onto) {
    static constexpr Course band[] = {{0.003, 0.0000, 0.5},
                                      {0.007, 0.0022, 0.9},
                                      {0.0075, 0.0045, 1.0},
                                      {0.004, 0.0068, 1.0},
                                      {-0.007, 0.0110, 0.8}};
    lay(line, band, 0, 1, columns, colour, onto);
}

void add_shirt_collar(const Neckline& line, const dvec3& colour, double open_rad, int columns,
                      shapes::Mesh& onto) {
    static constexpr Course collar[] = {{-0.004, 0.0008, 0.4},
                                        {0.010, 0.0008, 0.6, 0.002},
                                        {0.0140, 0.0020, 0.95, 0.004},
                                        {0.0135, 0.0038, 1.0, 0.006, 0.02},
                                        {0.003, 0.0080, 1.0, 0.014, 0.14},
                                        {-0.0050, 0.0120, 1.0, 0.021, 0.26},
                                        {-0.0045, 0.0105, 0.5, 0.021, 0.26}};
    lay(line, collar, open_rad, 0.34, columns, colour, onto);
}

void add_jacket_collar(const Neckline& line, const dvec3& colour, int columns, shapes::Mesh& onto) {
    static constexpr Course collar[] = {
        {-0.004, 0.0030, 0.4}, {0.0085, 0.0058, 0.8},         {0.0100, 0.0080, 1.0},
        {0.0050, 0.0110, 1.0}, {-0.0120, 0.0190, 1.0, 0.004}, {-0.0130, 0.0170, 0.5, 0.004}};
    lay(line, collar, 0.72, 0.4, columns, colour, onto);
}

}  // namespace backrow::figures
