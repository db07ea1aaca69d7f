#include "optics/fitting/light_fit.h"

#include "optics/fitting/fit_errors.h"
#include "optics/lens/light_loss.h"

#include <Eigen/Dense>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <map>
#include <set>
#include <utility>

namespace backrow::optics {
namespace {

constexpr std::size_t fewest_lights = 6;
constexpr std::size_t loss_count = 2;
enum Loss : std::size_t { rims, cosines };
using Losses = std::array<double, loss_count>;
constexpr Losses most_lost{1.3, 1.0};  // as profiles may say

/// What losses leave of each light, as natural logarithms, where each f-number is in the
/// exposure that suits it best.
class LightMisfits {
public:
    LightMisfits(const TestShots& shots, const std::vector<MeasuredLight>& measured)
        : shots_{shots}, measured_{measured},
          widest_f_number_{
              shots.widest_f_number > 0
                  ? shots.widest_f_number
                  : std::ranges::min_element(measured, {}, &MeasuredLight::f_number)->f_number} {}

    [[nodiscard]] std::optional<Eigen::VectorXd> at(const Losses& losses) const {
        Eigen::VectorXd left(static_cast<Eigen::Index>(measured_.size()));
        for (std::size_t i = 0; i < measured_.size(); ++i) {
            const MeasuredLight& one = measured_[i];
            const auto lens = lens_of(shots_,
                                      {.widest_f_number = widest_f_number_,
                                       .vignetting = losses[rims],
                                       .natural_falloff = losses[cosines]},
                                      one.f_number);
            if (!lens)
                return std::nullopt;
            left[static_cast<Eigen::Index>(i)] =
                std::log(one.light / light_share(*lens, one.image_height));
        }
        return exposed_best(std::move(left));
    }

    /// What lamps add that light the corners a hundredth more than the middle.
    [[nodiscard]] Eigen::VectorXd of_lamps() const {
        constexpr double unevenness = 0.01;
        Eigen::VectorXd added(static_cast<Eigen::Index>(measured_.size()));
        for (std::size_t i = 0; i < measured_.size(); ++i)
            added[static_cast<Eigen::Index>(i)] =
                unevenness * measured_[i].image_height * measured_[i].image_height;
        return exposed_best(std::move(added));
    }

    [[nodiscard]] Eigen::MatrixXd slopes(const Losses& losses) const {
        constexpr double step = 0.01;
        Eigen::MatrixXd slopes(static_cast<Eigen::Index>(measured_.size()), loss_count);
        for (std::size_t i = 0; i < loss_count; ++i) {
            Losses more = losses, less = losses;
            more[i] = std::min(losses[i] + step, most_lost[i]);
            less[i] = std::max(losses[i] - step, 0.0);
            slopes.col(static_cast<Eigen::Index>(i)) =
                (*at(more) - *at(less)) / (more[i] - less[i]);
        }
        return slopes;
    }

    [[nodiscard]] double exposure_count() const {
        std::set<double> f_numbers;
        for (const MeasuredLight& one : measured_)
            f_numbers.insert(one.f_number);
        return static_cast<double>(f_numbers.size());
    }

    [[nodiscard]] std::vector<Ring> rings() const {
        std::vector<Ring> all;
        for (const MeasuredLight& one : measured_)
            all.push_back(ring_of(one.f_number, one.image_height));
        return all;
    }

private:
    [[nodiscard]] Eigen::VectorXd exposed_best(Eigen::VectorXd logs) const {
        struct Mean {
            double sum = 0;
            int count = 0;
        };
        std::map<double, Mean> exposures;
        for (std::size_t i = 0; i < measured_.size(); ++i) {
            Mean& exposure = exposures[measured_[i].f_number];
            exposure.sum += logs[static_cast<Eigen::Index>(i)];
            ++exposure.count;
        }
        for (std::size_t i = 0; i < measured_.size(); ++i) {
            const Mean& exposure = exposures[measured_[i].f_number];
            logs[static_cast<Eigen::Index>(i)] -= exposure.sum / exposure.count;
        }
        return logs;
    }

