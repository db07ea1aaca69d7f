#include "report/tradeoff/tradeoff_words.h"

#include "report/text/lens_words.h"
#include "report/text/number_words.h"
#include "report/text/trouble_words.h"
#include "report/text/viewing_words.h"

#include "scene/judged_blur.h"

#include "optics/blur/viewing.h"
#include "optics/exposure/stops.h"

#include "base/utf8.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <iterator>
#include <optional>
#include <variant>

namespace backrow::report {
namespace {

using plan::Holding;
using plan::Tradeoff;
using plan::TradeoffRange;

/// A distance from which on something holds, rounded to where it still holds.
double rounded_up_m(double m, double farthest_m) {
    constexpr double near_m = 2;
    const double steps_a_metre = m < near_m ? 100 : 10;
    // What lies within the rounding error of a mark is on it.
    constexpr double slack = 1e-6;
    return std::min(std::ceil(m * steps_a_metre - slack) / steps_a_metre, farthest_m);
}

/// "from f/4"; with the other end where diffraction sets it within the range.
std::string from_words(const plan::FNumbers& holds, const TradeoffRange& range) {
    if (holds.from == holds.to && holds.to < range.narrowest_f_number)
        return fmt::format("at {} alone", f_words(holds.from));
    return fmt::format("from {}{}", f_words(holds.from),
                       holds.to < range.narrowest_f_number ? " to " + f_words(holds.to) : "");
}

std::string at_present_distance(const TradeoffReport& report, const Holding& holding,
                                const char* grade) {
    const TradeoffRange& range = report.tradeoff.range;
    const std::string here = distance_words(report.tradeoff.now.lens_to_mark_m, report.units);
    const auto& holds = holding.f_numbers;
    if (!holds)
        return fmt::format("At {} not every face is {} at any aperture to {}", here, grade,
                           f_words(range.narrowest_f_number));
    const bool at_every = *holds == plan::FNumbers{range.widest_f_number, range.narrowest_f_number};
    return fmt::format("At {} every face is {} {}{}", here, grade,
                       at_every ? "at every aperture " : "", from_words(*holds, range));
}

std::string at_present_aperture(const TradeoffReport& report, const Holding& holding) {
    const TradeoffRange& range = report.tradeoff.range;
    const std::string here = f_words(report.scene.camera.f_number);
    if (!holding.from_m)
        return fmt::format("at {} not from any distance to {}", here,
                           distance_words(range.farthest_m, report.units));
    if (*holding.from_m <= range.nearest_m)
        return fmt::format("at {} from every distance shown", here);
    return fmt::format(
        "at {} from {}", here,
        distance_words(rounded_up_m(*holding.from_m, range.farthest_m), report.units));
}

/// Where in the range the worst face is least blurred.
std::string best_of_range(const TradeoffReport& report) {
    const Tradeoff& answer = report.tradeoff;
    const auto& blurs = answer.samples.judged_blur;
    const auto least = std::ranges::min_element(blurs);
    const auto place = static_cast<std::size_t>(std::distance(blurs.begin(), least));
    const auto share = [](std::size_t i, std::size_t count) {
        return static_cast<double>(i) / static_cast<double>(count - 1);
    };
    const double across = share(place % answer.samples.distances, answer.samples.distances);
    const double up = share(place / answer.samples.distances, answer.samples.f_numbers);
    const TradeoffRange& range = answer.range;
    return fmt::format(
        "the least blur of the worst face is {}, at {} and f/{:.3g}",
        judged_words({*least, scene::blur_unit(report.scene.viewing)}),
        distance_words(range.nearest_m + across * (range.farthest_m - range.nearest_m),
                       report.units),
        range.widest_f_number * std::pow(range.narrowest_f_number / range.widest_f_number, up));
}

std::string sentence(const TradeoffReport& report, const Holding& holding, optics::Grade grade) {
    const char* word = optics::to_word(grade);
    if (holding.everywhere)
        return fmt::format("Every face is {} at every distance and aperture shown.", word);
    if (holding.nowhere)
        return fmt::format("Nowhere in this range is every face {}: {}.", word,
                           best_of_range(report));
    return fmt::format("{}; {}.", at_present_distance(report, holding, word),
                       at_present_aperture(report, holding));
}

struct FocusWords {
    Units units;

