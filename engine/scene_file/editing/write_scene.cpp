#include "scene_file/editing/write_scene.h"

#include "scene/set_words.h"
#include "scene/words.h"
#include "scene_file/scene_keys.h"
#include "scene_file/toml/toml_file.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cctype>
#include <string_view>
#include <vector>

namespace backrow::scene_file {
namespace {

constexpr std::size_t line_length = 98;

/// A comment, broken between words; each further line begins with indent.
std::string comment(std::string_view text, const std::string& indent = "") {
    std::string lines;
    std::string line = "#";
    std::size_t at = 0;
    while (at < text.size()) {
        const std::size_t end = std::min(text.find(' ', at), text.size());
        const std::string_view word = text.substr(at, end - at);
        if (line.size() + 1 + word.size() > line_length) {
            lines += line + '\n';
            line = "#" + indent;
        }
        line += fmt::format(" {}", word);
        at = end + 1;
    }
    return lines + line + '\n';
}

std::string key(std::string_view name, const std::string& value) {
    constexpr int widest_key = 16;
    return fmt::format("{:<{}} = {}\n", name, widest_key, value);
}

std::string quoted(std::string_view word) {
    return fmt::format("\"{}\"", word);
}

std::string head(const arranging::Arrangement& arrangement) {
    std::string text = comment(arrangement.plan.title + ". Change whatever you know better.");
    text += "#\n";
    for (const arranging::Choice& choice : arrangement.choices)
        text += comment(fmt::format("{}: {} ({})", choice.what, choice.value, choice.why), "  ");
    if (!arrangement.cautions.empty())
        text += "#\n";
    for (const std::string& caution : arrangement.cautions)
        text += comment("Mind: " + caution, "  ");
    return text;
}

std::string camera(const scene::Camera& camera) {
    return "[camera]\n" +
           key("orientation",
               quoted(scene::word_for(scene::words::orientation, camera.orientation))) +
           key("focal_length_mm", scene::toml_number(camera.focal_length_mm)) +
           key("f_number", scene::toml_number(camera.f_number)) +
           key("distance_m", scene::toml_number(camera.lens_to_mark_m)) +
           key("height_m", scene::toml_number(camera.height_m)) +
           key("across_m", scene::toml_number(camera.across_m));
}

std::string people_list(const std::vector<scene::Guest>& people) {
    std::string list = "[";
    std::size_t column = 0;
    for (std::size_t i = 0; i < people.size(); ++i) {
        const std::string name =
            scene::toml_string(people[i].name) + (i + 1 < people.size() ? "," : "");
        if (column > 0 && column + name.size() > 70) {
            list += "\n    ";
            column = 0;
        } else if (i > 0) {
            list += ' ';
        }
        list += name;
        column += name.size() + 1;
    }
    return list + "]";
}

std::string row(const scene::PlannedRow& row, std::size_t index, double spacing_m) {
    std::string text =
        fmt::format("\n[[row]]  # {}, {}\n",
                    index == 0 ? std::string{"the front row"} : fmt::format("row {}", index + 1),
                    scene::word_for(scene::words::posture, row.posture));
    text += key("back_m", scene::toml_number(row.back_m)) +
            key("up_m", scene::toml_number(row.up_m)) +
            key("spacing_m", scene::toml_number(spacing_m));
    if (row.stagger)
        text += key("stagger", "true");
    return text + key("people", people_list(row.people));
}

std::string who(const scene::Guest& guest) {
    std::string text = "\n[[person]]\n" + key("name", scene::toml_string(guest.name));
    if (guest.stature_m)
        text += key("stature_m", scene::toml_number(*guest.stature_m));
    if (guest.age_years)
        text += key("age_years", scene::toml_number(*guest.age_years));
    if (guest.sex != figures::Sex::neutral)
        text += key("sex", quoted(scene::word_for(scene::words::sex, guest.sex)));
    if (!guest.family.empty())
        text += key("family", scene::toml_string(guest.family));
    if (!guest.company.with.empty()) {
        std::vector<std::string> names;
        for (const std::string& name : guest.company.with)
            names.push_back(scene::toml_string(name));
        text += key("with", names.size() == 1 ? names.front()
                                              : fmt::format("[{}]", fmt::join(names, ", ")));
    }
    if (guest.company.celebrated)
        text += key("celebrated", "true");
    if (guest.company.pinned)
        text += key("pinned", "true");
    return text;
}

std::string person(const scene::Guest& guest, const scene::PlannedRow& row) {
    std::string text = who(guest);
    if (const figures::Posture posture = posture_of(guest, row);
        posture != figures::Posture::standing)
        text += key("posture", quoted(scene::word_for(scene::words::posture, posture)));
    if (row.lean_m != 0)
        text += key("lean_m", scene::toml_number(row.lean_m));
    return text;
}

}  // namespace

std::string scene_toml(const arranging::Arrangement& arrangement) {
    const scene::GroupPlan& plan = arrangement.plan;
    std::string text = head(arrangement);
    text += key("title", scene::toml_string(plan.title)) + '\n' + camera(plan.camera);
    text += "\n[focus]\n" + key("balanced", "true");
    text += "\n[viewing]\n" + key("use", quoted(scene::word_for(scene::words::use, plan.use)));
    for (std::size_t r = 0; r < plan.rows.size(); ++r)
        text += row(plan.rows[r], r, plan.spacing_m);
    for (const scene::PlannedRow& row : plan.rows)
        for (const scene::Guest& guest : row.people)
            text += person(guest, row);
    for (const scene::Guest& child : plan.carried)
        text += who(child) + key("carried_by", scene::toml_string(child.carried_by));
    text +=
        "\n[setting]\n" + key("ground", quoted(scene::word_for(scene::words::ground, plan.ground)));
    text += "\n[[setting.backdrop]]\n" +
            key("kind", quoted(scene::word_for(scene::words::backdrop_kind, plan.backdrop.kind))) +
            key("back_m", scene::toml_number(plan.backdrop.back_m));
    return text;
}

}  // namespace backrow::scene_file
