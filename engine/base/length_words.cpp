#include "base/length_words.h"

#include "base/units.h"

#include <fmt/format.h>

#include <cmath>

namespace backrow {
namespace {

bool in_metres(LengthScale scale) {
    return scale == LengthScale::metres || scale == LengthScale::short_metres;
}

std::string metric_digits(double m, LengthScale scale) {
    switch (scale) {
    case LengthScale::metres:
        return fmt::format("{:.2f}", m);
    case LengthScale::short_metres:
        return fmt::format("{:g}", std::round(m * 100) / 100);
    case LengthScale::centimetres:
        return fmt::format("{:.{}f}", cm_from_m(m), std::abs(cm_from_m(m)) < 10 ? 1 : 0);
    case LengthScale::whole_centimetres:
        return fmt::format("{:.0f}", cm_from_m(m));
    case LengthScale::millimetres:
        return fmt::format("{:.0f}", mm_from_m(m));
    case LengthScale::given_millimetres:
        break;
    }
    constexpr double steps_a_mm = 1e6;
    return fmt::format("{}", std::round(mm_from_m(m) * steps_a_mm) / steps_a_mm);
}

/// "0.24", "7.6", "14": two digits that count.
std::string inches_digits(double m) {
    const double in = in_from_m(m);
    const double size = std::abs(in);
    if (size < 0.005)
        return "0";
    return fmt::format("{:.{}f}", in, size < 0.995 ? 2 : size < 9.95 ? 1 : 0);
}

struct FeetAndInches {
    bool negative;
    long feet;
    long inches;
};

FeetAndInches feet_and_inches(double m) {
    const long inches = std::lround(std::abs(in_from_m(m)));
    return {m < 0 && inches > 0, inches / inches_in_a_foot, inches % inches_in_a_foot};
}

}  // namespace

std::string length_words(double m, LengthScale scale, Units units) {
    if (!std::isfinite(m))
        return "infinity";
    if (units == Units::metric)
        return metric_digits(m, scale) + ' ' + length_unit(scale, units);
    const FeetAndInches whole = feet_and_inches(m);
    if (!in_metres(scale) || whole.feet == 0)
        return inches_digits(m) + " in";
    return fmt::format("{}{} ft {} in", whole.negative ? "-" : "", whole.feet, whole.inches);
}

std::string length_digits(double m, LengthScale scale, Units units) {
    if (!std::isfinite(m))
        return "∞";
    if (units == Units::metric)
        return metric_digits(m, scale);
    if (!in_metres(scale))
        return inches_digits(m);
    const FeetAndInches whole = feet_and_inches(m);
    return fmt::format("{}{}'{}\"", whole.negative ? "-" : "", whole.feet, whole.inches);
}

const char* length_unit(LengthScale scale, Units units) noexcept {
    if (units == Units::imperial)
        return in_metres(scale) ? "ft" : "in";
    switch (scale) {
    case LengthScale::metres:
    case LengthScale::short_metres:
        return "m";
    case LengthScale::centimetres:
    case LengthScale::whole_centimetres:
        return "cm";
    case LengthScale::millimetres:
    case LengthScale::given_millimetres:
        break;
    }
    return "mm";
}

}  // namespace backrow
