#include "scene/edit_scene_text.h"

#include "scene/findings.h"
#include "scene/override.h"
#include "scene/overrides.h"
#include "scene/toml_file.h"
#include "scene/toml_places.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <optional>
#include <string_view>

namespace backrow::scene {
namespace {

/// The table that an override means, as far as the text has it.
struct Meant {
    toml::node* node = nullptr;     ///< A table, or a list for a number as last part.
    std::vector<std::string> path;  ///< Of the table.
    bool is_person = false;
};

std::optional<Meant> person_meant(toml::table& tree, const Override& override) {
    const std::string& who = override.parts[1];
    toml::array* people = tree.get_as<toml::array>("person");
    if (people == nullptr)
        return std::nullopt;
    for (toml::node& person : *people)
        if (toml::table* table = person.as_table(); table != nullptr)
            if (const auto* name = table->get_as<std::string>("name");
                name != nullptr && name->get() == who)
                return Meant{.node = table, .path = {"person"}, .is_person = true};
    return std::nullopt;
}

/// Nothing where a table on the way is not there.
std::optional<Meant> meant(toml::table& tree, const Override& override) {
    Meant at{.node = &tree, .path = {}};
    std::size_t depth = 0;
    if (override.parts.size() > 2 && override.parts[0] == "person") {
        if (auto person = person_meant(tree, override)) {
            at = *person;
            depth = 2;
        } else if (!index_from(override.parts[1]) || stands_in_a_row(tree, override.parts[1])) {
            return std::nullopt;
        }
    }
    for (; depth + 1 < override.parts.size(); ++depth) {
        const std::string& part = override.parts[depth];
        toml::node* next = nullptr;
        if (toml::table* table = at.node->as_table())
            next = table->get(part);
        else if (toml::array* array = at.node->as_array())
            next = array->get(index_from(part).value_or(array->size()));
        if (next == nullptr)
            return std::nullopt;
        at.node = next;
        if (!index_from(part))
            at.path.push_back(part);
    }
    return at;
}

std::string in_key_form(const std::string& part) {
    const bool is_bare = std::ranges::all_of(part, [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
               c == '_' || c == '-';
    });
    return is_bare ? part : toml_string(part);
}

/// One override written into the text. The tree is that of the text.
class Pen {
public:
    Pen(std::string& text, const Override& override)
        : text_{text}, override_{override}, key_{in_key_form(override.parts.back())} {}

    void write(toml::table& tree) {
        const auto at = meant(tree, override_);
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
        // From the back of the text forward, so that what is still to come keeps its place.
        std::vector<Stretch> rivals;
        for (const std::string_view rival : rivals_of(override_))
            if (const auto given = key_and_value(table, rival))
                rivals.push_back(*given);
        std::ranges::sort(rivals, std::ranges::greater{}, &Stretch::begin);
        if (const toml::node* present = table.get(override_.parts.back())) {
            Stretch value = stretch_of(text_, *present);
            for (const Stretch& rival : rivals)
                if (rival.begin > value.begin)
                    remove(rival);
            replace(value, override_.value_text);
            for (const Stretch& rival : rivals)
                if (rival.begin < value.begin)
                    remove(rival);
            return;
        }
        if (rivals.empty())
            return add_key(table, at);
        for (std::size_t i = 0; i + 1 < rivals.size(); ++i)
            remove(rivals[i]);
        const Stretch& line = rivals.back();
        replace(line, in_line_with(line.begin));
    }

    [[nodiscard]] std::optional<Stretch> key_and_value(const toml::table& table,
                                                       std::string_view key) const {
        const auto found = table.find(key);
        if (found == table.end())
            return std::nullopt;
        return Stretch{offset_of(text_, found->first.source().begin),
                       stretch_of(text_, found->second).end};
    }

    /// Whether nothing stands before this on its line.
    [[nodiscard]] bool begins_its_line(std::size_t offset) const {
        const std::size_t line = line_round(text_, offset).begin;
        return text_.find_first_not_of(" \t", line) >= offset;
    }

    /// Key and value, with the equals sign where the key that begins a line here has it.
    [[nodiscard]] std::string in_line_with(std::size_t key_begin) const {
        std::size_t width = key_.size() + 1;
        if (begins_its_line(key_begin))
            width = std::max(width, text_.find('=', key_begin) - key_begin);
        return fmt::format("{:<{}}= {}", key_, width, override_.value_text);
    }

    /// Takes a key and its value away: with its line where it has one to itself, else with a comma.
    void remove(const Stretch& stretch) {
        if (begins_its_line(stretch.begin))
            return replace(
                {line_round(text_, stretch.begin).begin, line_round(text_, stretch.end - 1).end},
                "");
        const std::size_t next = text_.find_first_not_of(" \t", stretch.end);
        if (next != text_.npos && text_[next] == ',') {
            const std::size_t after = text_.find_first_not_of(" \t", next + 1);
            return replace({stretch.begin, std::min(after, text_.size())}, "");
        }
        const std::size_t comma = text_.rfind(',', stretch.begin);
        replace({comma == text_.npos ? stretch.begin : comma, stretch.end}, "");
    }

    void insert_line_after(std::size_t offset, const std::string& line) {
        const Stretch round = line_round(text_, offset);
        const bool ends = round.end > 0 && text_[round.end - 1] == '\n';
        text_.insert(round.end, (ends ? "" : "\n") + line + '\n');
    }

