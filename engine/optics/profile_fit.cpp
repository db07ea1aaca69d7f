#include "optics/profile_fit.h"

#include "optics/light_loss.h"

#include "base/units.h"

#include <Eigen/Dense>
#include <unsupported/Eigen/NonLinearOptimization>
#include <unsupported/Eigen/NumericalDiff>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <map>
#include <utility>

namespace backrow::optics {
namespace {

constexpr std::size_t fewest = 6;        // measures
constexpr double most_vignetting = 1.3;  // as profiles may say
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

/// How far the model is off at each, in standard errors, as functions of the terms that are sought;
/// the others are 0.
struct Misfits {
    using Scalar = double;
    using InputType = Eigen::VectorXd;
    using ValueType = Eigen::VectorXd;
    using JacobianType = Eigen::MatrixXd;
    enum { InputsAtCompileTime = Eigen::Dynamic, ValuesAtCompileTime = Eigen::Dynamic };

    const TestShots& shots;
    const std::vector<MeasuredContrast>& measured;
    const std::vector<std::size_t>& sought;
    double dpt;
    const LensProfile& known;  ///< All else.

    [[nodiscard]] int inputs() const { return static_cast<int>(sought.size()); }
    [[nodiscard]] int values() const { return static_cast<int>(measured.size()); }
    [[nodiscard]] Terms terms(const Eigen::VectorXd& of_sought) const {
        Terms all{};
        for (std::size_t i = 0; i < sought.size(); ++i)
            all[sought[i]] = of_sought[static_cast<Eigen::Index>(i)];
        return all;
    }
    int operator()(const Eigen::VectorXd& of_sought, Eigen::VectorXd& misfits) const {
        const LensProfile profile = profile_of(terms(of_sought), dpt, known);
        for (std::size_t i = 0; i < measured.size(); ++i)
            misfits[static_cast<Eigen::Index>(i)] =
                (modelled_mtf(shots, profile, measured[i]) - measured[i].mtf) / measured[i].error;
        return 0;
    }
};

// Steps of a hundredth of a pixel: contrast is smooth on that scale, and its last digits are not.
constexpr double step_px = 0.01;

Eigen::MatrixXd slopes(const Misfits& misfits, const Eigen::VectorXd& at) {
    Eigen::MatrixXd all(misfits.values(), misfits.inputs());
    Eigen::VectorXd below(misfits.values()), above(misfits.values());
    for (Eigen::Index i = 0; i < at.size(); ++i) {
        Eigen::VectorXd moved = at;
        moved[i] -= step_px;
        misfits(moved, below);
        moved[i] += 2 * step_px;
        misfits(moved, above);
        all.col(i) = (above - below) / (2 * step_px);
    }
    return all;
}

struct WithSlopes : Misfits {
    int df(const Eigen::VectorXd& at, Eigen::MatrixXd& all) const {
        all = slopes(*this, at);
        return 0;
    }
};

/// Where a search may begin: the least squares have many hollows, for blur grows to both sides.
std::vector<Terms> beginnings() {
    std::vector<Terms> all;
    for (const double a : {1.0, 5.0})
        for (const double e : {-4.0, -1.5, 0.0, 1.5})
            for (const double c : {-5.0, 0.0, 5.0})
                for (const double s : {-4.0, 0.0, 4.0})
                    for (const double b : {0.0, 3.0})
                        all.push_back({a, c, s, b, e});
    return all;
}

constexpr std::size_t searches = 5;

Eigen::VectorXd best_of_searches(const WithSlopes& misfits) {
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
    for (const Terms& beginning : beginnings()) {
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
        WithSlopes by_value = misfits;
        Eigen::LevenbergMarquardt<WithSlopes> search(by_value);
        search.parameters.maxfev = 60;
        search.minimize(it->at);
        it->squares = squares_at(it->at);
    }
    return std::ranges::min_element(first, last, {}, &Found::squares)->at;
}

/// Standard errors; where what is left is more than the errors of the measures explain, by as much
/// larger.
Eigen::VectorXd errors_of(const WithSlopes& misfits, const Eigen::VectorXd& at) {
    Eigen::VectorXd off(misfits.values());
    misfits(at, off);
    const double freedom = std::max(1, misfits.values() - misfits.inputs());
    const double scale = std::max(1.0, off.squaredNorm() / freedom);
    const Eigen::MatrixXd all = slopes(misfits, at);
    const Eigen::MatrixXd normal = all.transpose() * all;
    const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> axes(normal);
    const double least = 1e-12 * std::max(1e-30, axes.eigenvalues().maxCoeff());
    const Eigen::VectorXd variances = scale / axes.eigenvalues().array().max(least);
    return (axes.eigenvectors().array().square().matrix() * variances).array().sqrt();
}

// Which way round it is cannot be told; see the header.
void turn_the_usual_way(Terms& terms) {
    terms[coma] = std::abs(terms[coma]);
    const auto decides = std::ranges::find_if(terms, [](double it) { return it != 0; });
    if (decides != terms.end() && *decides < 0)
        for (const Term term : {spherical, field_curvature, astigmatism, focus})
            terms[term] = terms[term] == 0 ? 0 : -terms[term];
}

// A term that could as well blur by a pixel more or less is none.
constexpr double most_error_px = 1.0;

}  // namespace

bool FittedTerm::is_told() const noexcept {
    return std::isfinite(error_dpt);
}

double modelled_mtf(const TestShots& shots, const LensProfile& profile,
                    const MeasuredContrast& at) {
    const auto lens = focused_lens({.focal_length_mm = shots.focal_length_mm,
                                    .f_number = at.f_number,
                                    .focus_m = shots.distance_m,
                                    .profile = profile},
                                   shots.half_diagonal_mm);
    if (!lens)
        return std::numeric_limits<double>::quiet_NaN();
    const auto left = [&](Lines lines) {
        return lens_mtf(*lens, shots.distance_m, at.image_height, lines, at.cy_per_mm, shots.light);
    };
    // Between both kinds of lines as for a spot of Gauss's shape whose axes are the radius and
    // across it, of which this is exact.
    return std::pow(left(Lines::tangential), at.tangential_share) *
           std::pow(left(Lines::sagittal), 1 - at.tangential_share) *
           std::abs(box_otf(at.cy_per_mm * shots.pixel_mm));
}

// Both terms are of one size and few steps are needed: half a hundredth is finer than any frame
// tells.
std::optional<LightFit> fit_light(const TestShots& shots,
                                  const std::vector<MeasuredLight>& measured) {
    if (measured.size() < fewest)
        return std::nullopt;
    const double widest_f_number =
        std::ranges::min_element(measured, {}, &MeasuredLight::f_number)->f_number;
    const auto squares = [&](double vignetting, double falloff) {
        // Of each f-number: lights as measured and as they would be in some exposure, which is then
        // chosen best.
        struct Sums {
            double measured2 = 0, both = 0, model2 = 0;
            int count = 0;
        };
        std::map<double, Sums> of;
        for (const MeasuredLight& one : measured) {
            const auto lens = focused_lens({.focal_length_mm = shots.focal_length_mm,
                                            .f_number = one.f_number,
                                            .focus_m = shots.distance_m,
                                            .profile = {.widest_f_number = widest_f_number,
                                                        .vignetting = vignetting,
                                                        .natural_falloff = falloff}},
                                           shots.half_diagonal_mm);
            if (!lens)
                return std::numeric_limits<double>::quiet_NaN();
            const double share = light_share(*lens, one.image_height);
            Sums& sums = of[one.f_number];
            sums.measured2 += one.light * one.light;
            sums.both += one.light * share;
            sums.model2 += share * share;
            ++sums.count;
        }
        double sum = 0;
        for (const auto& [f_number, sums] : of)
            sum += sums.count *
                   std::max(0.0, 1 - sums.both * sums.both / (sums.model2 * sums.measured2));
        return sum;
    };
    double best = std::numeric_limits<double>::infinity();
    LightFit fit;
    double middle_v = 1, middle_f = 0.5;
    for (double step_v = 0.1, step_f = 0.1; step_v > 0.004; step_v /= 4, step_f /= 4) {
        constexpr int reach = 10;
        const double from_v = middle_v, from_f = middle_f;
        for (int i = -reach; i <= reach; ++i)
            for (int k = -reach / 2; k <= reach / 2; ++k) {
                const double v = std::clamp(from_v + i * step_v, 0.0, most_vignetting);
                const double f = std::clamp(from_f + k * step_f, 0.0, 1.0);
                const double sum = squares(v, f);
                if (sum < best) {
                    best = sum;
                    middle_v = fit.vignetting = v;
                    middle_f = fit.natural_falloff = f;
                }
            }
    }
    if (!std::isfinite(best))
        return std::nullopt;
    fit.typical_misfit = std::sqrt(best / static_cast<double>(measured.size()));
    return fit;
}

std::optional<ProfileFit> fit_profile(const TestShots& shots,
                                      const std::vector<MeasuredContrast>& measured,
                                      const LightFit& light) {
    if (measured.size() < fewest)
        return std::nullopt;
    const double widest_f_number =
        std::ranges::min_element(measured, {}, &MeasuredContrast::f_number)->f_number;
    const auto widest = focused_lens({.focal_length_mm = shots.focal_length_mm,
                                      .f_number = widest_f_number,
                                      .focus_m = shots.distance_m},
                                     shots.half_diagonal_mm);
    if (!widest)
        return std::nullopt;
    const double dpt = dpt_a_pixel(*widest, shots.pixel_mm);

    const LensProfile known{.widest_f_number = widest_f_number,
                            .vignetting = light.vignetting,
                            .natural_falloff = light.natural_falloff};

    std::vector<std::size_t> sought{spherical, field_curvature, astigmatism, coma, focus};
    Terms terms{}, errors{};
    for (;;) {
        const WithSlopes misfits{{shots, measured, sought, dpt, known}};
        const Eigen::VectorXd at = best_of_searches(misfits);
        const Eigen::VectorXd errors_px = errors_of(misfits, at);
        terms = misfits.terms(at);
        errors.fill(std::numeric_limits<double>::infinity());
        for (std::size_t i = 0; i < sought.size(); ++i)
            errors[sought[i]] = errors_px[static_cast<Eigen::Index>(i)];
        Eigen::Index worst = 0;
        if (errors_px.maxCoeff(&worst) <= most_error_px || sought.size() == 1)
            break;
        sought.erase(sought.begin() + worst);
    }
    turn_the_usual_way(terms);

    ProfileFit fit{.profile = profile_of(terms, dpt, known)};
    for (std::size_t i = 0; i < term_count; ++i)
        fit.terms.push_back({keys[i], terms[i] * dpt, errors[i] * dpt});
    double squares = 0;
    for (const MeasuredContrast& one : measured) {
        const double off = std::abs(modelled_mtf(shots, fit.profile, one) - one.mtf);
        squares += off * off;
        fit.worst_misfit = std::max(fit.worst_misfit, off);
    }
    fit.typical_misfit = std::sqrt(squares / static_cast<double>(measured.size()));
    fit.profile.focus_offset_dpt = 0;  // of these frames, not of the lens
    return fit;
}

}  // namespace backrow::optics
