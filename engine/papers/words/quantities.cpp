#include "papers/words/quantities.h"

#include "optics/exposure/stops.h"

#include "base/units.h"

#include <fmt/format.h>

#include <cmath>
#include <string_view>
#include <variant>

namespace backrow::papers {
namespace {

constexpr std::string_view no_break = "\u00a0";

/// With another word for a unit wherever it stands behind a number.
std::string with_unit(std::string words, std::string_view unit, const std::string& said) {
    const std::string found = std::string{no_break} + std::string{unit};
    const auto at = words.find(found);
    const std::size_t end = at + found.size();
    if (at != words.npos && (end == words.size() || words.substr(end).starts_with(no_break)))
        words.replace(at + no_break.size(), unit.size(), said);
    return words;
}

std::string length(double m, LengthScale scale, const Language& language, Units units) {
    std::string words = language.number(length_words(m, scale, units));
    if (units == Units::imperial)
        words = with_unit(with_unit(std::move(words), "ft", language.say("ft")), "in",
                          language.say("in"));
    return words;
}

}  // namespace

std::string distance_words(double m, const Language& language, Units units) {
    return std::isfinite(m) ? length(m, LengthScale::metres, language, units)
                            : language.say("infinity");
}

std::string room_words(double m, const Language& language, Units units) {
    return std::isfinite(m) ? length(m, LengthScale::whole_centimetres, language, units)
                            : language.say("any distance");
}

std::string pace_words(double m, const Language& language) {
    const long halves = std::lround(2 * m / pace_m);
    const std::string whole = halves >= 2 || halves == 0 ? fmt::format("{}", halves / 2) : "";
    const std::string number = whole + (halves % 2 == 0 ? "" : "½");
    const std::string paces = halves == 1 || halves == 2
                                  ? language.say("{paces} pace", {{"paces", number}})
                                  : language.say("{paces} paces", {{"paces", number}});
    return language.number(paces);
}

std::string lens_words(double focal_length_mm, const Language& language) {
    return language.number(fmt::format("{:g} mm", focal_length_mm));
}

std::string f_number_words(double engraved, const Language& language) {
    return language.number(fmt::format("f/{:g}", engraved));
}

std::string shutter_words(double shutter_s, const Language& language) {
    return language.number(optics::shutter_words(shutter_s));
}

std::string iso_words(double iso, const Language& language) {
    return language.number(fmt::format("ISO {:.0f}", iso));
}

std::string filter_words(double stops, const Language& language) {
    const std::string digits = optics::stops_digits(stops);
    return digits == "1" ? language.say("grey filter of 1 stop")
                         : language.say("grey filter of {stops} stops", {{"stops", digits}});
}

std::string exposure_words(const optics::ExposureSetting& set, const Language& language) {
    std::string words =
        shutter_words(set.shutter_s, language) + ", " + iso_words(set.iso, language);
    if (set.filter_stops > 0)
        words += ", " + filter_words(set.filter_stops, language);
    return words;
}

std::string viewing_words(const scene::Viewing& viewing, const Language& language, Units units) {
    const auto* print = std::get_if<optics::PrintViewing>(&viewing);
    if (print == nullptr)
        return language.say("looked at pixel by pixel");
    return language.say("in a picture {long} long, seen from {far}",
                        {{"long", room_words(m_from_cm(print->long_side_cm), language, units)},
                         {"far", room_words(m_from_cm(print->distance_cm), language, units)}});
}

std::string group_words(std::size_t people, std::size_t rows, const Language& language) {
    return language.say("People: {people}. Rows: {rows}.",
                        {{"people", fmt::format("{}", people)}, {"rows", fmt::format("{}", rows)}});
}

std::string verdict_word(plan::Verdict verdict, const Language& language) {
    switch (verdict) {
    case plan::Verdict::hidden:
        return language.say("hidden");
    case plan::Verdict::cut_off:
        return language.say("cut off");
    case plan::Verdict::crisp:
        return language.say("crisp");
    case plan::Verdict::fine:
        return language.say("fine");
    case plan::Verdict::soft:
        return language.say("soft");
    case plan::Verdict::lost:
        break;
    }
    return language.say("lost");
}

}  // namespace backrow::papers