    const TestShots& shots_;
    const std::vector<MeasuredLight>& measured_;
    double widest_f_number_;
};

// Finer than any frame tells.
constexpr double finest_loss = 0.005;

/// Nothing where no image forms. Those that are not sought have a limit of 0. The share of the cos⁴
/// law is a factor in the logarithm, so for any rims the best one follows.
std::optional<Losses> best_losses(const LightMisfits& misfits, const Losses& limits) {
    Losses found{};
    double least = std::numeric_limits<double>::infinity();
    const auto try_rims = [&](double apart) {
        const auto without = misfits.at({apart, 0});
        const auto with = misfits.at({apart, 1});
        if (!without || !with)
            return false;
        const Eigen::VectorXd law = *without - *with;
        const double power = law.squaredNorm();
        const double share =
            power > 0 ? std::clamp(without->dot(law) / power, 0.0, limits[cosines]) : 0;
        const double left = (*without - share * law).squaredNorm();
        if (left < least) {
            least = left;
            found = {apart, share};
        }
        return true;
    };
    for (double step = 0.1; step > finest_loss / 5; step /= 5) {
        constexpr int reach = 14;  // at first over all that there may be
        const double from = found[rims];
        for (int i = -reach; i <= reach; ++i)
            if (!try_rims(std::clamp(from + i * step, 0.0, limits[rims])))
                return std::nullopt;
    }
    return found;
}

/// Infinite for those that are not sought. Beside what is left counts what lamps do that light the
/// corners a hundredth more or less than the middle (common practice, no source), for the lens's
/// own fall of light cannot be told from it.
Losses loss_errors(const LightMisfits& misfits, const Eigen::VectorXd& left, const Losses& found,
                   const Losses& limits) {
    const Eigen::MatrixXd all = misfits.slopes(found);
    std::vector<Eigen::Index> sought;
    for (std::size_t i = 0; i < loss_count; ++i)
        if (limits[i] > 0)
            sought.push_back(static_cast<Eigen::Index>(i));
    Losses errors;
    errors.fill(std::numeric_limits<double>::infinity());
    if (sought.empty())
        return errors;
    const Eigen::MatrixXd slopes = all(Eigen::all, sought);
    const double freedom =
        static_cast<double>(left.size() - slopes.cols()) - misfits.exposure_count();
    const std::vector<double> by_chance =
        standard_errors({slopes.data(), static_cast<std::size_t>(slopes.size())},
                        {left.data(), static_cast<std::size_t>(left.size())},
                        left.squaredNorm() / std::max(1.0, freedom), misfits.rings());
    const Eigen::VectorXd by_lamps = slopes.colPivHouseholderQr().solve(misfits.of_lamps());
    for (std::size_t i = 0; i < sought.size(); ++i) {
        const auto at = static_cast<Eigen::Index>(i);
        errors[static_cast<std::size_t>(sought[i])] =
            std::hypot(by_chance[i], by_lamps[at], finest_loss);
    }
    return errors;
}

/// Which of those that are sought is told worst, if it could as well be none.
std::optional<std::size_t> least_told_loss(const Losses& found, const Losses& errors,
                                           const Losses& limits) {
    constexpr double most_error = 0.2;
    constexpr double sure = 3;
    std::optional<std::size_t> worst;
    for (std::size_t i = 0; i < loss_count; ++i)
        if (limits[i] > 0 && errors[i] > most_error && found[i] < sure * errors[i] &&
            (!worst || errors[i] > errors[*worst]))
            worst = i;
    return worst;
}

}  // namespace

std::optional<LightFit> fit_light(const TestShots& shots,
                                  const std::vector<MeasuredLight>& measured) {
    if (measured.size() < fewest_lights)
        return std::nullopt;
    const LightMisfits misfits{shots, measured};
    Losses limits = most_lost;
    for (;;) {
        const auto found = best_losses(misfits, limits);
        if (!found)
            return std::nullopt;
        const Eigen::VectorXd left = *misfits.at(*found);
        const Losses errors = loss_errors(misfits, left, *found, limits);
        const auto untold = least_told_loss(*found, errors, limits);
        if (!untold)
            return LightFit{.vignetting = (*found)[rims],
                            .natural_falloff = (*found)[cosines],
                            .vignetting_error = errors[rims],
                            .natural_falloff_error = errors[cosines],
                            .typical_misfit =
                                left.norm() / std::sqrt(static_cast<double>(left.size()))};
        limits[*untold] = 0;
    }
}

}  // namespace backrow::optics
