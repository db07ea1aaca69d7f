#include "scene_file/editing/list_text.h"

#include "scene/set_words.h"
#include "scene_file/editing/places_for_values.h"
#include "scene_file/toml/toml_places.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string_view>
#include <vector>

namespace backrow::scene_file {
namespace {

constexpr std::string_view blanks = " \t";

/// Past spaces, line breaks and comments; the text's end where nothing else comes.
std::size_t next_sign(std::string_view text, std::size_t offset) {
    for (;;) {
        offset = std::min(text.find_first_not_of(" \t\r\n", offset), text.size());
        if (offset == text.size() || text[offset] != '#')
            return offset;
        offset = std::min(text.find('\n', offset), text.size());
    }
}

bool is_comma(std::string_view text, std::size_t offset) {
    return offset < text.size() && text[offset] == ',';
}

/// Whether nothing but a comment comes on this line from here on.
bool ends_its_line(std::string_view text, std::size_t offset) {
    const std::size_t next = text.find_first_not_of(blanks, offset);
    return next == text.npos || text[next] == '\n' || text[next] == '\r' || text[next] == '#';
}

void erase(std::string& text, std::size_t begin, std::size_t end) {
    text.erase(begin, end - begin);
}

/// Something between commas; before: where the one in front of it ends, if there is one.
void take_between_commas(std::string& text, const Stretch& what,
                         std::optional<std::size_t> before) {
    const std::size_t after = next_sign(text, what.end);
    const bool has_comma = is_comma(text, after);
    const std::size_t end = has_comma ? after + 1 : what.end;
    if (begins_its_line(text, what.begin) && ends_its_line(text, end))
        return erase(text, line_round(text, what.begin).begin, line_round(text, end - 1).end);
    if (has_comma) {
        const std::size_t next = text.find_first_not_of(blanks, end);
        return erase(text, what.begin, std::min(next, text.size()));
    }
    if (!before)
        return erase(text, what.begin, what.end);
    const std::size_t comma = next_sign(text, *before);
    const bool only_blank = text.find_first_not_of(" \t\r\n", comma + 1) >= what.begin;
    erase(text, only_blank ? comma : what.begin, what.end);
}

std::string quoted(const toml::array& list, std::size_t index) {
    return scene::toml_string(list.get(index)->as_string()->get());
}

void insert_before(std::string& text, std::size_t next, const std::vector<std::string>& names) {
    std::string between = " ";
    if (begins_its_line(text, next)) {
        const std::size_t line = line_round(text, next).begin;
        between = '\n' + text.substr(line, next - line);
    }
    std::string what;
    for (const std::string& name : names)
        what.append(name).append(",").append(between);
    text.insert(next, what);
}

void insert_after(std::string& text, const Stretch& last, const std::vector<std::string>& names) {
    const std::size_t sign = next_sign(text, last.end);
    const bool has_comma = is_comma(text, sign);
    if (has_comma && begins_its_line(text, last.begin) && ends_its_line(text, sign + 1)) {
        const std::size_t line = line_round(text, last.begin).begin;
        const std::string indent = text.substr(line, last.begin - line);
        std::string lines;
        for (const std::string& name : names)
            lines += indent + name + ",\n";
        text.insert(line_round(text, sign).end, lines);
        return;
    }
    std::string what;
    for (const std::string& name : names)
        what += (has_comma ? " " : ", ") + name + (has_comma ? "," : "");
    text.insert(has_comma ? sign + 1 : last.end, what);
}

}  // namespace

void take_from_list(std::string& text, const toml::array& list, std::size_t index) {
    std::optional<std::size_t> before;
    if (index > 0)
        before = stretch_of(text, *list.get(index - 1)).end;
    take_between_commas(text, stretch_of(text, *list.get(index)), before);
}

void change_list(std::string& text, const toml::array& before, const toml::array& now) {
    const auto same = [&](std::size_t in_before, std::size_t in_now) {
        return quoted(before, in_before) == quoted(now, in_now);
    };
    const std::size_t shorter = std::min(before.size(), now.size());
    std::size_t begin = 0;
    while (begin < shorter && same(begin, begin))
        ++begin;
    std::size_t end = 0;
    while (end < shorter - begin && same(before.size() - 1 - end, now.size() - 1 - end))
        ++end;
    const std::size_t in_both = shorter - begin - end;
    // From the back of the text forward, so that what is still to come keeps its place.
    for (std::size_t i = before.size() - end; i-- > begin + in_both;)
        take_from_list(text, before, i);
    std::vector<std::string> newcomers;
    for (std::size_t i = begin + in_both; i + end < now.size(); ++i)
        newcomers.push_back(quoted(now, i));
    if (!newcomers.empty()) {
        const std::size_t next = begin + in_both;
        if (next < before.size())
            insert_before(text, stretch_of(text, *before.get(next)).begin, newcomers);
        else
            insert_after(text, stretch_of(text, *before.get(next - 1)), newcomers);
    }
    for (std::size_t i = begin + in_both; i-- > begin;) {
        const Stretch name = stretch_of(text, *before.get(i));
        text.replace(name.begin, name.end - name.begin, quoted(now, i));
    }
}

void take_key(std::string& text, const toml::table& table, std::string_view key) {
    const auto what = key_and_value(text, table, key);
    std::optional<std::size_t> before;
    for (const auto& [other, value] : table)
        if (const auto place = key_and_value(text, table, other.str());
            place->begin < what->begin && (!before || place->end > *before))
            before = place->end;
    if (table.is_inline())
        return take_between_commas(text, *what, before);
    erase(text, line_round(text, what->begin).begin, line_round(text, what->end - 1).end);
}

}  // namespace backrow::scene_file
