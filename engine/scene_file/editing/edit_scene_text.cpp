#include "scene_file/editing/edit_scene_text.h"

#include "scene/set_words.h"
#include "scene_file/editing/list_text.h"
#include "scene_file/editing/override.h"
#include "scene_file/editing/overrides.h"
#include "scene_file/editing/people_steps.h"
#include "scene_file/editing/people_text.h"
#include "scene_file/editing/places_for_values.h"
#include "scene_file/editing/thing_steps.h"
#include "scene_file/editing/values_at_once.h"
#include "scene_file/toml/findings.h"
#include "scene_file/toml/toml_file.h"
#include "scene_file/toml/toml_places.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <optional>
#include <string_view>
#include <utility>

namespace backrow::scene_file {
namespace {

/// One override that changes no people written into the text, whose tree it has.
class Pen {
public:
    Pen(std::string& text, toml::table& tree, const Override& override)
        : text_{text}, tree_{tree}, override_{override}, key_{in_key_form(override.parts.back())} {}

    void write() {
        const auto at = meant(tree_, override_);
        if (!at)
            return add_table();
        if (toml::array* list = at->node->as_array()) {
            if (const toml::node* element =
                    list->get(index_from(override_.parts.back()).value_or(list->size())))
                replace(stretch_of(text_, *element), override_.value_text);
            return;
        }
        if (toml::table* table = at->node->as_table())
            write_into(*table, *at);
    }

private:
    void replace(const Stretch& stretch, std::string_view with) {
        text_.replace(stretch.begin, stretch.end - stretch.begin, with);
    }

    void write_into(toml::table& table, const Meant& at) {
        std::vector<std::string_view> rivals;
        for (const std::string_view rival : rivals_of(override_))
            if (table.contains(rival))
                rivals.push_back(rival);
        // From the back of the text forward, so that what is still to come keeps its place.
        std::ranges::sort(rivals, std::ranges::greater{}, [&](std::string_view key) {
            return key_and_value(text_, table, key)->begin;
        });
        if (const toml::node* present = table.get(override_.parts.back())) {
            const Stretch value = stretch_of(text_, *present);
            const auto first_before = std::ranges::find_if(rivals, [&](std::string_view rival) {
                return key_and_value(text_, table, rival)->begin < value.begin;
            });
            for (auto rival = rivals.begin(); rival != first_before; ++rival)
                take_key(text_, table, *rival);
            replace(value, override_.value_text);
            for (auto rival = first_before; rival != rivals.end(); ++rival)
                take_key(text_, table, *rival);
            return;
        }
        if (rivals.empty())
            return add_key(table, at);
        for (std::size_t i = 0; i + 1 < rivals.size(); ++i)
            take_key(text_, table, rivals[i]);
        const Stretch line = *key_and_value(text_, table, rivals.back());
        replace(line, line_with(text_, line.begin, key_, override_.value_text));
    }

    void insert_line_after(std::size_t offset, const std::string& line) {
        const Stretch round = line_round(text_, offset);
        const bool ends = round.end > 0 && text_[round.end - 1] == '\n';
        text_.insert(round.end, (ends ? "" : "\n") + line + '\n');
    }

    void add_key(const toml::table& table, const Meant& at) {
        const std::size_t begin = offset_of(text_, table.source().begin);
        const std::optional<Stretch> last = last_of(text_, table);
        if (table.is_inline() && last)
            return insert(last->end, fmt::format(", {} = {}", key_, override_.value_text));
        if (at.path.empty() && !last)
            return insert(0, fmt::format("{} = {}\n", key_, override_.value_text));
        if (last) {
            const Stretch line = line_round(text_, last->begin);
            const std::string indent = text_.substr(line.begin, last->begin - line.begin);
            return insert_line_after(
                last->end - 1, indent + line_with(text_, last->begin, key_, override_.value_text));
        }
        if (text_.compare(begin, 2, "[[") == 0 && !at.is_person && at.path.size() < 2)
            return add_table();
        insert_line_after(begin, fmt::format("{} = {}", key_, override_.value_text));
    }

