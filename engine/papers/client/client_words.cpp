#include "papers/client/client_words.h"

#include "papers/words/quantities.h"

#include "plan/faces/verdict.h"

#include "base/utf8.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>
#include <utility>
#include <variant>

namespace backrow::papers {
namespace {

bool is_sharp(const plan::Face& face) {
    const plan::Verdict verdict = verdict_of(face);
    return verdict == plan::Verdict::crisp || verdict == plan::Verdict::fine;
}

/// How high the picture is, as held; nothing where a screen shows it pixel by pixel.
std::optional<double> height_m(const scene::Viewing& viewing, const scene::CameraView& view) {
    const auto* print = std::get_if<optics::PrintViewing>(&viewing);
    if (print == nullptr)
        return std::nullopt;
    return print->long_side_cm / 100 * view.height_px / std::max(view.width_px, view.height_px);
}

/// Rounded to two digits that count.
double two_digits(double number) {
    if (!(number > 0) || !std::isfinite(number))
        return number;
    const double step = std::pow(10, std::floor(std::log10(number)) - 1);
    return std::round(number / step) * step;
}

class ClientSpeaker {
public:
    ClientSpeaker(const ClientFacts& facts, const Language& language, Units units)
        : facts_{facts}, language_{language}, units_{units} {}

    [[nodiscard]] ClientWords words() const {
        ClientWords words{.title = title(),
                          .summary = summary(),
                          .leafing = leafing(),
                          .pictures = {},
                          .ways = {}};
        for (std::size_t i = 0; i < facts_.strip.frames.size(); ++i)
            words.pictures.push_back(picture(i));
        for (const WayOfLooking& way : facts_.ways)
            words.ways.push_back({.name = name_of(way), .size = size_of(way)});
        return words;
    }

private:
    using Faces = std::vector<plan::Face>;

