#include "scene_file/editing/values_at_once.h"

#include "scene/set_words.h"
#include "scene_file/editing/names_written.h"
#include "scene_file/editing/override.h"
#include "scene_file/editing/overrides.h"
#include "scene_file/editing/people_steps.h"
#include "scene_file/editing/places_for_values.h"
#include "scene_file/editing/thing_steps.h"
#include "scene_file/toml/findings.h"
#include "scene_file/toml/toml_file.h"
#include "scene_file/toml/toml_places.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <map>
#include <utility>

namespace backrow::scene_file {
namespace {

/// Lines that are being added to one table, each in line with the one before.
struct Lines {
    std::string indent;
    std::size_t width = 0;
    std::string text;

    void add(std::string_view key, std::string_view value) {
        width = std::max(width, key.size() + 1);
        text += fmt::format("{}{:<{}}= {}\n", indent, key, width, value);
    }
};

/// Everything that is to be written, before any of it is.
class Plan {
public:
    Plan(const std::string& text, toml::table& tree) : text_{text}, tree_{tree} {}

    /// False where this cannot be written together with others.
    bool take(const Override& override) {
        const std::string& last = override.parts.back();
        const auto at = meant(tree_, override);
        if (!at)
            return override.parts.size() == 3 && override.parts[0] == "person" &&
                   stands_in_a_row(tree_, override.parts[1]) && take_newcomer(override);
        const toml::table* table = at->node->as_table();
        const auto stands_there = [&](std::string_view rival) { return table->contains(rival); };
        if (table == nullptr || std::ranges::any_of(rivals_of(override), stands_there))
            return false;
        if (const toml::node* present = table->get(last))
            return replacements_.try_emplace(stretch_of(text_, *present).begin, present, &override)
                .second;
        return take_new_key(*table, override);
    }

    [[nodiscard]] std::string written() const {
        std::string text = text_;
        for (const Lines& lines : newcomers_)
            text += lines.text;
        // From the back of the text forward, so that what is still to come keeps its place.
        auto replaced = replacements_.rbegin();
        auto added = new_lines_.rbegin();
        while (replaced != replacements_.rend() || added != new_lines_.rend()) {
            if (added == new_lines_.rend() ||
                (replaced != replacements_.rend() && replaced->first > added->first)) {
                const auto& [node, override] = replaced->second;
                const Stretch stretch = stretch_of(text_, *node);
                text.replace(stretch.begin, stretch.end - stretch.begin, override->value_text);
                ++replaced;
            } else {
                text.insert(added->first, added->second.text);
                ++added;
            }
        }
        return text;
    }

private:
    bool take_newcomer(const Override& override) {
        const std::string& name = override.parts[1];
        const auto [at, is_new] = newcomer_of_.try_emplace(name, newcomers_.size());
        if (is_new)
            newcomers_.push_back(
                {.indent = {},
                 .text = fmt::format("\n[[person]]\nname = {}\n", scene::toml_string(name))});
        newcomers_[at->second].add(in_key_form(override.parts.back()), override.value_text);
        return true;
    }

    bool take_new_key(const toml::table& table, const Override& override) {
        const auto last = last_of(text_, table);
        if (table.is_inline() || !last || !begins_its_line(text_, last->begin))
            return false;
        const std::string key = in_key_form(override.parts.back());
        const Stretch first_line = line_round(text_, last->begin);
        const std::size_t after = line_round(text_, last->end - 1).end;
        const auto [at, is_new] = new_lines_.try_emplace(after);
        Lines& lines = at->second;
        if (is_new) {
            lines.indent = text_.substr(first_line.begin, last->begin - first_line.begin);
            lines.width = width_in_line(text_, last->begin, key);
        }
        lines.add(key, override.value_text);
        return true;
    }

    const std::string& text_;
    toml::table& tree_;
    std::map<std::size_t, std::pair<const toml::node*, const Override*>> replacements_;
    std::map<std::size_t, Lines> new_lines_;
    std::vector<Lines> newcomers_;
    std::map<std::string, std::size_t> newcomer_of_;
};

}  // namespace

std::optional<std::string> with_values_at_once(const std::string& text, const std::string& file,
                                               const std::vector<std::string>& overrides) {
    if (!text.ends_with('\n'))
        return std::nullopt;
    auto tree = parse_toml(text, file);
    auto expected = parse_toml(text, file);  // A copy would not know its places.
    if (!tree || !expected)
        return std::nullopt;
    std::vector<Override> taken;
    for (const std::string& words : overrides) {
        auto override = take_apart(words);
        if (!override || changes_people(*override) || takes_thing(*override))
            return std::nullopt;
        taken.push_back(std::move(*override));
    }
    Plan plan{text, *tree};
    if (!std::ranges::all_of(taken, [&](const Override& override) { return plan.take(override); }))
        return std::nullopt;
    Findings findings{file};
    apply_overrides(*expected, overrides, findings);
    if (!findings.empty())
        return std::nullopt;
    std::string written = plan.written();
    const auto read_back = parse_toml(written, file);
    return read_back && *read_back == *expected ? std::optional{std::move(written)} : std::nullopt;
}

}  // namespace backrow::scene_file