    std::string operator()(const scene::FocusOnPerson& on) const {
        return fmt::format("focus on the nearer eye of {}", on_one_line(on.name));
    }
    std::string operator()(const scene::FocusBalanced&) const {
        return "focus balanced between the nearest and the farthest eye";
    }
    std::string operator()(const scene::FocusAtDistance& at) const {
        return fmt::format("focus kept where it lies now, {} from the lens",
                           distance_words(at.axial_m, units));
    }
    std::string operator()(const scene::FromMark& point) const {
        const auto words = [&](double m) {
            return units == Units::metric ? fmt::format("{:.4g}", m)
                                          : length_digits(m, LengthScale::metres, units);
        };
        return fmt::format("focus on the point {}, {}, {}", words(point.across_m),
                           words(point.up_m), words(point.back_m));
    }
};

}  // namespace

std::string f_words(double f_number) {
    return fmt::format("f/{:.4g}", f_number);
}

std::string distance_words(double m, Units units) {
    return length_words(m, LengthScale::short_metres, units);
}

std::string judged_words(optics::JudgedBlur blur) {
    return two_digits(blur.amount) + ' ' + unit_words(blur.unit);
}

std::string level_words(double level, const scene::Viewing& viewing) {
    return std::holds_alternative<optics::PrintViewing>(viewing) ? fmt::format("{:.3g}′", level)
                                                                 : fmt::format("{:.2g} px", level);
}

std::string focus_words(const scene::Scene& scene, Units units) {
    return std::visit(FocusWords{units}, scene.focus);
}

std::vector<std::string> answer_sentences(const TradeoffReport& report) {
    const Tradeoff& answer = report.tradeoff;
    if (answer.fine.nowhere)
        return {sentence(report, answer.fine, optics::Grade::fine)};
    if (answer.crisp.everywhere)
        return {sentence(report, answer.crisp, optics::Grade::crisp)};
    return {sentence(report, answer.fine, optics::Grade::fine),
            sentence(report, answer.crisp, optics::Grade::crisp)};
}

std::string balanced_words(const TradeoffReport& report) {
    const Tradeoff& answer = report.tradeoff;
    if (std::holds_alternative<scene::FocusBalanced>(report.scene.focus) || answer.crisp.everywhere)
        return {};
    const auto from = [&](const std::optional<plan::FNumbers>& holds) {
        return holds ? from_words(*holds, answer.range) : std::string{"at no aperture shown"};
    };
    std::string words = fmt::format(
        "With the focus balanced between the nearest and the farthest eye, at {}: fine {}",
        distance_words(answer.now.lens_to_mark_m, report.units), from(answer.balanced_fine));
    if (answer.balanced_fine)
        words += ", crisp " + from(answer.balanced_crisp);
    return words + '.';
}

bool cuts_heads(const TradeoffReport& report) {
    const Tradeoff& answer = report.tradeoff;
    return !answer.heads_whole_from_m || *answer.heads_whole_from_m > answer.range.nearest_m;
}

std::string framing_words(const TradeoffReport& report) {
    const Tradeoff& answer = report.tradeoff;
    std::string words;
    if (cuts_heads(report))
        words = fmt::format(
            "With {:g} mm {}.", report.scene.camera.focal_length_mm,
            answer.heads_whole_from_m
                ? fmt::format("every head is whole in the picture from {}",
                              distance_words(
                                  rounded_up_m(*answer.heads_whole_from_m, answer.range.farthest_m),
                                  report.units))
                : fmt::format("not every head is whole in the picture from any distance to {}",
                              distance_words(answer.range.farthest_m, report.units)));
    const std::string mend = whole_group_sentence(answer.whole_group, report.units);
    return words + (words.empty() || mend.empty() ? "" : " ") + mend;
}

std::string now_words(const TradeoffReport& report) {
    const plan::TradeoffRow& now = report.tradeoff.now;
    const plan::TradeoffCell& cell = now.cells.front();
    return fmt::format("now {} and {}: worst face {}, {}, {}; background {} %",
                       distance_words(now.lens_to_mark_m, report.units), f_words(cell.f_number),
                       on_one_line(report.scene.people[cell.worst.person].name),
                       judged_words(cell.judged_blur), optics::to_word(cell.grade),
                       two_digits(cell.background_percent));
}

std::string how_to_read(const TradeoffReport& report) {
    const bool fine = report.tradeoff.fine.in_part();
    const bool crisp = report.tradeoff.crisp.in_part();
    std::string borders;
    if (fine)
        borders = "; above the heavy line every face is fine";
    if (crisp)
        borders += fmt::format("{} line every face is crisp even to a sharp eye",
                               fine ? ", above the thinner" : "; above the black");
    const auto& sharpest = report.tradeoff.crisp.f_numbers;
    if (crisp && sharpest && sharpest->to < report.tradeoff.range.narrowest_f_number)
        borders += fmt::format(", until beyond {} diffraction shows", f_words(sharpest->to));
    const std::string note = perfect_lens_note(report.scene, report.tradeoff.range.widest_f_number);
    return fmt::format(
        "How to read it: go right to step back, up to stop down. The darker the shade, the more "
        "blurred is the face that is worst off{}.{} The dashes are the price: further up and "
        "to the right the background is sharper. All this is for the {:g} mm lens, focused anew "
        "at every distance, and the picture is not cropped: from further away it shows more round "
        "the group. The upper scale names the lens that would show the faces as large as now.{}",
        borders, cuts_heads(report) ? " Where it is hatched, the frame cuts heads." : "",
        report.scene.camera.focal_length_mm, note.empty() ? note : ' ' + note);
}

}  // namespace backrow::report
