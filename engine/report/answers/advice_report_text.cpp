#include "report/answers/advice_report.h"

#include "report/text/viewing_words.h"

#include "optics/stops.h"

#include "base/units.h"
#include "base/utf8.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdlib>

namespace backrow::report {
namespace {

std::string focus_words(const plan::Answer& answer, Units units) {
    const auto* on = std::get_if<scene::FocusOnPerson>(&answer.scene.focus);
    return on != nullptr
               ? fmt::format("focus on {}", on_one_line(on->name))
               : "focus at " + length_words(answer.view.lens.focus_m, LengthScale::metres, units);
}

std::string move_words(const plan::Move& move, Units units) {
    return fmt::format(
        "{} {} {}", on_one_line(move.name),
        length_words(m_from_cm(std::abs(move.back_cm)), LengthScale::whole_centimetres, units),
        move.back_cm < 0 ? "forward" : "back");
}

std::string moves_words(const plan::Answer& answer, Units units) {
    std::vector<std::string> words;
    for (const plan::Move& move : answer.moves)
        words.push_back(move_words(move, units));
    return fmt::format("{}", fmt::join(words, ", "));
}

std::string headline(const scene::Scene& scene, const plan::Answer& answer, Units units) {
    constexpr std::size_t most_in_headline = 2;
    std::vector<std::string> parts;
    const scene::Camera& camera = answer.scene.camera;
    if (camera.focal_length_mm != scene.camera.focal_length_mm)
        parts.push_back(fmt::format("{} mm", camera.focal_length_mm));
    parts.push_back(fmt::format("f/{}", camera.f_number));
    if (camera.lens_to_mark_m != scene.camera.lens_to_mark_m)
        parts.push_back("from " + length_words(camera.lens_to_mark_m, LengthScale::metres, units));
    parts.push_back(focus_words(answer, units));
    if (answer.moves.empty())
        parts.emplace_back("nobody moves");
    else if (answer.moves.size() <= most_in_headline)
        parts.push_back(moves_words(answer, units));
    else
        parts.push_back(fmt::format("{} people move", answer.moves.size()));
    std::string line = fmt::format("{}\n", fmt::join(parts, ", "));
    if (scene.lens.profile && !answer.scene.lens.profile)
        line += "   The profile is of another lens; this one is taken for perfect\n";
    if (answer.moves.size() > most_in_headline)
        line += fmt::format("   Moves: {}\n", moves_words(answer, units));
    return line;
}

/// The face with the least way to go on its shorter side.
std::string tightest(const plan::Answer& answer, Units units) {
    const auto least = [](const plan::Margin& margin) {
        return std::min(margin.front_m, margin.back_m);
    };
    const auto found = std::ranges::min_element(answer.margins, {}, least);
    const auto index = static_cast<std::size_t>(found - answer.margins.begin());
    return fmt::format("least margin {}, {}",
                       length_words(least(*found), LengthScale::whole_centimetres, units),
                       on_one_line(answer.table.faces[index].name));
}

std::string worst_words(const plan::Answer& answer) {
    const plan::Face& worst = answer.table.faces[answer.worst];
    return fmt::format("{}, {} ({:.1f} {}), {:.0f} % of what is allowed", on_one_line(worst.name),
                       optics::to_word(worst.grade), worst.judged_blur.amount,
                       unit_words(worst.judged_blur.unit), 100 * answer.worst_share);
}

std::string cost_line(const plan::Answer& answer) {
    const std::string setting = fmt::format(
        "{} at ISO {:.0f}; by hand to {}, people hold still to {}",
        optics::shutter_words(answer.payment.marked.shutter_s), answer.payment.marked.iso,
        optics::longest_shutter_words(answer.table.metering.handheld_limit_s),
        optics::longest_shutter_words(answer.table.metering.motion_limit_s));
    const std::string stops = optics::stops_words(std::abs(answer.stops_lost));
    if (stops == optics::stops_words(0))
        return fmt::format("   Exposure as set: {}\n", setting);
    return fmt::format("   {} {}: {}\n", stops, answer.stops_lost > 0 ? "lost" : "gained", setting);
}

std::string framing_line(const plan::Answer& answer) {
    const plan::Framing& framing = answer.framing;
    constexpr double hardly = 0.015;
    if (std::abs(framing.size - 1) < hardly)
        return {};
    std::string line = fmt::format("   Heads {:.0f} % of their present size; {:.0f} mm would "
                                   "restore it",
                                   100 * framing.size, framing.restoring_focal_length_mm);
    if (framing.crop > 1) {
        double least_px = answer.table.faces.front().face_height_px;
        for (const plan::Face& face : answer.table.faces)
            least_px = std::min(least_px, face.face_height_px);
        line += fmt::format(", or a crop by {:.2f}, which leaves {:.0f} px of the smallest face "
                            "and enlarges the blur as much",
                            framing.crop, least_px);
    }
    return line + '\n';
}

std::string body(const plan::Answer& answer, Units units) {
    return fmt::format("   Background blur {:.1f} % of the picture's height, {:.0f} % of a head\n"
                       "   Least sharp: {}; {}\n",
                       answer.background.percent_of_height, answer.background.percent_of_head,
                       worst_words(answer), tightest(answer, units)) +
           cost_line(answer) + framing_line(answer);
}

bool moves_somebody_raised(const plan::Advice& advice) {
    return std::ranges::any_of(advice.answers, [](const plan::Answer& answer) {
        return std::ranges::any_of(answer.moves, &plan::Move::is_raised);
    });
}

std::string help_words(const AdviceReport& report) {
    const plan::Answer& nearest = *report.advice.nearest;
    std::vector<std::string> help;
    // Blur falls as the f-number grows.
    const double f_number = nearest.view.lens.f_number * nearest.worst_share;
    help.push_back(fmt::format("an opening of about f/{:.2g} (--narrowest)", f_number));
    if (report.wanted.most_move_cm == 0)
        help.emplace_back("letting people move (--move-max)");
    if (report.wanted.greatest_distance_m <= report.scene.camera.lens_to_mark_m)
        help.emplace_back("stepping back (--distance-max)");
    if (report.wanted.after_crop)
        help.emplace_back("doing without the crop");
    return fmt::format("{}", fmt::join(help, ", or "));
}

}  // namespace

std::string advice_text(const AdviceReport& report) {
    const std::string title = on_one_line(report.scene.title);
    std::string text = title.empty() ? std::string{} : title + '\n';
    const char* grade = optics::to_word(report.wanted.grade);
    if (report.advice.nearest) {
        const plan::Answer& nearest = *report.advice.nearest;
        return text +
               fmt::format("Nothing within these limits keeps every face {}. What comes nearest:\n",
                           grade) +
               "\n   " + headline(report.scene, nearest, report.units) +
               fmt::format("   Spoilt by {}\n", worst_words(nearest)) +
               fmt::format("\nWhat may help: {}.\n", help_words(report));
    }
    text += fmt::format("To keep every face {}, most background blur first:\n", grade);
    int number = 0;
    for (const plan::Answer& answer : report.advice.answers)
        text += fmt::format("\n{}. ", ++number) + headline(report.scene, answer, report.units) +
                body(answer, report.units);
    if (moves_somebody_raised(report.advice))
        text +=
            "\nSomebody who stands on a riser or step is asked to move: mind its edge, and keep "
            "to the rules of the place.\n";
    return text;
}

}  // namespace backrow::report
