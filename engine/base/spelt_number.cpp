#include "base/spelt_number.h"

#include "base/units.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <optional>
#include <system_error>
#include <utility>

namespace backrow {
namespace {

constexpr double least_stature_cm = 60;
constexpr double greatest_stature_cm = 260;

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

/// Without spaces, in small letters, typographic primes and quotation marks as on a typewriter.
std::string simplified(std::string_view text) {
    static constexpr std::array<std::pair<std::string_view, std::string_view>, 6> signs{
        {{"′", "'"}, {"’", "'"}, {"″", "\""}, {"”", "\""}, {"''", "\""}, {"ƒ", "f"}}};
    std::string simple;
    for (const char c : text)
        if (c != ' ' && c != '\t')
            simple += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    for (const auto& [sign, typed] : signs)
        for (auto at = simple.find(sign); at != std::string::npos; at = simple.find(sign, at + 1))
            simple.replace(at, sign.size(), typed);
    return simple;
}

/// Takes a number from the front; nothing, and nothing taken, where there is none.
std::optional<double> take_number(std::string_view& text) {
    double number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc{} || !std::isfinite(number))
        return std::nullopt;
    text.remove_prefix(static_cast<std::size_t>(end - text.data()));
    return number;
}

bool take(std::string_view& text, std::string_view word) {
    const bool begins = text.starts_with(word);
    if (begins)
        text.remove_prefix(word.size());
    return begins;
}

/// Metres, of a unit of length that is taken from the front.
std::optional<double> take_unit_m(std::string_view& text) {
    static constexpr std::array<std::pair<std::string_view, double>, 12> units{
        {{"mm", m_from_mm(1)},
         {"cm", m_from_cm(1)},
         {"m", 1},
         {"feet", m_from_ft(1)},
         {"foot", m_from_ft(1)},
         {"ft", m_from_ft(1)},
         {"'", m_from_ft(1)},
         {"inches", m_from_in(1)},
         {"inch", m_from_in(1)},
         {"in", m_from_in(1)},
         {"\"", m_from_in(1)},
         {"″", m_from_in(1)}}};
    for (const auto& [word, unit_m] : units)
        if (take(text, word)) {
            take(text, ".");  // "6 ft. 2 in."
            return unit_m;
        }
    return std::nullopt;
}

double metres_to(double m, Measure measure) {
    if (measure == Measure::millimetres)
        return mm_from_m(m);
    return measure == Measure::centimetres ? cm_from_m(m) : m;
}

double unit_m_of(Measure measure) {
    if (measure == Measure::millimetres)
        return m_from_mm(1);
    return measure == Measure::centimetres ? m_from_cm(1) : 1.0;
}

/// "30ft", "6ft2in", "6'2", "1.82m".
std::optional<double> length_from(std::string_view text, Measure measure) {
    const auto number = take_number(text);
    if (!number)
        return std::nullopt;
    const auto unit_m = take_unit_m(text);
    if (!unit_m)
        return std::nullopt;
    if (text.empty())  // In its own unit a number stays exactly as it is.
        return *unit_m == unit_m_of(measure) ? *number : metres_to(*number * *unit_m, measure);
    if (*unit_m != m_from_ft(1) || *number < 0 || !is_digit(text.front()))
        return std::nullopt;
    const auto inches = take_number(text);
    const auto inch_m = take_unit_m(text);
    const bool complete = text.empty() && (!inch_m || *inch_m == m_from_in(1));
    if (!inches || !complete || *inches >= inches_in_a_foot)
        return std::nullopt;
    return metres_to(m_from_ft(*number) + m_from_in(*inches), measure);
}

/// "1/200", "1/200s", "2s", "0.5sec".
std::optional<double> seconds_from(std::string_view text) {
    const auto number = take_number(text);
    if (!number)
        return std::nullopt;
    double seconds = *number;
    if (take(text, "/")) {
        const auto below = take_number(text);
        if (!below || *below <= 0)
            return std::nullopt;
        seconds /= *below;
    }
    for (const std::string_view unit : {"seconds", "second", "sec", "s"})
        if (take(text, unit))
            break;
    return text.empty() ? std::optional{seconds} : std::nullopt;
}

std::optional<double> f_number_from(std::string_view text) {
    if (take(text, "f"))
        take(text, "/");
    const auto number = take_number(text);
    return text.empty() ? number : std::nullopt;
}

std::optional<double> number_in(std::string_view text, Measure measure) {
    std::string_view rest = text;
    if (const auto number = take_number(rest); number && rest.empty())
        return as_meant(*number, measure);
    switch (measure) {
    case Measure::f_number:
        return f_number_from(text);
    case Measure::seconds:
        return seconds_from(text);
    case Measure::metres:
    case Measure::stature_m:
    case Measure::centimetres:
    case Measure::millimetres:
        return length_from(text, measure);
    case Measure::plain:
        break;
    }
    return std::nullopt;
}

/// Where the one comma between digits stands; nothing where there are none or several.
std::optional<std::size_t> decimal_comma(std::string_view text) {
    const auto at = text.find(',');
    if (at == text.npos || at == 0 || at + 1 == text.size() || text.find(',', at + 1) != text.npos)
        return std::nullopt;
    return is_digit(text[at - 1]) && is_digit(text[at + 1]) ? std::optional{at} : std::nullopt;
}

/// "1,600" but not "0,004".
bool may_part_thousands(std::string_view text, std::size_t comma) {
    const auto after = text.substr(comma + 1);
    const auto digits =
        static_cast<std::size_t>(std::ranges::find_if_not(after, is_digit) - after.begin());
    const bool nought_before = text[comma - 1] == '0' && (comma == 1 || !is_digit(text[comma - 2]));
    return digits == 3 && !nought_before;
}

}  // namespace

Measure measure_of_key(std::string_view key) {
    static constexpr std::array<std::pair<std::string_view, Measure>, 6> endings{
        {{"stature_m", Measure::stature_m},
         {"f_number", Measure::f_number},
         {"_mm", Measure::millimetres},
         {"_cm", Measure::centimetres},
         {"_m", Measure::metres},
         {"_s", Measure::seconds}}};
    for (const auto& [ending, measure] : endings)
        if (key.ends_with(ending))
            return measure;
    return Measure::plain;
}

tl::expected<double, std::string> number_from_spelling(std::string_view text, Measure measure) {
    std::string simple = simplified(text);
    if (const auto comma = decimal_comma(simple)) {
        if (may_part_thousands(simple, *comma)) {
            std::string whole = simple;
            simple[*comma] = '.';
            whole.erase(*comma, 1);
            return tl::unexpected(
                number_in(simple, measure)
                    ? fmt::format("write {} or {}, without a comma", whole, simple)
                    : std::string{});
        }
        simple[*comma] = '.';
    }
    if (const auto number = number_in(simple, measure))
        return *number;
    return tl::unexpected(std::string{});
}

bool is_plain_number(std::string_view text) {
    return take_number(text) && text.empty();
}

double as_meant(double number, Measure measure) noexcept {
    const bool centimetres = measure == Measure::stature_m && number >= least_stature_cm &&
                             number <= greatest_stature_cm;
    return centimetres ? m_from_cm(number) : number;
}

}  // namespace backrow
