#include "papers/card/card_words.h"

#include "optics/exposure/stops.h"

#include "base/utf8.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <variant>

namespace backrow::papers {
namespace {

/// More who are not fine are counted.
constexpr std::size_t most_named = 3;

/// All sentences of one card.
class CardSpeaker {
public:
    CardSpeaker(const CardFacts& facts, const Language& language, Units units)
        : facts_{facts}, language_{language}, units_{units} {}

    [[nodiscard]] CardWords words() const {
        return {.title = title(),
                .group = group_words(facts_.scene.people.size(), facts_.rows.size(), language_),
                .settings = settings(),
                .setting_notes = setting_notes(),
                .mind = mind(),
                .pacing = pacing(),
                .plan_caption = say("From above, to scale. Broken line: plane of focus. Grey: "
                                    "where faces are fine."),
                .side_caption = say("From picture right, camera to the left: the line-up."),
                .names_heading = names_heading(),
                .names = names(),
                .otherwise = {darker(), out_of_line(), other_lenses()},
                .at_the_shoot = {frames(), check(), to_say()}};
    }

private:
    [[nodiscard]] std::string say(std::string_view sentence,
                                  const std::vector<Part>& parts = {}) const {
        return language_.say(sentence, parts);
    }
    [[nodiscard]] std::string name_of(std::size_t person) const {
        return kept_apart(facts_.scene.people[person].name);
    }
    [[nodiscard]] std::string names_of(const std::vector<std::size_t>& people) const {
        std::vector<std::string> names;
        for (const std::size_t person : people)
            names.push_back(name_of(person));
        return fmt::format("{}", fmt::join(names, ", "));
    }
    [[nodiscard]] std::string distance(double m) const {
        return distance_words(m, language_, units_);
    }
    [[nodiscard]] std::string centimetres(double m) const {
        return room_words(m, language_, units_);
    }
    [[nodiscard]] std::string f_number(double engraved) const {
        return f_number_words(engraved, language_);
    }
    [[nodiscard]] std::string exposure(const optics::ExposureSetting& set) const {
        return exposure_words(set, language_);
    }
    [[nodiscard]] std::string title() const {
        const std::string title = on_one_line(facts_.scene.title);
        return title.empty() ? say("Card for the shoot") : title;
    }
    [[nodiscard]] std::string settings() const {
        const scene::Camera& camera = facts_.scene.camera;
        return fmt::format("{}   {}   {}   {}", lens_words(camera.focal_length_mm, language_),
                           f_number(camera.f_number), shutter_words(camera.shutter_s, language_),
                           iso_words(camera.iso, language_));
    }
    [[nodiscard]] std::string focus_sentence() const {
        const std::string at = distance(facts_.table.focus_m);
        if (const auto* on = std::get_if<scene::FocusOnPerson>(&facts_.scene.focus))
            return say("Focus on the nearer eye of {who}, at {distance}.",
                       {{"who", kept_apart(on->name)}, {"distance", at}});
        if (std::holds_alternative<scene::FocusBalanced>(facts_.scene.focus))
            return say("Focus between the nearest eye and the farthest, at {distance}.",
                       {{"distance", at}});
        return say("Focus at {distance}.", {{"distance", at}});
    }
    [[nodiscard]] std::string light_sentence() const {
        return say(
            "Right for a light of EV {ev}.",
            {{"ev", language_.number(fmt::format("{:.3g}", facts_.table.metering.scene_ev100))}});
    }
    /// Whether a limit on the shutter is broken, a camera holds that.
    [[nodiscard]] bool is_by_hand(double shutter_s) const {
        return shutter_s <= facts_.table.metering.handheld_limit_s;
    }
    [[nodiscard]] std::vector<std::string> setting_notes() const {
        const scene::Camera& camera = facts_.scene.camera;
        std::vector<std::string> notes;
        if (camera.filter_stops > 0)
            notes.push_back(say("With a {filter}.",
                                {{"filter", filter_words(camera.filter_stops, language_)}}));
        notes.push_back(focus_sentence());
        notes.push_back(light_sentence());
        const auto limit = [&](double limit_s) {
            const std::string words = optics::longest_shutter_words(limit_s);
            return std::isfinite(limit_s) ? language_.number(words) : say("any time");
        };
        notes.push_back(say("Slowest shutter: {hand} by hand, {still} for people to hold still.",
                            {{"hand", limit(facts_.table.metering.handheld_limit_s)},
                             {"still", limit(facts_.table.metering.motion_limit_s)}}));
        if (!is_by_hand(camera.shutter_s))
            notes.push_back(say("Too slow by hand: use a tripod."));
        if (plan::trusts_perfect_lens(facts_.scene))
            notes.push_back(say("Reckoned with a perfect lens; few are so wide open."));
        return notes;
    }
    [[nodiscard]] Passage mind() const {
        Passage passage{.heading = say("Mind"), .sentences = {}};
        for (const plan::Caution caution : facts_.cautions)
            passage.sentences.push_back(say(to_words(caution)));
        return passage;
    }
    [[nodiscard]] std::vector<Part> walk(double m) const {
        return {{"distance", distance(m)}, {"paces", pace_words(m, language_)}};
    }
    [[nodiscard]] Passage pacing() const {
        constexpr double least_told_m = 0.005;
        const scene::Camera& camera = facts_.scene.camera;
        const double front_m = facts_.rows.front().lens_to_row_m;
        Passage passage{.heading = say("To pace out"), .sentences = {}};
        if (std::abs(front_m - camera.lens_to_mark_m) > least_told_m)
            passage.sentences.push_back(
                say("Lens to the mark: {distance}, {paces}.", walk(camera.lens_to_mark_m)));
        passage.sentences.push_back(
            say("Lens to the front row: {distance}, {paces}.", walk(front_m)));
        passage.sentences.push_back(say("Height of the lens over the mark: {height}.",
                                        {{"height", distance(camera.height_m)}}));
        for (std::size_t i = 0; i < facts_.rows.size(); ++i) {
            const StoodRow& row = facts_.rows[i];
            const std::vector<Part> parts{{"row", fmt::format("{}", i + 1)},
                                          {"distance", distance(row.behind_front_m)},
                                          {"height", distance(row.up_m)}};
            const bool is_raised = row.up_m > least_told_m;
            if (i > 0 && is_raised)
                passage.sentences.push_back(
                    say("Row {row}: {distance} behind the front row, raised by {height}.", parts));
            else if (i > 0)
                passage.sentences.push_back(
                    say("Row {row}: {distance} behind the front row.", parts));
            else if (is_raised)
                passage.sentences.push_back(say("Row {row}: raised by {height}.", parts));
        }
        return passage;
    }
    [[nodiscard]] std::string viewing() const {
        return viewing_words(facts_.scene.viewing, language_, units_);
    }
    [[nodiscard]] std::string names_heading() const {
        return say(
            "From picture left to right; room in {unit} towards the camera and away from it, "
            "while still fine {viewing}.",
            {{"unit", units_ == Units::metric ? "cm" : say("inches")}, {"viewing", viewing()}});
    }
    [[nodiscard]] std::string row_heading(std::size_t i) const {
        if (facts_.rows.size() == 1)
            return say("The row");
        const std::string number = fmt::format("{}", i + 1);
        if (i == 0)
            return say("Row 1, in front");
        return i + 1 == facts_.rows.size() ? say("Row {row}, at the back", {{"row", number}})
                                           : say("Row {row}", {{"row", number}});
    }
    [[nodiscard]] std::string room(const plan::Margin& margin) const {
        if (margin.front_m == 0 && margin.back_m == 0)
            return "–";
        const auto digits = [&](double m) {
            return language_.number(length_digits(m, LengthScale::centimetres, units_));
        };
        return digits(margin.front_m) + '/' + digits(margin.back_m);
    }
    [[nodiscard]] std::vector<NamesOfRow> names() const {
        std::vector<NamesOfRow> rows;
        std::size_t number = 0;
        for (std::size_t i = 0; i < facts_.rows.size(); ++i) {
            NamesOfRow row{.heading = row_heading(i), .people = {}};
            for (const std::size_t person : facts_.rows[i].people) {
                const plan::Face& face = facts_.table.faces[person];
                row.people.push_back({.number = fmt::format("{}", ++number),
                                      .name = name_of(person),
                                      .room = room(face.margin),
                                      .verdict = verdict_word(verdict_of(face), language_),
                                      .sign = verdict_of(face)});
            }
            rows.push_back(std::move(row));
        }
        return rows;
    }
    [[nodiscard]] Passage darker() const {
        Passage passage{.heading = say("If it gets darker"), .sentences = {}};
        const auto add = [&](std::string sentence, double shutter_s) {
            if (!is_by_hand(shutter_s))
                sentence += ' ' + say("Too slow by hand: use a tripod.");
            passage.sentences.push_back(std::move(sentence));
        };
        const auto& [by_one, by_two] = facts_.darker;
        add(say("One stop: {exposure}.", {{"exposure", exposure(by_one)}}), by_one.shutter_s);
        add(say("Two stops: {exposure}.", {{"exposure", exposure(by_two)}}), by_two.shutter_s);
        return passage;
    }
    [[nodiscard]] Passage out_of_line() const {
        Passage passage{.heading = say("If somebody cannot stand in line"), .sentences = {}};
        std::vector<std::size_t> outside;
        for (std::size_t i = 0; i < facts_.table.faces.size(); ++i)
            if (const plan::Margin& margin = facts_.table.faces[i].margin;
                margin.front_m + margin.back_m == 0)
                outside.push_back(i);
        if (outside.size() > most_named)
            passage.sentences.push_back(
                say("Not fine as it is: {number} of {all}.",
                    {{"number", fmt::format("{}", outside.size())},
                     {"all", fmt::format("{}", facts_.table.faces.size())}}));
        else if (!outside.empty())
            passage.sentences.push_back(
                say("Not fine as it is: {who}.", {{"who", names_of(outside)}}));
        if (facts_.least_room) {
            const plan::Margin& margin = facts_.table.faces[*facts_.least_room].margin;
            passage.sentences.push_back(
                say("Least room has {who}: {front} towards the camera, {back} away from it.",
                    {{"who", name_of(*facts_.least_room)},
                     {"front", centimetres(margin.front_m)},
                     {"back", centimetres(margin.back_m)}}));
        }
        const std::string off = centimetres(out_of_line_m);
        if (!facts_.out_of_line_f_number)
            passage.sentences.push_back(
                say("No aperture to f/22 gives everybody {off}: bring the rows closer together.",
                    {{"off", off}}));
        else if (*facts_.out_of_line_f_number == facts_.scene.camera.f_number)
            passage.sentences.push_back(
                say("Everybody may stand {off} out of line as it is.", {{"off", off}}));
        else
            passage.sentences.push_back(
                say("For {off} to either side stop down to {aperture}: {exposure}.",
                    {{"off", off},
                     {"aperture", f_number(*facts_.out_of_line_f_number)},
                     {"exposure", exposure(facts_.out_of_line)}}));
        return passage;
    }
    /// Diffraction may end what defocus begins.
    [[nodiscard]] std::string fine_apertures(const plan::FramingLens& lens) const {
        if (!lens.fine)
            return say("not all fine at any aperture");
        const auto marks = optics::marked_f_numbers();
        const bool from_widest = lens.fine->from <= std::max(lens.widest_f_number, marks.front());
        const bool to_narrowest = lens.fine->to >= marks.back();
        if (from_widest && to_narrowest)
            return say("all fine at every aperture");
        const std::vector<Part> parts{{"from", f_number(lens.fine->from)},
                                      {"to", f_number(lens.fine->to)}};
        return to_narrowest ? say("all fine from {from} on", {parts.front()})
                            : say("all fine from {from} to {to}", parts);
    }
    [[nodiscard]] std::string lens_sentence(const plan::FramingLens& lens) const {
        const std::string focal = lens_words(lens.focal_length_mm, language_);
        if (!lens.lens_to_mark_m)
            return say("{lens}: faces as large only from among the people.", {{"lens", focal}});
        const std::vector<Part> parts{{"lens", focal},
                                      {"distance", distance(*lens.lens_to_mark_m)},
                                      {"paces", pace_words(*lens.lens_to_mark_m, language_)},
                                      {"apertures", fine_apertures(lens)}};
        std::string sentence = say("{lens}: from {distance}, {paces}; {apertures}.", parts);
        if (!lens.cut.heads.empty())
            sentence += ' ' + say("Heads cut off: {heads}.",
                                  {{"heads", fmt::format("{}", lens.cut.heads.size())}});
        return sentence;
    }
    [[nodiscard]] Passage other_lenses() const {
        Passage passage{.heading = say("If this lens stays at home"), .sentences = {}};
        for (const plan::FramingLens& lens : facts_.other_lenses)
            passage.sentences.push_back(lens_sentence(lens));
        if (facts_.scene.lens.profile &&
            std::ranges::any_of(facts_.other_lenses, &plan::FramingLens::is_perfect))
            passage.sentences.push_back(say("Other lenses are taken as perfect."));
        return passage;
    }
    [[nodiscard]] Passage frames() const {
        // With five seconds between them, a quarter of an hour.
        constexpr int most_frames = 180;
        Passage passage{.heading = say("Frames to take"), .sentences = {}};
        const plan::FramesNeeded& frames = facts_.odds.frames;
        if (!frames.p95)
            passage.sentences.push_back(
                say("No number of frames is enough: change the setting first."));
        else if (*frames.p95 > most_frames)
            passage.sentences.push_back(
                say("{frames} for one good one: too many. Change the setting first.",
                    {{"frames", fmt::format("{}", *frames.p95)}}));
        else
            passage.sentences.push_back(
                say("{frames}, some seconds apart: one with every face fine and every eye open, "
                    "with 95 % certainty.",
                    {{"frames", fmt::format("{}", *frames.p95)}}));
        return passage;
    }
    [[nodiscard]] Passage check() const {
        Passage passage{.heading = say("On the camera's screen"), .sentences = {}};
        if (facts_.to_check.empty())
            passage.sentences.push_back(say("No face is seen whole: change the scene first."));
        else
            passage.sentences.push_back(
                say("Check the eyes of {who}.", {{"who", names_of(facts_.to_check)}}));
        passage.sentences.push_back(
            say("Magnified {times} times they look as they will {viewing}.",
                {{"times", language_.number(fmt::format("{:.1f}", facts_.magnification))},
                 {"viewing", viewing()}}));
        return passage;
    }
    [[nodiscard]] Passage to_say() const {
        constexpr double hand_m = 0.08;
        Passage passage{.heading = say("To tell the group"), .sentences = {}};
        const auto add = [&](std::string_view sentence) {
            passage.sentences.push_back(say(sentence));
        };
        const bool may_sway = facts_.least_room && [&] {
            const plan::Margin& margin = facts_.table.faces[*facts_.least_room].margin;
            return std::min(margin.front_m, margin.back_m) >= hand_m;
        }();
        if (facts_.scene.people.size() > 1)
            add("“Look for the lens: if you cannot see it, it cannot see you.”");
        else
            add("“Look into the lens.”");
        if (may_sway)
            add("“Stay where your feet are. A hand's breadth does not matter.”");
        else
            add("“Stay exactly where you are: do not lean, not even a hand's breadth.”");
        if (!facts_.sun.in_eyes.empty())
            add("“Close your eyes. Open them when I say three.”");
        else
            add("“Blink now. On three, eyes open.”");
        add("“I take several; look here until I say that we are done.”");
        return passage;
    }

    const CardFacts& facts_;
    const Language& language_;
    Units units_;
};

}  // namespace

CardWords card_words(const CardFacts& facts, const Language& language, Units units) {
    return CardSpeaker{facts, language, units}.words();
}

std::string more_people_words(std::size_t count, const Language& language) {
    return language.say("People for whom there is no room here: {count}. Choose a larger paper.",
                        {{"count", fmt::format("{}", count)}});
}

}  // namespace backrow::papers