    [[nodiscard]] std::string say(std::string_view sentence,
                                  const std::vector<Part>& parts = {}) const {
        return language_.say(sentence, parts);
    }
    [[nodiscard]] std::string f_number(double engraved) const {
        return f_number_words(engraved, language_);
    }
    [[nodiscard]] std::string lens(double focal_length_mm) const {
        return lens_words(std::round(focal_length_mm * 10) / 10, language_);
    }
    [[nodiscard]] std::string distance(double m) const {
        return distance_words(m, language_, units_);
    }
    [[nodiscard]] std::string title() const {
        const std::string title = on_one_line(facts_.scene.title);
        return title.empty() ? say("The group picture") : title;
    }
    [[nodiscard]] bool lens_follows() const {
        return std::ranges::any_of(facts_.strip.places, [&](const plan::StripPlace& place) {
            return place.focal_length_mm != facts_.strip.places[0].focal_length_mm;
        });
    }
    [[nodiscard]] bool distance_follows() const {
        return std::ranges::any_of(facts_.strip.places, [&](const plan::StripPlace& place) {
            return place.lens_to_mark_m != facts_.strip.places[0].lens_to_mark_m;
        });
    }
    [[nodiscard]] std::string summary() const {
        const plan::StripPlace& place = facts_.strip.places[0];
        std::vector<std::string> same{
            say("People: {people}", {{"people", fmt::format("{}", facts_.scene.people.size())}})};
        if (!lens_follows())
            same.push_back(lens(place.focal_length_mm));
        if (!distance_follows())
            same.push_back(say("from {distance}", {{"distance", distance(place.lens_to_mark_m)}}));
        if (facts_.strip.f_numbers.size() == 1)
            same.push_back(f_number(facts_.strip.f_numbers[0]));
        return fmt::format("{}", fmt::join(same, " · "));
    }
    [[nodiscard]] std::string leafing() const {
        switch (facts_.leafing) {
        case Leafing::apertures:
            return say("Aperture");
        case Leafing::distances:
            return say("Distance");
        case Leafing::lenses:
            break;
        }
        return say("Lens");
    }
    [[nodiscard]] std::string setting(std::size_t i) const {
        switch (facts_.leafing) {
        case Leafing::apertures:
            return f_number(f_number_of(facts_, i));
        case Leafing::distances:
            return distance(place_of(facts_, i).lens_to_mark_m);
        case Leafing::lenses:
            break;
        }
        return lens(place_of(facts_, i).focal_length_mm);
    }
    /// With what follows from it.
    [[nodiscard]] std::string whole_setting(std::size_t i) const {
        const plan::StripPlace& place = place_of(facts_, i);
        const bool follows =
            facts_.leafing == Leafing::distances ? lens_follows() : distance_follows();
        if (facts_.leafing == Leafing::apertures || !follows)
            return setting(i);
        return say("{lens} from {distance}", {{"lens", lens(place.focal_length_mm)},
                                              {"distance", distance(place.lens_to_mark_m)}});
    }
    [[nodiscard]] PictureWords picture(std::size_t i) const {
        PictureWords words{.setting = setting(i), .label = whole_setting(i), .said = {}};
        if (is_as_set(facts_, i))
            words.label = say("{setting}, as planned", {{"setting", words.label}});
        for (const WayOfLooking& way : facts_.ways) {
            std::vector<std::string> sentences = who_is_sharp(way.faces[i]);
            if (i > 0)
                add_changes(sentences, way.faces[i - 1], way.faces[i], setting(i - 1));
            sentences.push_back(background(way, i));
            words.said.push_back(fmt::format("{}", fmt::join(sentences, " ")));
        }
        return words;
    }
    /// Of whom it is so.
    [[nodiscard]] std::string names(const Faces& faces,
                                    const std::function<bool(std::size_t)>& is_so) const {
        std::vector<std::string> names;
        for (std::size_t i = 0; i < faces.size(); ++i)
            if (is_so(i))
                names.push_back(kept_apart(faces[i].name));
        // “And one more” takes the room of that one.
        const bool all_told = names.size() <= most_names_told + 1;
        const std::size_t told = all_told ? names.size() : most_names_told;
        const std::string list =
            fmt::format("{}", fmt::join(names.begin(),
                                        names.begin() + static_cast<std::ptrdiff_t>(told), ", "));
        return all_told ? list
                        : say("{names} and {more} more",
                              {{"names", list}, {"more", fmt::format("{}", names.size() - told)}});
    }
    [[nodiscard]] std::vector<std::string> who_is_sharp(const Faces& faces) const {
        const auto of = [&](plan::Verdict verdict) {
            return names(faces, [&](std::size_t i) { return verdict_of(faces[i]) == verdict; });
        };
        const auto sharp = std::ranges::count_if(faces, is_sharp);
        std::vector<std::string> sentences;
        if (std::cmp_less(sharp, faces.size()))
            sentences.push_back(sharp == 0 ? say("Nobody is sharp.")
                                           : say("Sharp: {sharp} of {people}.",
                                                 {{"sharp", fmt::format("{}", sharp)},
                                                  {"people", fmt::format("{}", faces.size())}}));
        else
            sentences.push_back(of(plan::Verdict::fine).empty()
                                    ? say("Everybody is as sharp as an eye can tell.")
                                    : say("Everybody is sharp."));
        if (const std::string who = of(plan::Verdict::soft); !who.empty())
            sentences.push_back(say("A little soft: {names}.", {{"names", who}}));
        if (const std::string who = of(plan::Verdict::lost); !who.empty())
            sentences.push_back(say("Too blurred: {names}.", {{"names", who}}));
        if (const std::string who = of(plan::Verdict::hidden); !who.empty())
            sentences.push_back(say("Hidden behind others: {names}.", {{"names", who}}));
        if (const std::string who = of(plan::Verdict::cut_off); !who.empty())
            sentences.push_back(say("Not whole in the picture: {names}.", {{"names", who}}));
        return sentences;
    }
    void add_changes(std::vector<std::string>& sentences, const Faces& before, const Faces& now,
                     const std::string& setting_before) const {
        const std::string won =
            names(now, [&](std::size_t i) { return is_sharp(now[i]) && !is_sharp(before[i]); });
        const std::string lost =
            names(now, [&](std::size_t i) { return !is_sharp(now[i]) && is_sharp(before[i]); });
        if (!won.empty())
            sentences.push_back(say("Sharp now, not yet at {before}: {names}.",
                                    {{"before", setting_before}, {"names", won}}));
        if (!lost.empty())
            sentences.push_back(say("No longer sharp, unlike at {before}: {names}.",
                                    {{"before", setting_before}, {"names", lost}}));
    }
    [[nodiscard]] std::string background(const WayOfLooking& way, std::size_t i) const {
        const plan::StripFrame& frame = facts_.strip.frames[i];
        const double percent = frame.background_percent;
        const std::string of_height = language_.number(fmt::format("{:g} %", two_digits(percent)));
        const auto picture_m = height_m(way.viewing, frame.view);
        if (!picture_m)
            return say("A point of light in the background becomes a disc of {percent} of the "
                       "picture's height.",
                       {{"percent", of_height}});
        const std::string size = length_words(two_digits(percent / 100 * *picture_m),
                                              LengthScale::given_millimetres, units_);
        return say("A point of light in the background becomes a disc of {size}, {percent} of "
                   "the picture's height.",
                   {{"percent", of_height}, {"size", language_.number(size)}});
    }
    [[nodiscard]] std::string name_of(const WayOfLooking& way) const {
        if (!way.use)
            return std::holds_alternative<scene::PixelViewing>(way.viewing) ? say("Pixel by pixel")
                                                                            : say("As you want it");
        switch (*way.use) {
        case scene::Use::phone:
            return say("On a phone");
        case scene::Use::album:
            return say("In an album");
        case scene::Use::wall:
        case scene::Use::single_pixels:
            break;
        }
        return say("On the wall");
    }
    [[nodiscard]] std::string size_of(const WayOfLooking& way) const {
        const auto* print = std::get_if<optics::PrintViewing>(&way.viewing);
        if (print == nullptr)
            return say("as large as a screen shows it");
        const auto centimetres = [&](double cm) { return room_words(cm / 100, language_, units_); };
        return say("{long} long, seen from {far}", {{"long", centimetres(print->long_side_cm)},
                                                    {"far", centimetres(print->distance_cm)}});
    }

    const ClientFacts& facts_;
    const Language& language_;
    Units units_;
};

}  // namespace

ClientWords client_words(const ClientFacts& facts, const Language& language, Units units) {
    return ClientSpeaker{facts, language, units}.words();
}

}  // namespace backrow::papers
