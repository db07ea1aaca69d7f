#include "optics/exposure/stops.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>

namespace backrow::optics {
namespace {

// The k-th mark of a scale stands for k thirds or halves of a stop beyond f/1.
constexpr std::array third_stop_f_numbers{1.0, 1.1, 1.2, 1.4, 1.6, 1.8, 2.0,  2.2, 2.5, 2.8,
                                          3.2, 3.5, 4.0, 4.5, 5.0, 5.6, 6.3,  7.1, 8.0, 9.0,
                                          10., 11., 13., 14., 16., 18., 20.0, 22.0};
constexpr std::array half_stop_f_numbers{1.0, 1.2, 1.4, 1.7, 2.0,  2.4,  2.8,  3.3,  4.0, 4.8,
                                         5.6, 6.7, 8.0, 9.5, 11.0, 13.0, 16.0, 19.0, 22.0};

constexpr std::array shutters_s{
    30.0,      25.0,      20.0,      15.0,      13.0,      10.0,      8.0,       6.0,
    5.0,       4.0,       3.2,       2.5,       2.0,       1.6,       1.3,       1.0,
    0.8,       0.6,       0.5,       0.4,       0.3,       1. / 4,    1. / 5,    1. / 6,
    1. / 8,    1. / 10,   1. / 13,   1. / 15,   1. / 20,   1. / 25,   1. / 30,   1. / 40,
    1. / 50,   1. / 60,   1. / 80,   1. / 100,  1. / 125,  1. / 160,  1. / 200,  1. / 250,
    1. / 320,  1. / 400,  1. / 500,  1. / 640,  1. / 800,  1e-3,      1. / 1250, 1. / 1600,
    1. / 2000, 1. / 2500, 1. / 3200, 1. / 4000, 1. / 5000, 1. / 6400, 1. / 8000};

constexpr std::array isos{50.,    64.,    80.,    100.,   125.,   160.,   200.,   250.,   320.,
                          400.,   500.,   640.,   800.,   1e3,    1250.,  1600.,  2000.,  2500.,
                          3200.,  4000.,  5000.,  6400.,  8000.,  10000., 12800., 16000., 20000.,
                          25600., 32000., 40000., 51200., 64000., 80000., 102400.};

/// Stops of light between two times or two sensitivities.
double apart(double a, double b) noexcept {
    return std::abs(std::log2(a / b));
}

double nearest_mark(std::span<const double> marks, double value) noexcept {
    const double nearest =
        *std::ranges::min_element(marks, {}, [&](double mark) { return apart(mark, value); });
    const bool beyond = value < std::min(marks.front(), marks.back()) ||
                        value > std::max(marks.front(), marks.back());
    return beyond && apart(nearest, value) > 1.0 / 6 ? value : nearest;
}

/// Keeps of two readings of a mark the one that lies nearer to it.
void read_mark(std::span<const double> marks, double marks_a_stop, double engraved,
               double& exact) noexcept {
    const auto found = std::ranges::find(marks, engraved);
    if (found == marks.end())
        return;
    const double reading =
        f_number_from_stops(static_cast<double>(found - marks.begin()) / marks_a_stop);
    if (std::isnan(exact) || apart(reading, engraved) < apart(exact, engraved))
        exact = reading;
}

}  // namespace

double f_number_from_stops(double stops) noexcept {
    return std::exp2(stops / 2);
}

double stops_from_f_number(double f_number) noexcept {
    return 2 * std::log2(f_number);
}

double exact_f_number(double engraved) noexcept {
    double exact = std::numeric_limits<double>::quiet_NaN();
    read_mark(half_stop_f_numbers, 2, engraved, exact);
    read_mark(third_stop_f_numbers, 3, engraved, exact);
    return std::isnan(exact) ? engraved : exact;
}

double stops_between(double from_f_number, double to_f_number) noexcept {
    return stops_from_f_number(exact_f_number(to_f_number)) -
           stops_from_f_number(exact_f_number(from_f_number));
}

std::span<const double> marked_f_numbers() noexcept {
    return third_stop_f_numbers;
}

std::span<const double> marked_shutters_s() noexcept {
    return shutters_s;
}

std::span<const double> marked_isos() noexcept {
    return isos;
}

bool is_full_stop(double f_number) noexcept {
    const double stops = stops_from_f_number(exact_f_number(f_number));
    return std::ranges::find(marked_f_numbers(), f_number) != marked_f_numbers().end() &&
           std::abs(stops - std::round(stops)) < 1e-6;
}

double marked_shutter_s(double shutter_s) noexcept {
    return nearest_mark(shutters_s, shutter_s);
}

double marked_iso(double iso) noexcept {
    return nearest_mark(isos, iso);
}

double marked_shutter_within_s(double shutter_s) noexcept {
    const auto found =
        std::ranges::find_if(shutters_s, [&](double mark) { return mark <= shutter_s; });
    return found == shutters_s.end() ? shutter_s : *found;
}

std::string stops_digits(double stops) {
    struct Part {
        double value;
        const char* sign;
    };
    static constexpr std::array parts{Part{0, ""}, Part{1.0 / 3, "⅓"}, Part{0.5, "½"},
                                      Part{2.0 / 3, "⅔"}, Part{1, ""}};
    const double size = std::abs(stops);
    double whole = std::floor(size);
    const Part part = *std::ranges::min_element(
        parts, {}, [&](const Part& candidate) { return std::abs(size - whole - candidate.value); });
    if (part.value == 1)
        whole += 1;
    const bool is_fraction = *part.sign != '\0';
    const bool is_none = whole == 0 && !is_fraction;
    const std::string number = whole == 0 && is_fraction ? "" : fmt::format("{:.0f}", whole);
    return fmt::format("{}{}{}", stops < 0 && !is_none ? "−" : "", number, part.sign);
}

std::string stops_words(double stops) {
    const std::string digits = stops_digits(stops);
    static constexpr std::array at_most_one{"1", "−1", "⅓", "−⅓", "½", "−½", "⅔", "−⅔"};
    return digits +
           (std::ranges::find(at_most_one, digits) != at_most_one.end() ? " stop" : " stops");
}

std::string shutter_words(double shutter_s) {
    const double parts = std::round(1 / shutter_s);
    constexpr double fewest_parts = 4, tolerance = 0.03;
    if (parts >= fewest_parts && std::abs(1 / shutter_s - parts) <= tolerance * parts)
        return fmt::format("1/{:.0f} s", parts);
    const int digits = shutter_s < 10 ? 2 - static_cast<int>(std::ceil(std::log10(shutter_s))) : 0;
    std::string number = fmt::format("{:.{}f}", shutter_s, digits);
    if (number.find('.') != std::string::npos) {
        number.erase(number.find_last_not_of('0') + 1);
        if (number.back() == '.')
            number.pop_back();
    }
    return number + " s";
}

std::string longest_shutter_words(double limit_s) {
    return std::isfinite(limit_s) ? shutter_words(marked_shutter_within_s(limit_s)) : "any";
}

}  // namespace backrow::optics