    void insert(std::size_t offset, const std::string& what) { text_.insert(offset, what); }

    /// A table of its own at the end: for somebody of a row, or a part of the scene not yet there.
    void add_table() {
        const std::vector<std::string>& parts = override_.parts;
        if (parts.front() == "person" && parts.size() > 2)
            return add_person(
                text_, tree_,
                {{"name", scene::toml_string(parts[1])}, {key_, override_.value_text}});
        if (!text_.empty() && text_.back() != '\n')
            text_ += '\n';
        std::vector<std::string> names;
        for (std::size_t i = 0; i + 1 < parts.size(); ++i)
            names.push_back(in_key_form(parts[i]));
        text_ +=
            fmt::format("\n[{}]\n{} = {}\n", fmt::join(names, "."), key_, override_.value_text);
    }

    std::string& text_;
    toml::table& tree_;
    const Override& override_;
    std::string key_;
};

/// One value written into the text, which is then what --set makes of it.
Checked<std::string> with_value(const std::string& text, const std::string& file,
                                const std::string& words) {
    auto tree = parse_toml(text, file);
    auto expected = parse_toml(text, file);  // A copy would not know its places.
    if (!tree || !expected)
        return tl::unexpected(std::vector{tree.error()});
    Findings findings{file};
    apply_override(*expected, words, findings);
    const auto override = take_apart(words);
    if (!findings.empty() || !override)
        return tl::unexpected(std::move(findings).in_order());
    std::string changed = text;
    if (const auto list = adds_thing(*tree, *override))
        add_to_list(changed, list->tables, list->name, override->parts.back(),
                    override->value_text);
    else if (takes_thing(*override))
        do_in_text(changed, *steps_taking_thing(*tree, *override));
    else if (!changes_people(*override))
        Pen{changed, *tree, *override}.write();
    else if (adds_person(*tree, *override))
        add_person(changed, *tree, {{"name", override->value_text}});
    else if (adds_row(*tree, *override))
        add_to_list(changed, tree->get_as<toml::array>("row"), "row", "people",
                    override->value_text);
    else
        do_in_text(changed, *steps_of(*tree, *override));
    const auto written = parse_toml(changed, file);
    if (!written || *written != *expected)
        return tl::unexpected(std::vector{
            override->problem("this file is written in a way that the value cannot be put into",
                              "write it in the file by hand")});
    return changed;
}

Checked<std::string> without_emptied_rows(std::string text, const std::string& file,
                                          const std::vector<std::size_t>& empty_before) {
    auto tree = parse_toml(text, file);
    auto expected = parse_toml(text, file);
    if (!tree || !expected)
        return tl::unexpected(std::vector{tree.error()});
    const std::vector<Step> steps = steps_without_emptied_rows(*tree, empty_before);
    if (steps.empty())
        return text;
    do_in_tree(steps_without_emptied_rows(*expected, empty_before), file);
    do_in_text(text, steps);
    const auto written = parse_toml(text, file);
    if (!written || *written != *expected)
        return tl::unexpected(
            std::vector{Problem{{file, 1, 1},
                                "this file is written in a way that a row cannot be taken out of",
                                "take the empty row out by hand"}});
    return text;
}

}  // namespace

// What comes out is read again and compared with what --set would have made of the tree, so that a
// file written in some way that was not thought of is refused rather than spoilt.
Checked<std::string> with_values(std::string text, const std::string& file,
                                 const std::vector<std::string>& overrides) {
    if (overrides.size() > 1)
        if (auto at_once = with_values_at_once(text, file, overrides))
            return std::move(*at_once);
    const auto before = parse_toml(text, file);
    if (!before)
        return tl::unexpected(std::vector{before.error()});
    const std::vector<std::size_t> empty = empty_rows(*before);
    for (const std::string& words : overrides) {
        auto changed = with_value(text, file, words);
        if (!changed)
            return changed;
        text = std::move(*changed);
    }
    return without_emptied_rows(std::move(text), file, empty);
}

}  // namespace backrow::scene_file
