#include "base/round_numbers.h"

#include <cmath>

namespace backrow {
namespace {

// Rounding in the ends must not cost a number that lies on them, a share of the step.
constexpr double slack = 1e-9;

double first_multiple(double low, double step) {
    return std::ceil(low / step - slack);
}

double last_multiple(double high, double step) {
    return std::floor(high / step + slack);
}

}  // namespace

std::vector<double> round_numbers(double low, double high, int at_most) {
    double power = std::pow(10.0, std::floor(std::log10((high - low) / at_most)));
    for (;; power *= 10)
        for (const double digit : {1.0, 2.0, 2.5, 5.0}) {
            const double step = digit * power;
            const double first = first_multiple(low, step);
            const double last = last_multiple(high, step);
            if (last - first + 1 > at_most)
                continue;
            std::vector<double> numbers;
            for (double multiple = first; multiple <= last; ++multiple)
                numbers.push_back(multiple * step);
            return numbers;
        }
}

}  // namespace backrow
