#include "figures/collars.h"

#include "figures/loft.h"

#include <cmath>
#include <numbers>
#include <span>

namespace backrow::figures {
namespace {

using glm::dvec3;

/// A line along the collar, in statures off the neckline.
struct Course {
    double above, off;
    double openness;
    double point = 0;  ///< How far it hangs down at the collar's points.
};

/// Courses from the lowest outside over the top, or the other way round, so that outside stays out.
void lay(const Neckline& line, std::span<const Course> courses, double open_rad, double point_rad,
         int columns, const dvec3& colour, shapes::Mesh& onto) {
    const double u = line.stature_m;
    const bool closed = open_rad <= 0;
    std::vector<Neckline::Place> places;
    std::vector<double> ends;
    for (int i = 0; i < columns; ++i) {
        const double share = closed ? i / static_cast<double>(columns) : i / (columns - 1.0);
        // Columns crowd at the opening, where the points are.
        const double even =
            closed ? share : share - 0.09 * std::sin(4 * std::numbers::pi * share) / 2;
        const double around = open_rad + even * 2 * (std::numbers::pi - open_rad);
        places.push_back(line.at(around));
        const double from_end =
            std::min(around - open_rad, 2 * std::numbers::pi - open_rad - around);
        ends.push_back(std::exp(-from_end * from_end / (point_rad * point_rad)));
    }
    Loft loft{columns, closed, {}};
    for (const Course& course : courses)
        for (std::size_t i = 0; i < places.size(); ++i)
            loft.points.push_back(
                {places[i].at_m +
                     line.skeleton.trunk[1] * ((course.above - course.point * ends[i]) * u) +
                     places[i].out * ((course.off + 0.25 * course.point * ends[i]) * u),
                 colour, course.openness});
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
    static constexpr Course collar[] = {
        {-0.004, 0.0008, 0.4},        {0.012, 0.0008, 0.6, 0.002}, {0.0165, 0.0020, 0.95, 0.004},
        {0.0160, 0.0038, 1.0, 0.006}, {0.004, 0.0075, 1.0, 0.016}, {-0.0045, 0.0112, 1.0, 0.028},
        {-0.0040, 0.0095, 0.5, 0.028}};
    lay(line, collar, open_rad, 0.30, columns, colour, onto);
}

void add_jacket_collar(const Neckline& line, const dvec3& colour, int columns, shapes::Mesh& onto) {
    static constexpr Course collar[] = {
        {-0.004, 0.0030, 0.4}, {0.0085, 0.0058, 0.8},         {0.0100, 0.0080, 1.0},
        {0.0050, 0.0110, 1.0}, {-0.0120, 0.0190, 1.0, 0.004}, {-0.0130, 0.0170, 0.5, 0.004}};
    lay(line, collar, 0.72, 0.4, columns, colour, onto);
}

}  // namespace backrow::figures
