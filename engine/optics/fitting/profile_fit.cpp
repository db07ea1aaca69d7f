#include "optics/fitting/profile_fit.h"

#include "optics/contrast/wave.h"
#include "optics/fitting/fit_errors.h"

#include "base/side_by_side.h"
#include "base/units.h"

#include <Eigen/Dense>
#include <unsupported/Eigen/NonLinearOptimization>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <set>
#include <tuple>
#include <utility>

namespace backrow::optics {
namespace {

constexpr std::size_t fewest = 6;  // measures
constexpr std::size_t term_count = 5;
constexpr std::array<std::string_view, term_count> keys{"spherical_dpt", "field_curvature_dpt",
                                                        "astigmatism_dpt", "coma_dpt", "focus_dpt"};
enum Term : std::size_t { spherical, field_curvature, astigmatism, coma, focus };

/// In pixels of blur through the widest opening, so that all are of one size.
using Terms = std::array<double, term_count>;

/// The dioptres that blur by a pixel there.
double dpt_a_pixel(const Lens& widest, double pixel_mm) {
    return pixel_mm / (image_distance_mm(widest) * m_from_mm(aperture_diameter_mm(widest)));
}

LensProfile profile_of(const Terms& terms, double dpt, const LensProfile& known) {
    LensProfile profile = known;
    profile.spherical_dpt = terms[spherical] * dpt;
    profile.field_curvature_dpt = terms[field_curvature] * dpt;
    profile.astigmatism_dpt = terms[astigmatism] * dpt;
    profile.coma_dpt = terms[coma] * dpt;
    profile.focus_offset_dpt = terms[focus] * dpt;
    return profile;
}

/// A measure with all of its model that does not depend on the terms.
struct Place {
    MeasuredContrast measured;
    Meetings meetings;
    std::array<Wave, term_count> wave_a_pixel;  ///< Of one term each.
    double left_by_pixel = 1;
};

Wave sum_of(const std::array<Wave, term_count>& waves, const Terms& terms) {
    Wave sum;
    for (std::size_t i = 0; i < term_count; ++i) {
        sum.radial += terms[i] * waves[i].radial;
        sum.around += terms[i] * waves[i].around;
        sum.fourth += terms[i] * waves[i].fourth;
        sum.coma += terms[i] * waves[i].coma;
    }
    return sum;
}

double along(const Wave& slopes, const Wave& wave) {
    return slopes.radial * wave.radial + slopes.around * wave.around + slopes.fourth * wave.fourth +
           slopes.coma * wave.coma;
}

/// Contrast, and by how much it grows with each term.
struct Modelled {
    double mtf = 0;
    Terms slopes{};
};

Modelled modelled(const Place& place, const Terms& terms) {
    const Contrast here = contrast(place.meetings, sum_of(place.wave_a_pixel, terms));
    Modelled found{.mtf = here.left * place.left_by_pixel};
    for (std::size_t i = 0; i < term_count; ++i)
        found.slopes[i] = along(here.slopes, place.wave_a_pixel[i]) * place.left_by_pixel;
    return found;
}

std::vector<Place> places_of(const TestShots& shots, const std::vector<MeasuredContrast>& measured,
                             const LensProfile& known, double dpt) {
    std::vector<Place> places(measured.size());
    side_by_side(measured.size(), [&](std::size_t i) {
        const MeasuredContrast& at = measured[i];
        const auto with = [&](const Terms& terms) {
            return lens_of(shots, profile_of(terms, dpt, known), at.f_number).value();
        };
        const Lens lens = with({});
        places[i] = {.measured = at,
                     .meetings = slanted_meetings(lens, at.image_height, at.tangential_share,
                                                  at.cy_per_mm, shots.light),
                     .wave_a_pixel = {},
                     .left_by_pixel = std::abs(box_otf(at.cy_per_mm * shots.pixel_mm))};
        for (std::size_t term = 0; term < term_count; ++term) {
            Terms one{};
            one[term] = 1;
            places[i].wave_a_pixel[term] = wave_of(with(one), shots.distance_m, at.image_height);
        }
    });
    return places;
}

/// How far the model is off at each, in standard errors, as functions of the terms that are sought;
/// the others are 0.
struct Misfits {
    using Scalar = double;
    using InputType = Eigen::VectorXd;
    using ValueType = Eigen::VectorXd;
    using JacobianType = Eigen::MatrixXd;
    enum { InputsAtCompileTime = Eigen::Dynamic, ValuesAtCompileTime = Eigen::Dynamic };

    const std::vector<Place>& places;
    const std::vector<std::size_t>& sought;

