#include "papers/lesson/lesson_words.h"

#include "plan/comparing/carried_lens.h"

#include "optics/exposure/stops.h"

#include "base/utf8.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace backrow::papers {
namespace {

bool is_fine(const plan::Face& face) {
    const plan::Verdict verdict = verdict_of(face);
    return verdict == plan::Verdict::crisp || verdict == plan::Verdict::fine;
}

/// All sentences of one lesson.
class LessonSpeaker {
public:
    LessonSpeaker(const LessonFacts& facts, const report::StripPictures& pictures,
                  const Language& language, Units units)
        : facts_{facts}, pictures_{pictures}, language_{language}, units_{units} {}

    [[nodiscard]] LessonWords words() const {
        return {.title = say("Distance against aperture"),
                .group = group(),
                .apertures = apertures(),
                .distances = distances(),
                .cells = cells(),
                .cells_told = cells_told(),
                .theory_heading = say("Why"),
                .theory = theory(),
                .mind_heading = say("Mind"),
                .mind = mind(),
                .exercises_heading = say("Exercises"),
                .exercises = {aperture_question(), focus_question(), frames_question()},
                .answers_heading = say("Answers"),
                .answers = {aperture_answer(), focus_answer(), frames_answer()}};
    }

private:
    [[nodiscard]] std::string say(std::string_view sentence,
                                  const std::vector<Part>& parts = {}) const {
        return language_.say(sentence, parts);
    }
    [[nodiscard]] const scene::Camera& camera() const { return facts_.scene.camera; }
    [[nodiscard]] std::string name_of(std::size_t person) const {
        return kept_apart(facts_.scene.people[person].name);
    }
    [[nodiscard]] std::string distance(double m) const {
        return distance_words(m, language_, units_);
    }
    [[nodiscard]] std::string f_number(double engraved) const {
        return f_number_words(engraved, language_);
    }
    [[nodiscard]] std::string pixels(double px) const {
        return language_.number(fmt::format("{:.1f}", px));
    }
    /// Three digits that count.
    [[nodiscard]] std::string percent(double share) const {
        return language_.number(fmt::format("{:.3g} %", 100 * share));
    }
    [[nodiscard]] std::string grade() const {
        return verdict_word(facts_.aperture.grade == optics::Grade::fine ? plan::Verdict::fine
                                                                         : plan::Verdict::crisp,
                            language_);
    }
    [[nodiscard]] const plan::StripFrame& frame(std::size_t place, std::size_t aperture) const {
        return facts_.strip.frame(place, aperture);
    }
    [[nodiscard]] double distance_m(std::size_t place) const {
        return facts_.strip.places[place].lens_to_mark_m;
    }

    [[nodiscard]] std::string group() const {
        const std::string title = on_one_line(facts_.scene.title);
        const std::string group =
            group_words(facts_.scene.people.size(), facts_.rows, language_) + ' ' +
            say("Lens: {lens}.", {{"lens", lens_words(camera().focal_length_mm, language_)}});
        return title.empty() ? group : title + ". " + group;
    }
    [[nodiscard]] std::vector<LessonHead> apertures() const {
        std::vector<LessonHead> heads;
        for (std::size_t i = 0; i < facts_.strip.f_numbers.size(); ++i)
            heads.push_back(
                {.title = f_number(facts_.strip.f_numbers[i]),
                 .note = exposure_words(frame(facts_.own_place, i).exposure, language_)});
        return heads;
    }
    [[nodiscard]] std::vector<LessonHead> distances() const {
        std::vector<LessonHead> heads;
        for (std::size_t i = 0; i < facts_.strip.places.size(); ++i)
            heads.push_back(
                {.title = distance(distance_m(i)), .note = pace_words(distance_m(i), language_)});
        return heads;
    }

