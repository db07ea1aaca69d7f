#include "report/text/trouble_words.h"

#include "report/text/listed.h"

#include "plan/faces/troubles.h"
#include "plan/faces/verdict.h"

#include "base/utf8.h"

#include <cstddef>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <map>

namespace backrow::report {
namespace {

std::string names_of(std::span<const plan::Face> faces, const std::vector<std::size_t>& who) {
    std::vector<std::string> names;
    for (const std::size_t i : who)
        names.push_back(on_one_line(faces[i].name));
    return listed(std::move(names));
}

std::string bodies_cut_sentence(std::span<const plan::Face> faces,
                                const std::vector<std::size_t>& who) {
    std::map<plan::Cut, std::size_t> at;
    for (const std::size_t i : who)
        ++at[*faces[i].cropping.cut_at];
    std::vector<std::string> places;
    for (const auto& [cut, count] : at)
        places.push_back(count == faces.size() && count > 1
                             ? fmt::format("everybody at the {}", to_word(cut))
                             : fmt::format("{} at the {}", count, to_word(cut)));
    return fmt::format("The frame cuts {}.", listed(std::move(places)));
}

std::string number_of(std::size_t count, const char* one, const char* many) {
    return fmt::format("{} {}", count, count == 1 ? one : many);
}

}  // namespace

std::string hidden_words(const plan::Face& face) {
    if (verdict_of(face) != plan::Verdict::hidden)
        return {};
    std::vector<std::string> by = hidden_by(face);
    for (std::string& name : by)
        name = on_one_line(name);
    return by.empty() ? std::string{"turned away"} : "hidden by " + listed(std::move(by));
}

std::string cut_words(const plan::Face& face) {
    const auto& at = face.cropping.cut_at;
    return at ? fmt::format("cut at the {}", to_word(*at)) : std::string{};
}

std::string face_trouble_words(const plan::Face& face) {
    const std::string hidden = hidden_words(face);
    return hidden.empty() && !face.cropping.has_whole_head ? cut_words(face) : hidden;
}

std::vector<std::string> trouble_sentences(std::span<const plan::Face> faces) {
    const plan::Troubles troubles = plan::troubles_of(faces);
    std::vector<std::string> sentences;
    for (const std::size_t i : troubles.hidden)
        sentences.push_back(fmt::format("{} is {}: {:.0f} % of the face is seen.",
                                        on_one_line(faces[i].name), hidden_words(faces[i]),
                                        100 * faces[i].visible_fraction));
    if (!troubles.cut.heads.empty())
        sentences.push_back(
            fmt::format("Head not whole in the picture: {}.", names_of(faces, troubles.cut.heads)));
    if (!troubles.cut.heads_close.empty())
        sentences.push_back(fmt::format("Head close to the edge of the picture: {}.",
                                        names_of(faces, troubles.cut.heads_close)));
    if (!troubles.cut.bodies.empty())
        sentences.push_back(bodies_cut_sentence(faces, troubles.cut.bodies));
    return sentences;
}

std::string whole_group_sentence(const std::optional<plan::WholeGroup>& whole, Units units) {
    if (!whole || (!whole->lens_to_mark_m && !whole->focal_length_mm))
        return "";
    std::vector<std::string> ways;
    if (whole->lens_to_mark_m)
        ways.push_back(
            fmt::format("from {} (look behind you before you step back)",
                        length_words(*whole->lens_to_mark_m, LengthScale::metres, units)));
    if (whole->focal_length_mm)
        ways.push_back(fmt::format("with {:.0f} mm from here", *whole->focal_length_mm));
    return fmt::format("Everybody would be whole in the picture {}.", fmt::join(ways, ", or "));
}

Json names_json(std::span<const scene::Person> people, const std::vector<std::size_t>& who) {
    Json names = Json::array();
    for (const std::size_t i : who)
        names.push_back(people[i].name);
    return names;
}

Json whole_group_json(const std::optional<plan::WholeGroup>& whole) {
    return whole ? Json{{"distance_m", number_or_null(whole->lens_to_mark_m)},
                        {"focal_length_mm", number_or_null(whole->focal_length_mm)}}
                 : Json(nullptr);
}

std::string short_trouble_words(std::span<const plan::Face> faces) {
    const plan::Troubles troubles = plan::troubles_of(faces);
    std::vector<std::string> words;
    if (!troubles.hidden.empty())
        words.push_back(fmt::format("{} hidden", troubles.hidden.size()));
    if (!troubles.cut.heads.empty())
        words.push_back(number_of(troubles.cut.heads.size(), "head cut", "heads cut"));
    if (!troubles.cut.bodies.empty())
        words.push_back(number_of(troubles.cut.bodies.size(), "body cut", "bodies cut"));
    return fmt::format("{}", fmt::join(words, ", "));
}

}  // namespace backrow::report