    [[nodiscard]] int inputs() const { return static_cast<int>(sought.size()); }
    [[nodiscard]] int values() const { return static_cast<int>(places.size()); }
    [[nodiscard]] Terms terms(const Eigen::VectorXd& of_sought) const {
        Terms all{};
        for (std::size_t i = 0; i < sought.size(); ++i)
            all[sought[i]] = of_sought[static_cast<Eigen::Index>(i)];
        return all;
    }
    int operator()(const Eigen::VectorXd& of_sought, Eigen::VectorXd& misfits) const {
        const Terms at = terms(of_sought);
        side_by_side(places.size(), [&](std::size_t i) {
            const MeasuredContrast& measured = places[i].measured;
            misfits[static_cast<Eigen::Index>(i)] =
                (modelled(places[i], at).mtf - measured.mtf) / measured.error;
        });
        return 0;
    }
    int df(const Eigen::VectorXd& of_sought, Eigen::MatrixXd& slopes) const {
        const Terms at = terms(of_sought);
        side_by_side(places.size(), [&](std::size_t i) {
            const Modelled here = modelled(places[i], at);
            for (std::size_t k = 0; k < sought.size(); ++k)
                slopes(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(k)) =
                    here.slopes[sought[k]] / places[i].measured.error;
        });
        return 0;
    }
};

/// Where a search may begin: the least squares have many hollows, for blur grows to both sides. No
/// search begins without coma or astigmatism: where there is none they matter by their squares, and
/// show no way out.
std::vector<Terms> beginnings(double px) {
    std::vector<Terms> all;
    for (const double a : {1.0, 5.0})
        for (const double e : {-4.0, -1.5, 0.0, 1.5})
            for (const double c : {-5.0, 0.0, 5.0})
                for (const double s : {-4.0, 0.5, 4.0})
                    for (const double b : {0.5, 3.0})
                        all.push_back({a * px, c * px, s * px, b * px, e * px});
    return all;
}

/// A quarter of the disc that would leave as little contrast as the worst of them, at least one.
double size_px(const std::vector<MeasuredContrast>& measured, double pixel_mm) {
    double most_mm = 0;
    for (const MeasuredContrast& one : measured)
        if (one.mtf < 0.6)
            most_mm = std::max(most_mm, 0.7 / one.cy_per_mm);
    return std::max(1.0, most_mm / 4 / pixel_mm);
}

Eigen::VectorXd best_of_searches(const Misfits& misfits, const std::vector<Terms>& beginnings) {
    // Few measures have more hollows, and are quickly tried.
    const std::size_t searches = std::clamp<std::size_t>(3000 / misfits.places.size(), 5, 60);
    struct Found {
        double squares;
        Eigen::VectorXd at;
    };
    const auto squares_at = [&](const Eigen::VectorXd& at) {
        Eigen::VectorXd off(misfits.values());
        misfits(at, off);
        return off.squaredNorm();
    };
    std::vector<Found> found;
    for (const Terms& beginning : beginnings) {
        Eigen::VectorXd at(misfits.inputs());
        for (std::size_t i = 0; i < misfits.sought.size(); ++i)
            at[static_cast<Eigen::Index>(i)] = beginning[misfits.sought[i]];
        if (std::ranges::none_of(found, [&](const Found& it) { return it.at == at; }))
            found.push_back({squares_at(at), at});
    }
    const auto first = found.begin();
    const auto last = first + static_cast<std::ptrdiff_t>(std::min(searches, found.size()));
    std::ranges::partial_sort(found, last, {}, &Found::squares);
    for (auto it = first; it != last; ++it) {
        Misfits by_value = misfits;
        Eigen::LevenbergMarquardt<Misfits> search(by_value);
        search.parameters.maxfev = 200;
        search.minimize(it->at);
        it->squares = squares_at(it->at);
    }
    return std::ranges::min_element(first, last, {}, &Found::squares)->at;
}

/// Standard errors; where what is left is more than the errors of the measures explain, by as much
/// larger. Frequencies at one place of one frame are off together, for they are of the same edges:
/// together they count as one.
std::vector<double> errors_of(const Misfits& misfits, const Eigen::VectorXd& at) {
    Eigen::VectorXd left(misfits.values());
    misfits(at, left);
    const double freedom = std::max(1, misfits.values() - misfits.inputs());
    std::set<std::tuple<double, double, double>> edges;
    std::vector<Ring> rings;
    for (const auto& [measured, meetings, waves, pixel] : misfits.places) {
        edges.emplace(measured.f_number, measured.image_height, measured.tangential_share);
        rings.push_back(ring_of(measured.f_number, measured.image_height));
    }
    const double together = static_cast<double>(left.size()) / static_cast<double>(edges.size());
    Eigen::MatrixXd slopes(misfits.values(), misfits.inputs());
    misfits.df(at, slopes);
    return standard_errors({slopes.data(), static_cast<std::size_t>(slopes.size())},
                           {left.data(), static_cast<std::size_t>(left.size())},
                           together * std::max(1.0, left.squaredNorm() / freedom), rings);
}

// Which way round it is cannot be told; see the header.
void turn_the_usual_way(Terms& terms) {
    terms[coma] = std::abs(terms[coma]);
    const auto decides = std::ranges::find_if(terms, [](double it) { return it != 0; });
    if (decides != terms.end() && *decides < 0)
        for (const Term term : {spherical, field_curvature, astigmatism, focus})
            terms[term] = terms[term] == 0 ? 0 : -terms[term];
}

// Nothing is known finer than this: a chart that hangs 3 mm out of true at 2.5 m is worth as much.
constexpr double finest_px = 0.1;

/// Which of them is told worst, if it could as well blur by a pixel more or less, and be none.
std::optional<std::size_t> least_told(const Eigen::VectorXd& terms_px,
                                      const std::vector<double>& errors_px) {
    constexpr double most_error_px = 1.0;
    constexpr double sure = 3;
    std::optional<std::size_t> worst;
    for (std::size_t i = 0; i < errors_px.size(); ++i)
        if (errors_px[i] > most_error_px &&
            std::abs(terms_px[static_cast<Eigen::Index>(i)]) < sure * errors_px[i] &&
            (!worst || errors_px[i] > errors_px[*worst]))
            worst = i;
    return worst;
}

}  // namespace

bool FittedTerm::is_told() const noexcept {
    return std::isfinite(error_dpt);
}

double modelled_mtf(const TestShots& shots, const LensProfile& profile,
                    const MeasuredContrast& at) {
    if (!lens_of(shots, profile, at.f_number))
        return std::numeric_limits<double>::quiet_NaN();
    LensProfile known = profile;
    known.longitudinal_colour_dpt = {};
    const double focus_dpt = profile.focus_offset_dpt + profile.longitudinal_colour_dpt[1];
    return modelled(places_of(shots, {at}, known, 1).front(),
                    {profile.spherical_dpt, profile.field_curvature_dpt, profile.astigmatism_dpt,
                     profile.coma_dpt, focus_dpt})
        .mtf;
}

std::optional<ProfileFit> fit_profile(const TestShots& shots,
                                      const std::vector<MeasuredContrast>& measured,
                                      const LightFit& light) {
    if (measured.size() < fewest)
        return std::nullopt;
    const double widest_f_number =
        shots.widest_f_number > 0
            ? shots.widest_f_number
            : std::ranges::min_element(measured, {}, &MeasuredContrast::f_number)->f_number;
    const auto widest = focused_lens({.focal_length_mm = shots.focal_length_mm,
                                      .f_number = widest_f_number,
                                      .focus_m = shots.distance_m},
                                     shots.half_diagonal_mm);
    if (!widest)
        return std::nullopt;
    constexpr double usual_pixel_mm = 0.006;
    const double pixel_mm = shots.pixel_mm > 0 ? shots.pixel_mm : usual_pixel_mm;
    const double dpt = dpt_a_pixel(*widest, pixel_mm);
    const std::vector<Terms> begin_at = beginnings(size_px(measured, pixel_mm));

    const LensProfile known{.widest_f_number = widest_f_number,
                            .vignetting = light.vignetting,
                            .natural_falloff = light.natural_falloff};

    const std::vector<Place> places = places_of(shots, measured, known, dpt);
    std::vector<std::size_t> sought{spherical, field_curvature, astigmatism, coma, focus};
    Terms terms{}, errors{};
    for (;;) {
        const Misfits misfits{places, sought};
        const Eigen::VectorXd at = best_of_searches(misfits, begin_at);
        const std::vector<double> errors_px = errors_of(misfits, at);
        terms = misfits.terms(at);
        errors.fill(std::numeric_limits<double>::infinity());
        for (std::size_t i = 0; i < sought.size(); ++i)
            errors[sought[i]] = std::hypot(errors_px[i], finest_px);
        const auto worst = least_told(at, errors_px);
        if (!worst || sought.size() == 1)
            break;
        sought.erase(sought.begin() + static_cast<std::ptrdiff_t>(*worst));
    }
    turn_the_usual_way(terms);

    ProfileFit fit{.profile = profile_of(terms, dpt, known)};
    for (std::size_t i = 0; i < term_count; ++i)
        fit.terms.push_back({keys[i], terms[i] * dpt, errors[i] * dpt});
    double squares = 0;
    for (const Place& place : places) {
        const double off = std::abs(modelled(place, terms).mtf - place.measured.mtf);
        squares += off * off;
        fit.worst_misfit = std::max(fit.worst_misfit, off);
    }
    fit.typical_misfit = std::sqrt(squares / static_cast<double>(measured.size()));
    fit.profile.focus_offset_dpt = 0;  // of these frames, not of the lens
    return fit;
}

}  // namespace backrow::optics
