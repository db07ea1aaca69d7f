#pragma once

// How large and how good a quick picture may be so that it comes in time.

#include <algorithm>
#include <array>
#include <cstddef>
#include <utility>

namespace backrow::window {

/// Learns from every quick picture how long the next would take.
class Pace {
public:
    /// budget_s  how long a quick picture may take
    explicit Pace(double budget_s) : budget_s_{budget_s} {}

    /// Of the size on the screen.
    [[nodiscard]] double scale() const noexcept { return scales[at_]; }
    /// Points of the lens.
    [[nodiscard]] int passes() const noexcept {
        const double left_s = budget_s_ - rest_s_;
        return pass_s_ > 0
                   ? static_cast<int>(std::clamp(left_s / pass_s_, 1.0 * fewest, 1.0 * most))
                   : fewest;
    }
    [[nodiscard]] double budget_s() const noexcept { return budget_s_; }

    /// A quick picture took this long: all its passes, and everything else about it.
    void note(int passes, double passes_s, double rest_s) {
        pass_s_ = passes_s / passes;
        rest_s_ = rest_s;
        for (int& pictures : barred_for_)
            pictures = std::max(0, pictures - 1);
        const double left_s = budget_s_ - rest_s;
        // For the first of a size much is worked out that serves all others.
        if (std::exchange(is_first_of_size_, false))
            return;
        if (passes_to_stay(at_) * pass_s_ > left_s && at_ + 1 < scales.size()) {
            barred_for_[at_] = pictures_until_retried;
            go_to(at_ + 1);
        } else if (at_ > 0 && barred_for_[at_ - 1] == 0 &&
                   passes_to_come(at_ - 1) * pass_s_ * area(at_ - 1) < left_s) {
            go_to(at_ - 1);
        }
    }

private:
    /// Of a picture of that size, against the present one.
    [[nodiscard]] double area(std::size_t at) const noexcept {
        return scales[at] * scales[at] / (scales[at_] * scales[at_]);
    }
    // What a pass will take there, as far as can be known before one was made.
    void go_to(std::size_t at) noexcept {
        pass_s_ *= area(at);
        at_ = at;
        is_first_of_size_ = true;
    }
    // In a large picture blur wants points of the lens, in a small one a face wants texels: where
    // triangles take the time, not texels, more of them cost next to nothing, and it is tried.
    static constexpr std::size_t large = 1;
    [[nodiscard]] static constexpr double passes_to_stay(std::size_t at) noexcept {
        return at <= large ? 2 : 1;
    }
    // Enough to stay after the next measurement.
    [[nodiscard]] static constexpr double passes_to_come(std::size_t at) noexcept {
        return at <= large ? 5 : 0.7;
    }

    static constexpr std::array scales{1.0, 0.75, 0.5, 0.375, 0.25};
    static constexpr int fewest = 1;
    static constexpr int most = 16;
    static constexpr int pictures_until_retried = 60;
    double budget_s_;
    double pass_s_ = 0;
    double rest_s_ = 0;
    std::size_t at_ = 3;
    bool is_first_of_size_ = true;
    std::array<int, scales.size()>
        barred_for_{};  ///< Sizes that took too long, for so many pictures.
};

}  // namespace backrow::window
