#include "plan/odds/odds_by_integration.h"

#include "optics/lens/quadrature.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

namespace backrow::plan {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

/// Beyond this many standard deviations lies less than 1e-15.
constexpr double reach = 8;
constexpr int most_panels = 400;

double normal_distribution(double x) {
    return std::erfc(-x / std::numbers::sqrt2) / 2;
}

double normal_density(double x) {
    return std::exp(-x * x / 2) * std::numbers::inv_sqrtpi / std::numbers::sqrt2;
}

/// Φ(to) − Φ(from) without losing digits in the tail above.
double normal_between(double from, double to) {
    if (!(from < to))
        return 0;
    return from > 0 ? normal_distribution(-from) - normal_distribution(-to)
                    : normal_distribution(to) - normal_distribution(from);
}

/// ∫ f over from … to, in panels.
template <class Function>
double integral(double from, double to, int panels, const Function& f) {
    constexpr int points_a_panel = 16;
    static const auto points = optics::gauss_legendre(points_a_panel);
    const double width = (to - from) / panels;
    double sum = 0;
    for (int panel = 0; panel < panels; ++panel)
        for (const optics::QuadraturePoint& point : points)
            sum += point.weight * f(from + (panel + point.at) * width);
    return sum * width;
}

/// Panels two spreads wide, for a Gaussian factor beside features as narrow as scale; 0 if too
/// many.
int panels_for(double spread, double scale) {
    const double panels = std::ceil(reach * spread / std::min(spread, scale));
    return panels <= most_panels ? static_cast<int>(panels) : 0;
}

/// What somebody may be off by: their zone less where they stand on average.
struct AllowedErrors {
    double least_m;
    double most_m;
    double spread_m;
};

/// Once the focus has landed; one for everybody who varies on their own. Whoever is carried makes
/// the same error as the one who carries, and both must hold.
std::vector<AllowedErrors> allowed_errors(const FrameModel& model,
                                          const optics::FocusedVergence& lens) {
    std::vector<AllowedErrors> found;
    for (const VaryingFace& face : model.faces) {
        const auto held = zone(face, lens);
        if (!held)
            return {};
        found.push_back({held->near_m - face.axial_m, held->far_m - face.axial_m, face.spread_m});
    }
    std::vector<AllowedErrors> own;
    for (std::size_t i = 0; i < found.size(); ++i) {
        const int carrier = model.faces[i].sways_with;
        if (carrier < 0)
            continue;
        AllowedErrors& shared = found[static_cast<std::size_t>(carrier)];
        shared.least_m = std::max(shared.least_m, found[i].least_m);
        shared.most_m = std::min(shared.most_m, found[i].most_m);
    }
    for (std::size_t i = 0; i < found.size(); ++i)
        if (model.faces[i].sways_with < 0)
            own.push_back(found[i]);
    return own;
}

/// Everybody who varies on their own holds, with the camera this far off.
double varying_hold(const std::vector<AllowedErrors>& all, double camera_m) {
    double product = 1;
    for (const AllowedErrors& one : all)
        if (one.spread_m > 0)
            product *= normal_between((one.least_m - camera_m) / one.spread_m,
                                      (one.most_m - camera_m) / one.spread_m);
    return product;
}

double narrowest_spread_m(const FrameModel& model) {
    double narrowest_m = infinity;
    for (const VaryingFace& face : model.faces)
        if (face.spread_m > 0)
            narrowest_m = std::min(narrowest_m, face.spread_m);
    return narrowest_m;
}

/// The middle integral: over the camera's sway, the focus being settled. Whoever does not vary on
/// their own bounds it instead.
double all_sharp(const FrameModel& model, double focus_m, int camera_panels) {
    const auto lens = landed(model, focus_m);
    if (!lens)
        return 0;
    const auto all = allowed_errors(model, *lens);
    if (all.empty())
        return 0;
    double least_m = -infinity, most_m = infinity;
    for (const AllowedErrors& one : all)
        if (one.spread_m == 0) {
            least_m = std::max(least_m, one.least_m);
            most_m = std::min(most_m, one.most_m);
        }
    const double camera_m = model.camera_spread_m;
    if (camera_m == 0)
        return least_m <= 0 && 0 <= most_m ? varying_hold(all, 0) : 0;
    const double from = std::max(-reach, least_m / camera_m);
    const double to = std::min(reach, most_m / camera_m);
    if (!(from < to))
        return 0;
    return integral(from, to, camera_panels,
                    [&](double c) { return normal_density(c) * varying_hold(all, c * camera_m); });
}

}  // namespace

std::optional<double> all_sharp_by_integration(const FrameModel& model) {
    const double narrowest_m = narrowest_spread_m(model);
    int camera_panels = 1;
    if (model.camera_spread_m > 0) {
        camera_panels = panels_for(model.camera_spread_m, narrowest_m);
        if (camera_panels == 0)
            return std::nullopt;
    }
    if (model.focus_spread_m == 0)
        return all_sharp(model, model.focus_m, camera_panels);

    // What smooths the integrand over the landing of the focus is the rest that varies. Somebody
    // whom nothing moves but the camera leaves corners where two such people's zones meet.
    const bool everybody_varies =
        std::ranges::all_of(model.faces, [](const VaryingFace& face) { return face.spread_m > 0; });
    if (!everybody_varies)
        return std::nullopt;
    const int focus_panels = panels_for(model.focus_spread_m, narrowest_m);
    if (focus_panels == 0 || focus_panels * camera_panels > most_panels)
        return std::nullopt;
    return integral(-reach, reach, focus_panels, [&](double a) {
        return normal_density(a) *
               all_sharp(model, model.focus_m + a * model.focus_spread_m, camera_panels);
    });
}

}  // namespace backrow::plan
