#include "report/answers/advice_report.h"

#include "plan/faces/verdict.h"
#include "report/text/caution_words.h"
#include "report/text/exposure_words.h"
#include "report/text/lens_words.h"
#include "report/text/trouble_words.h"
#include "report/text/viewing_words.h"

#include "optics/exposure/stops.h"

#include "base/units.h"
#include "base/utf8.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdlib>
#include <functional>

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
        line += "   The profile is of another lens; this one is taken as perfect\n";
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

std::string cost_line(const scene::Scene& now, const plan::Answer& answer) {
    const optics::ExposureSetting right = plan::exposure_setting(answer.scene.camera);
    const std::string setting =
        fmt::format("{}; by hand to {}, people hold still to {}", setting_words(right),
                    optics::longest_shutter_words(answer.table.metering.handheld_limit_s),
                    optics::longest_shutter_words(answer.table.metering.motion_limit_s));
    const std::string stops = optics::stops_words(std::abs(answer.stops_lost));
    if (stops != optics::stops_words(0))
        return fmt::format("   {} {}: {}\n", stops, answer.stops_lost > 0 ? "lost" : "gained",
                           setting);
    const bool as_set = right == plan::exposure_setting(now.camera);
    return fmt::format("   {}: {}\n", as_set ? "Exposure as set" : "Exposure", setting);
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

std::string body(const scene::Scene& now, const plan::Answer& answer, Units units) {
    return fmt::format("   Background blur {:.1f} % of the picture's height, {:.0f} % of a head\n"
                       "   Least sharp: {}; {}\n",
                       answer.background.percent_of_height, answer.background.percent_of_head,
                       worst_words(answer), tightest(answer, units)) +
           cost_line(now, answer) + framing_line(answer);
}

std::string outcome_words(const AdviceReport& report, const plan::LensOutcome& outcome) {
    if (!outcome.answers.empty()) {
        std::vector<std::size_t> numbers;
        for (const std::size_t index : outcome.answers)
            numbers.push_back(index + 1);
        return fmt::format("answer{} {}", numbers.size() == 1 ? "" : "s", fmt::join(numbers, ", "));
    }
    if (!outcome.best)
        return outcome.loses_faces ? "sharp enough, but cuts somebody off or hides them"
                                   : "nothing within these limits";
    std::string words = fmt::format("holds at f/{:g}", outcome.best->f_number);
    if (outcome.best->lens_to_mark_m != report.scene.camera.lens_to_mark_m)
        words += " from " +
                 length_words(outcome.best->lens_to_mark_m, LengthScale::metres, report.units);
    return words +
           fmt::format(" with less background blur, {:.1f} %", outcome.best->background_percent);
}

std::string carried_words(const plan::LensOutcome& outcome) {
    return fmt::format("{:g} mm f/{:g}{}", outcome.lens.focal_length_mm,
                       outcome.lens.widest_f_number,
                       outcome.is_perfect ? ", taken as perfect" : "");
}

/// "   85 mm f/1.8, taken as perfect: answers 1, 3\n" for each lens that was carried besides or in
/// place of the scene's own.
std::string lens_lines(const AdviceReport& report) {
    if (report.wanted.lenses == std::vector{plan::scene_lens(report.scene)})
        return {};
    std::string lines = "\nLenses carried:\n";
    for (const plan::LensOutcome& outcome : report.advice.lenses)
        lines += fmt::format("   {}: {}\n", carried_words(outcome), outcome_words(report, outcome));
    return lines;
}

/// "when anybody drifts by 5 cm"
std::string drift_words(const AdviceReport& report) {
    const double margin_m = m_from_cm(report.wanted.margin_cm);
    return "when anybody drifts by " +
           length_words(margin_m, LengthScale::whole_centimetres, report.units);
}

std::string help_words(const AdviceReport& report) {
    const plan::Answer& nearest = *report.advice.nearest;
    std::vector<std::string> help;
    if (std::ranges::any_of(nearest.table.faces, [](const plan::Face& face) {
            return verdict_of(face) == plan::Verdict::hidden;
        }))
        help.emplace_back("placing people so that every face is seen");
    // Blur falls as the f-number grows.
    const double f_number = nearest.view.lens.f_number * nearest.drifted_share;
    if (nearest.drifted_share > 1)
        help.push_back(fmt::format("an opening of about f/{:.2g} (--narrowest)", f_number));
    if (nearest.worst_share <= 1 && nearest.drifted_share > 1)
        help.emplace_back("less room for drift (--margin-cm)");
    if (report.wanted.most_move_cm == 0)
        help.emplace_back("letting people move (--move-max)");
    else if (static_cast<std::size_t>(movers_allowed(report.wanted, report.scene.people.size())) <
             report.scene.people.size())
        help.emplace_back("letting more people move (--movers-max)");
    if (report.wanted.greatest_distance_m <= report.scene.camera.lens_to_mark_m)
        help.emplace_back("stepping back (--distance-max)");
    if (report.wanted.after_crop)
        help.emplace_back("doing without the crop");
    return fmt::format("{}", fmt::join(help, ", or "));
}

/// What is not seen spoils a picture before what is not sharp.
std::string spoilt_lines(const AdviceReport& report, const plan::Answer& nearest) {
    std::string lines;
    if (std::ranges::any_of(nearest.table.faces, std::not_fn(plan::is_seen)))
        for (const std::string& sentence : trouble_sentences(nearest.table.faces))
            lines += "   " + sentence + '\n';
    if (nearest.drifted_share > 1 || lines.empty())
        lines += fmt::format(
            "   Spoilt by {}{}\n", worst_words(nearest),
            report.wanted.margin_cm > 0
                ? fmt::format("; {:.0f} % {}", 100 * nearest.drifted_share, drift_words(report))
                : "");
    return lines;
}

}  // namespace

std::string advice_text(const AdviceReport& report) {
    const std::string title = on_one_line(report.scene.title);
    std::string text = title.empty() ? std::string{} : title + '\n';
    if (const std::string present =
            present_exposure_words(plan::metering(report.scene, camera_view(report.scene)));
        !present.empty())
        text += present + '\n';
    const char* grade = optics::to_word(report.wanted.grade);
    if (report.advice.nearest) {
        const plan::Answer& nearest = *report.advice.nearest;
        return text +
               fmt::format("Nothing within these limits keeps every face {}. What comes nearest:\n",
                           grade) +
               "\n   " + headline(report.scene, nearest, report.units) +
               spoilt_lines(report, nearest) +
               fmt::format("\nWhat may help: {}.\n", help_words(report)) + lens_lines(report) +
               caution_lines(all_cautions(report.advice));
    }
    text += fmt::format("To keep every face {}{}, most background blur first:\n", grade,
                        report.wanted.margin_cm > 0 ? ' ' + drift_words(report) : "");
    int number = 0;
    for (const plan::Answer& answer : report.advice.answers)
        text += fmt::format("\n{}. ", ++number) + headline(report.scene, answer, report.units) +
                body(report.scene, answer, report.units);
    text += lens_lines(report) + caution_lines(all_cautions(report.advice)) +
            perfect_lens_line(lens_note(report.advice));
    return text;
}

}  // namespace backrow::report
