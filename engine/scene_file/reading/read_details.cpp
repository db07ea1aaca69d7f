#include "scene_file/reading/read_details.h"

#include "scene/person_words.h"
#include "scene/words.h"
#include "scene_file/reading/colours.h"
#include "scene_file/scene_keys.h"
#include "scene_file/toml/near_miss.h"
#include "scene_file/toml/toml_file.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <array>
#include <optional>
#include <string>
#include <string_view>

namespace backrow::scene_file {
namespace {

figures::BodyMeasures read_measures(TableReader& table) {
    double stature_m = 0;
    double age_years = 0;
    figures::Sex sex = figures::Sex::neutral;
    table.read(keys::sex, sex);
    const bool has_stature = table.read(keys::stature_m, stature_m);
    const bool has_age = table.read(keys::age_years, age_years);
    figures::Physique build = figures::Physique::medium;
    table.read(keys::build, build);
    return with_physique(scene::measures_of(has_stature ? std::optional{stature_m} : std::nullopt,
                                            has_age ? std::optional{age_years} : std::nullopt, sex),
                         build);
}

template <class Value, std::size_t N>
void read_word(TableReader& table, const WordKey<Value, N>& rule, std::optional<Value>& into) {
    Value word{};
    if (table.read(rule, word))
        into = word;
}

void read_colour(TableReader& table, std::string_view key, std::optional<glm::dvec3>& into) {
    std::string name;
    if (!table.read(key, name))
        return;
    into = linear_from_named_colour(name);
    if (into)
        return;
    const std::string nearest = nearest_word(name, colour_words());
    table.complain(table.place_at(key),
                   fmt::format("`{}` is no colour this program knows", shortened(name)),
                   fmt::format("{}write \"#rrggbb\", or one of {}",
                               nearest.empty() ? "" : fmt::format("did you mean `{}`? ", nearest),
                               fmt::join(colour_words(), ", ")));
}

void read_family(TableReader& table, std::string& into) {
    std::string name;
    if (!table.read("family", name))
        return;
    if (auto fault = scene::fault_of_name(name))
        table.complain(table.place_at("family"), std::move(fault->what), std::move(fault->mend));
    else
        into = name;
}

figures::Styling read_styling(TableReader& table, figures::Posture posture) {
    figures::Styling styling;
    read_word(table, keys::skin, styling.skin);
    read_word(table, keys::hair_colour, styling.hair_colour);
    read_family(table, styling.family);
    read_word(table, keys::hair, styling.hair);
    table.read("beard", styling.beard);
    table.read("glasses", styling.glasses);
    table.read(keys::headwear, styling.headwear);
    read_word(table, keys::top, styling.top);
    read_word(table, keys::bottom, styling.bottom);
    read_colour(table, keys::top_colour, styling.top_colour);
    read_colour(table, keys::bottom_colour, styling.bottom_colour);
    read_colour(table, keys::headwear_colour, styling.headwear_colour);
    const bool dress = styling.top == figures::Top::dress;
    if (dress && styling.bottom == figures::Bottom::trousers)
        table.complain(table.place_at("bottom"), "a dress goes with no trousers",
                       "leave out bottom, or choose another top");
    if (figures::wears_trousers(posture) && (dress || styling.bottom == figures::Bottom::skirt))
        table.complain(
            table.place_at(dress ? "top" : "bottom"),
            "whoever kneels, crouches, sits on the ground or a step, or is carried wears "
            "trousers here",
            "choose trousers, or let the person stand or sit");
    return styling;
}

void read_gaze(TableReader& table, scene::Gaze& gaze) {
    const toml::node* node = table.find(keys::gaze.key);
    if (node == nullptr)
        return;
    if (const auto* word = node->as_string()) {
        if (word->get() == "camera")
            gaze = scene::GazeAtCamera{};
        else if (word->get() == "ahead")
            gaze = scene::GazeAhead{};
        else
            gaze = scene::GazeAtPerson{word->get(), place_of(*node)};
        return;
    }
    if (!node->is_array()) {
        table.complain(place_of(*node), fmt::format("`gaze` is {}", kind_of(*node)),
                       "write \"camera\", \"ahead\", a person's name, or [across, up, back]");
        return;
    }
    std::array<double, 3> point{};
    if (table.read(keys::gaze, point))
        gaze = scene::FromMark{point[0], point[1], point[2]};
}

void read_arms(TableReader& table, figures::Pose& pose) {
    read_word(table, keys::arms, pose.arms);
    const bool hands_are_free = pose.posture == figures::Posture::standing ||
                                pose.posture == figures::Posture::kneeling_both;
    const bool needs_them_free = pose.arms == figures::Arms::down ||
                                 pose.arms == figures::Arms::folded ||
                                 pose.arms == figures::Arms::behind;
    if (needs_them_free && !hands_are_free)
        table.complain(table.place_at("arms"),
                       fmt::format("with the posture {} the hands rest on the legs",
                                   scene::word_for(scene::words::posture, pose.posture)),
                       "leave out arms, or write \"crossed\", \"round_neighbours\" or "
                       "\"hand_on_shoulder\"");
}

/// A name, or a list of them.
void read_company(TableReader& table, Details& details) {
    table.read("pinned", details.company.pinned);
    table.read("celebrated", details.company.celebrated);
    const toml::node* with = table.find("with");
    if (with == nullptr)
        return;
    const auto take = [&](const toml::node& node) {
        if (const auto* name = node.as_string()) {
            details.company.with.push_back(name->get());
            details.with_at.push_back(place_of(node));
        } else {
            table.complain(place_of(node), fmt::format("a name is text, not {}", kind_of(node)),
                           "write it in quotation marks");
        }
    };
    if (const toml::array* names = with->as_array())
        for (const toml::node& name : *names)
            take(name);
    else
        take(*with);
}

/// Whoever is carried has neither feet nor a place of their own.
void read_carried(TableReader& table, Details& details) {
    figures::Posture how = figures::Posture::on_hip;
    const bool says_how = table.read(keys::carried, how);
    const toml::node* by = table.find("carried_by");
    if (by == nullptr) {
        if (says_how)
            table.complain(table.place_at("carried"), "`carried` needs `carried_by`",
                           "write who carries this child");
        return;
    }
    details.carried_by_at = place_of(*by);
    if (!table.read("carried_by", details.carried_by))
        return;
    for (const std::string_view own :
         {"posture", "arms", "across_m", "back_m", "up_m", "turn_deg", "speed_mps", "heading_deg"})
        if (table.find(own) != nullptr)
            table.complain(table.place_at(own),
                           fmt::format("`{}` is said of somebody who is carried", own),
                           "leave it out; it follows whoever carries");
    details.pose.posture = how;
}

}  // namespace

Details read_details(TableReader& table) {
    Details details;
    details.measures = read_measures(table);
    table.read(keys::posture, details.pose.posture);
    read_arms(table, details.pose);
    read_carried(table, details);
    read_company(table, details);
    table.read(keys::across_m, details.offset.across_m);
    table.read(keys::back_m, details.offset.back_m);
    table.read(keys::up_m, details.offset.up_m);
    table.read(keys::turn_deg, details.pose.turn_deg);
    table.read(keys::head_turn_deg, details.pose.head_turn_deg);
    table.read(keys::lean_m, details.pose.lean_m);
    table.read(keys::lean_sideways_m, details.pose.lean_sideways_m);
    read_word(table, keys::expression, details.pose.expression);
    read_gaze(table, details.gaze);
    table.read(keys::speed_mps, details.speed_mps);
    table.read(keys::heading_deg, details.heading_deg);
    details.styling = read_styling(table, details.pose.posture);
    table.refuse_unknown_keys();
    return details;
}

}  // namespace backrow::scene_file
