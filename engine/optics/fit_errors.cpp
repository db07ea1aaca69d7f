#include "optics/fit_errors.h"

#include <Eigen/Eigenvalues>

#include <algorithm>
#include <cstddef>
#include <map>

namespace backrow::optics {

Ring ring_of(double f_number, double image_height) noexcept {
    constexpr double rings = 10;
    return {f_number, static_cast<int>(image_height * rings)};
}

Eigen::VectorXd standard_errors(const Eigen::MatrixXd& slopes, const Eigen::VectorXd& left,
                                double variance, const std::vector<Ring>& rings) {
    const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> axes(slopes.transpose() * slopes);
    const double least = 1e-12 * std::max(1e-30, axes.eigenvalues().maxCoeff());
    const Eigen::MatrixXd inverse =
        axes.eigenvectors() *
        axes.eigenvalues().array().max(least).inverse().matrix().asDiagonal() *
        axes.eigenvectors().transpose();
    std::map<Ring, Eigen::VectorXd> of_rings;
    for (Eigen::Index i = 0; i < left.size(); ++i) {
        auto& sum = of_rings
                        .try_emplace(rings[static_cast<std::size_t>(i)],
                                     Eigen::VectorXd::Zero(slopes.cols()))
                        .first->second;
        sum += left[i] * slopes.row(i).transpose();
    }
    Eigen::MatrixXd between = Eigen::MatrixXd::Zero(slopes.cols(), slopes.cols());
    for (const auto& [ring, sum] : of_rings)
        between += sum * sum.transpose();
    return (variance * inverse.diagonal())
        .cwiseMax((inverse * between * inverse).diagonal())
        .cwiseSqrt();
}

}  // namespace backrow::optics