    [[nodiscard]] std::string who_is_fine(const std::vector<plan::Face>& faces) const {
        constexpr std::size_t most_named = 2;
        std::vector<std::string> fine, others;
        for (std::size_t i = 0; i < faces.size(); ++i)
            (is_fine(faces[i]) ? fine : others).push_back(name_of(i));
        if (others.empty())
            return say("Fine: everybody.");
        if (fine.empty())
            return say("Fine: nobody.");
        const auto named = [](const std::vector<std::string>& names) {
            return std::vector<Part>{{"who", fmt::format("{}", fmt::join(names, ", "))}};
        };
        if (std::min(fine.size(), others.size()) <= most_named)
            return fine.size() < others.size() ? say("Fine: only {who}.", named(fine))
                                               : say("Fine: all but {who}.", named(others));
        return say("Fine: {fine} of {all}.", {{"fine", fmt::format("{}", fine.size())},
                                              {"all", fmt::format("{}", faces.size())}});
    }
    [[nodiscard]] LessonCell cell(std::size_t i) const {
        const plan::StripFrame& shown = facts_.strip.frames[i];
        LessonCell cell{.sharp = who_is_fine(shown.faces)};
        if (!shown.worst)
            return cell;
        const plan::Face& face = shown.worst->face;
        cell.sign = verdict_of(face);
        cell.least_sharp = fmt::format("{}: {}", name_of(shown.worst->person),
                                       verdict_word(*cell.sign, language_));
        const auto measured = pictures_.made[i].measured_blur_px;
        const std::string predicted = pixels(face.predicted_blur_px);
        cell.blur = measured ? say("{predicted} pixels, measured {measured}",
                                   {{"predicted", predicted}, {"measured", pixels(*measured)}})
                             : say("{predicted} pixels", {{"predicted", predicted}});
        return cell;
    }
    [[nodiscard]] std::vector<LessonCell> cells() const {
        std::vector<LessonCell> cells;
        for (std::size_t i = 0; i < facts_.strip.frames.size(); ++i)
            cells.push_back(cell(i));
        return cells;
    }
    [[nodiscard]] std::string cells_told() const {
        std::string told =
            say("Beside each frame its least sharp face at {scale} of the camera's pixels, and "
                "over how many of them an eye there blurs. Fine: {viewing}.",
                {{"scale", percent(pictures_.face_scale)},
                 {"viewing", viewing_words(facts_.scene.viewing, language_, units_)}});
        if (plan::trusts_perfect_lens(facts_.scene, std::ranges::min(facts_.strip.f_numbers)))
            told += ' ' + say("Reckoned with a perfect lens; few are so wide open.");
        return told;
    }

    /// The least sharp face in the frame that two are compared with.
    [[nodiscard]] std::string aperture_sentence(std::size_t wide, std::size_t narrow) const {
        const plan::StripFrame& from = frame(facts_.own_place, wide);
        const std::size_t who = from.worst ? from.worst->person : 0;
        const plan::StripFrame& to = frame(facts_.own_place, narrow);
        return say("Blur is in proportion to the width of the opening: from {wide} to {narrow}, at "
                   "{distance}, that of {who} goes from {more} to {less} pixels.",
                   {{"wide", f_number(facts_.strip.f_numbers[wide])},
                    {"narrow", f_number(facts_.strip.f_numbers[narrow])},
                    {"distance", distance(distance_m(facts_.own_place))},
                    {"who", name_of(who)},
                    {"more", pixels(from.faces[who].predicted_blur_px)},
                    {"less", pixels(to.faces[who].predicted_blur_px)}});
    }
    [[nodiscard]] std::string distance_sentence(std::size_t near, std::size_t far) const {
        const plan::StripFrame& from = frame(near, facts_.own_aperture);
        const std::size_t who = from.worst ? from.worst->person : 0;
        const plan::Face& before = from.faces[who];
        const plan::Face& after = frame(far, facts_.own_aperture).faces[who];
        return say("It shrinks about as the square of the distance grows: from {near} to {far}, at "
                   "{aperture}, it goes from {more} to {less} pixels, and the face from {tall} to "
                   "{small} pixels.",
                   {{"near", distance(distance_m(near))},
                    {"far", distance(distance_m(far))},
                    {"aperture", f_number(camera().f_number)},
                    {"more", pixels(before.predicted_blur_px)},
                    {"less", pixels(after.predicted_blur_px)},
                    {"tall", fmt::format("{:.0f}", before.face_height_px)},
                    {"small", fmt::format("{:.0f}", after.face_height_px)}});
    }
    [[nodiscard]] std::string depth_sentence() const {
        return say("What is fine has a depth: at {distance} and {aperture} it goes from {near} to "
                   "{far}, and the eyes of the group from {nearest} to {farthest}.",
                   {{"distance", distance(camera().lens_to_mark_m)},
                    {"aperture", f_number(camera().f_number)},
                    {"near", distance(facts_.table.best_zone.near_m)},
                    {"far", distance(facts_.table.best_zone.far_m)},
                    {"nearest", distance(facts_.focus.nearest_m)},
                    {"farthest", distance(facts_.focus.farthest_m)}});
    }
    /// Where there is one aperture or one distance alone, nothing is compared with it.
    [[nodiscard]] std::vector<std::string> theory() const {
        std::vector<std::string> sentences;
        if (facts_.strip.f_numbers.size() > 1)
            sentences.push_back(aperture_sentence(0, 1));
        if (const std::size_t places = facts_.strip.places.size(); places > 1) {
            const std::size_t near = std::min(facts_.own_place, places - 2);
            sentences.push_back(distance_sentence(near, near + 1));
        }
        sentences.push_back(depth_sentence());
        return sentences;
    }
    [[nodiscard]] std::vector<std::string> mind() const {
        std::vector<std::string> sentences;
        for (const plan::Caution caution : facts_.strip.cautions)
            sentences.push_back(say(to_words(caution)));
        return sentences;
    }

