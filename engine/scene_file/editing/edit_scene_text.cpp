#include "scene_file/editing/edit_scene_text.h"

#include "scene/set_words.h"
#include "scene_file/editing/override.h"
#include "scene_file/editing/overrides.h"
#include "scene_file/editing/places_for_values.h"
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
            if (const auto given = key_and_value(text_, table, rival))
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
        replace(line, line_with(text_, line.begin, key_, override_.value_text));
    }

    /// Takes a key and its value away: with its line where it has one to itself, else with a comma.
    void remove(const Stretch& stretch) {
        if (begins_its_line(text_, stretch.begin))
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
        if (!text_.empty() && text_.back() != '\n')
            text_ += '\n';
        const std::vector<std::string>& parts = override_.parts;
        if (parts.front() == "person" && parts.size() > 2) {
            text_ += fmt::format("\n[[person]]\nname = {}\n", scene::toml_string(parts[1]));
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

}  // namespace

// What comes out is read again and compared with what --set would have made of the tree, so that a
// file written in some way that was not thought of is refused rather than spoilt.
Checked<std::string> with_values(std::string text, const std::string& file,
                                 const std::vector<std::string>& overrides) {
    if (overrides.size() > 1)
        if (auto at_once = with_values_at_once(text, file, overrides))
            return std::move(*at_once);
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

}  // namespace backrow::scene_file
