#include "optics/fitting/fit_errors.h"

#include <Eigen/Core>
#include <Eigen/Eigenvalues>

#include <algorithm>
#include <cstddef>
#include <map>

namespace backrow::optics {

Ring ring_of(double f_number, double image_height) noexcept {
    constexpr double rings = 10;
    return {f_number, static_cast<int>(image_height * rings)};
}

std::vector<double> standard_errors(std::span<const double> slopes_in_a_row,
                                    std::span<const double> left, double variance,
                                    const std::vector<Ring>& rings) {
    const auto measures = static_cast<Eigen::Index>(left.size());
    const Eigen::Map<const Eigen::MatrixXd> slopes(
        slopes_in_a_row.data(), measures,
        static_cast<Eigen::Index>(slopes_in_a_row.size()) / measures);
    const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> axes(slopes.transpose() * slopes);
    const double least = 1e-12 * std::max(1e-30, axes.eigenvalues().maxCoeff());
    const Eigen::MatrixXd inverse =
        axes.eigenvectors() *
        axes.eigenvalues().array().max(least).inverse().matrix().asDiagonal() *
        axes.eigenvectors().transpose();
    std::map<Ring, Eigen::VectorXd> of_rings;
    for (std::size_t i = 0; i < left.size(); ++i) {
        auto& sum =
            of_rings.try_emplace(rings[i], Eigen::VectorXd::Zero(slopes.cols())).first->second;
        sum += left[i] * slopes.row(static_cast<Eigen::Index>(i)).transpose();
    }
    Eigen::MatrixXd between = Eigen::MatrixXd::Zero(slopes.cols(), slopes.cols());
    for (const auto& [ring, sum] : of_rings)
        between += sum * sum.transpose();
    const Eigen::VectorXd errors = (variance * inverse.diagonal())
                                       .cwiseMax((inverse * between * inverse).diagonal())
                                       .cwiseSqrt();
    return {errors.begin(), errors.end()};
}

}  // namespace backrow::optics