    [[nodiscard]] std::string aperture_question() const {
        return say(
            "At {aperture} and {distance} the blur of {who} is {times} times the largest that "
            "is still {grade}. At which third of a stop is every face {grade}, and what does "
            "that cost in light?",
            {{"aperture", f_number(camera().f_number)},
             {"distance", distance(camera().lens_to_mark_m)},
             {"who", name_of(facts_.aperture.most_blurred)},
             {"times", times()},
             {"grade", grade()}});
    }
    [[nodiscard]] std::string times() const {
        return std::isfinite(facts_.aperture.times_limit)
                   ? language_.number(fmt::format("{:.2f}", facts_.aperture.times_limit))
                   : "∞";
    }
    [[nodiscard]] std::string aperture_answer() const {
        const ApertureExercise& exercise = facts_.aperture;
        if (!exercise.f_number)
            return say("At none to f/22: bring the rows closer together, or go back.");
        if (*exercise.f_number == camera().f_number)
            return say("At {aperture}, as it is; it costs nothing.",
                       {{"aperture", f_number(*exercise.f_number)}});
        return say("At {aperture}. It costs, in stops, {stops}: {exposure}.",
                   {{"aperture", f_number(*exercise.f_number)},
                    {"stops", optics::stops_digits(exercise.stops_lost)},
                    {"exposure", exposure_words(exercise.exposure, language_)}});
    }
    /// Nobody stands before or behind anybody.
    [[nodiscard]] bool is_flat() const {
        constexpr double least_told_m = 0.01;
        return facts_.focus.farthest_m - facts_.focus.nearest_m < least_told_m;
    }
    [[nodiscard]] std::string focus_question() const {
        if (is_flat())
            return say(
                "All eyes are {distance} away. How far may {who} lean towards the camera, and "
                "how far away from it, and still be fine?",
                {{"distance", distance(facts_.focus.nearest_m)},
                 {"who", name_of(facts_.aperture.most_blurred)}});
        return say("The nearest eye is {nearest} away, the farthest {farthest}. On which distance "
                   "are both equally sharp, and how large is their blur then?",
                   {{"nearest", distance(facts_.focus.nearest_m)},
                    {"farthest", distance(facts_.focus.farthest_m)}});
    }
    [[nodiscard]] std::string focus_answer() const {
        if (is_flat()) {
            const plan::Margin& margin = facts_.table.faces[facts_.aperture.most_blurred].margin;
            return say("{front} towards the camera, {back} away from it.",
                       {{"front", room_words(margin.front_m, language_, units_)},
                        {"back", room_words(margin.back_m, language_, units_)}});
        }
        const std::vector<Part> parts{{"distance", distance(facts_.focus.focus_m)},
                                      {"pixels", pixels(facts_.focus.blur_px)}};
        return is_of_perfect_lens()
                   ? say("On {distance}, twice the product of both by their sum: {pixels} pixels.",
                         parts)
                   : say("On {distance}: {pixels} pixels.", parts);
    }
    /// Whether the focus is where a lens without faults has it, as far as anybody reads.
    [[nodiscard]] bool is_of_perfect_lens() const {
        const auto& [nearest_m, farthest_m, focus_m, blur_px] = facts_.focus;
        constexpr double as_printed_m = 0.005;
        return std::abs(2 * nearest_m * farthest_m / (nearest_m + farthest_m) - focus_m) <
               as_printed_m;
    }
    [[nodiscard]] std::string frames_question() const {
        return say(
            "Nobody is a statue: at {aperture} sway leaves every face fine in {sharp} of the "
            "frames, and one pair of eyes is open in {each}. In how many are all open, and "
            "how many frames give, with 95 % certainty, one with both?",
            {{"aperture", f_number(facts_.frames.f_number)},
             {"sharp", percent(facts_.frames.odds.sharp.value)},
             {"each", percent(facts_.frames.eyes_open_each)}});
    }
    [[nodiscard]] std::string frames_answer() const {
        const plan::Odds& odds = facts_.frames.odds;
        const std::vector<Part> parts{
            {"open", percent(odds.eyes_open)},
            {"both", percent(odds.both.value)},
            {"frames", odds.frames.p95 ? fmt::format("{}", *odds.frames.p95) : std::string{}}};
        return odds.frames.p95
                   ? say("All open in {open}, both in {both}. Frames: {frames}, ln 0.05 by ln (1 − "
                         "both), rounded up.",
                         parts)
                   : say("All open in {open}, both never: no number of frames is enough.",
                         {parts.front()});
    }

    const LessonFacts& facts_;
    const report::StripPictures& pictures_;
    const Language& language_;
    Units units_;
};

}  // namespace

LessonWords lesson_words(const LessonFacts& facts, const report::StripPictures& pictures,
                         const Language& language, Units units) {
    return LessonSpeaker{facts, pictures, language, units}.words();
}

}  // namespace backrow::papers