    void add_key(const toml::table& table, const Meant& at) {
        const std::size_t begin = offset_of(text_, table.source().begin);
        std::optional<Stretch> last;  // Of the table's own keys, the last.
        for (const auto& [key, value] : table)
            if (!(value.is_table() && !value.as_table()->is_inline()) &&
                !value.is_array_of_tables()) {
                const auto given = key_and_value(table, key.str());
                if (!last || given->begin > last->begin)
                    last = given;
            }
        if (table.is_inline() && last)
            return insert(last->end, fmt::format(", {} = {}", key_, override_.value_text));
        if (at.path.empty() && !last)
            return insert(0, fmt::format("{} = {}\n", key_, override_.value_text));
        if (last) {
            const Stretch line = line_round(text_, last->begin);
            const std::string indent = text_.substr(line.begin, last->begin - line.begin);
            return insert_line_after(last->end - 1, indent + in_line_with(last->begin));
        }
        if (text_.compare(begin, 2, "[[") == 0 && !at.is_person && at.path.size() < 2)
            return add_table();
        insert_line_after(begin, fmt::format("{} = {}", key_, override_.value_text));
    }

    void insert(std::size_t offset, const std::string& what) { text_.insert(offset, what); }

    /// A table of its own at the end: for somebody of a row, or a part of the scene not yet there.
    void add_table() {
        if (!text_.empty() && text_.back() != '\n')
            text_ += '\n';
        const std::vector<std::string>& parts = override_.parts;
        if (parts.front() == "person" && parts.size() > 2) {
            text_ += fmt::format("\n[[person]]\nname = {}\n", toml_string(parts[1]));
        } else {
            std::vector<std::string> names;
            for (std::size_t i = 0; i + 1 < parts.size(); ++i)
                names.push_back(in_key_form(parts[i]));
            text_ += fmt::format("\n[{}]\n", fmt::join(names, "."));
        }
        text_ += fmt::format("{} = {}\n", key_, override_.value_text);
    }

    std::string& text_;
    const Override& override_;
    std::string key_;
};

struct Replacement {
    Stretch stretch;
    std::string with;
};

/// What takes the place of what where every override only changes a value that the text has;
/// nothing where one does more.
std::optional<std::vector<Replacement>> replacements(const std::string& text, toml::table& tree,
                                                     const std::vector<std::string>& overrides) {
    std::vector<Replacement> all;
    for (const std::string& words : overrides) {
        const auto override = take_apart(words);
        if (!override || !rivals_of(*override).empty())
            return std::nullopt;
        const auto at = meant(tree, *override);
        const toml::table* table = at ? at->node->as_table() : nullptr;
        const toml::node* present = table ? table->get(override->parts.back()) : nullptr;
        if (present == nullptr)
            return std::nullopt;
        all.push_back({stretch_of(text, *present), override->value_text});
    }
    // From the back of the text forward, so that what is still to come keeps its place.
    std::ranges::sort(all, std::ranges::greater{},
                      [](const Replacement& one) { return one.stretch.begin; });
    for (std::size_t i = 1; i < all.size(); ++i)
        if (all[i].stretch.end > all[i - 1].stretch.begin)
            return std::nullopt;
    return all;
}

/// The text with only values replaced, all in one go: a whole row that is dragged changes many
/// values many times a second. Nothing where it takes more than that, or comes out otherwise than
/// --set has it.
std::optional<std::string> with_values_replaced(const std::string& text, const std::string& file,
                                                const std::vector<std::string>& overrides) {
    auto tree = parse_toml(text, file);
    auto expected = parse_toml(text, file);
    if (!tree || !expected)
        return std::nullopt;
    const auto all = replacements(text, *tree, overrides);
    Findings findings{file};
    apply_overrides(*expected, overrides, findings);
    if (!all || !findings.empty())
        return std::nullopt;
    std::string changed = text;
    for (const Replacement& one : *all)
        changed.replace(one.stretch.begin, one.stretch.end - one.stretch.begin, one.with);
    const auto written = parse_toml(changed, file);
    return written && *written == *expected ? std::optional{std::move(changed)} : std::nullopt;
}

}  // namespace

// What comes out is read again and compared with what --set would have made of the tree, so that a
// file written in some way that was not thought of is refused rather than spoilt.
Checked<std::string> with_values(std::string text, const std::string& file,
                                 const std::vector<std::string>& overrides) {
    if (overrides.size() > 1)
        if (auto replaced = with_values_replaced(text, file, overrides))
            return std::move(*replaced);
    for (const std::string& words : overrides) {
        auto tree = parse_toml(text, file);
        auto expected = parse_toml(text, file);  // A copy would not know its places.
        if (!tree || !expected)
            return tl::unexpected(std::vector{tree.error()});
        Findings findings{file};
        apply_overrides(*expected, {words}, findings);
        const auto override = take_apart(words);
        if (!findings.empty() || !override)
            return tl::unexpected(std::move(findings).in_order());
        Pen{text, *override}.write(*tree);
        const auto written = parse_toml(text, file);
        if (!written || *written != *expected)
            return tl::unexpected(std::vector{
                override->problem("this file is written in a way that the value cannot be put into",
                                  "write it in the file by hand")});
    }
    return text;
}

}  // namespace backrow::scene
