#include "scene_file/editing/override.h"

#include "scene/set_words.h"
#include "scene_file/toml/near_miss.h"
#include "scene_file/toml/toml_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>

namespace backrow::scene_file {
namespace {

/// Goes through a key letter by letter, without the double quotes that open and close: in them \"
/// and \\ stand for " and \.
///
/// each  takes a letter, whether it is quoted and where it stands; returns whether to go on
template <class Each>
void read_key(std::string_view text, Each each) {
    bool quoted = false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (c == '"') {
            quoted = !quoted;
            continue;
        }
        const bool escapes = quoted && c == '\\' && i + 1 < text.size() &&
                             (text[i + 1] == '"' || text[i + 1] == '\\');
        if (escapes)
            ++i;
        if (!each(text[i], quoted, i))
            return;
    }
}

std::vector<std::string> split_at_dots(std::string_view key) {
    std::vector<std::string> parts(1);
    read_key(key, [&](char c, bool quoted, std::size_t) {
        if (c == '.' && !quoted)
            parts.emplace_back();
        else
            parts.back() += c;
        return true;
    });
    return parts;
}

// Where the key ends: the first = outside of quotation marks.
std::size_t end_of_key(std::string_view text) {
    std::size_t end = text.npos;
    read_key(text, [&](char c, bool quoted, std::size_t at) {
        if (c != '=' || quoted)
            return true;
        end = at;
        return false;
    });
    return end;
}

std::string_view trimmed(std::string_view text) {
    const auto first = text.find_first_not_of(" \t");
    if (first == text.npos)
        return {};
    return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

/// Keys that go together, which exclude those of the other groups.
using Group = std::vector<std::string_view>;
using Rivals = std::vector<Group>;

const std::vector<Rivals>& rivalries(std::string_view table) {
    static const std::vector<Rivals> none;
    static const std::vector<Rivals> focus{{{"on"}, {"balanced"}, {"distance_m"}, {"point"}}};
    static const std::vector<Rivals> viewing{
        {{"use"}, {"print_long_side_cm", "viewing_distance_cm"}}};
    static const std::vector<Rivals> person{{{"carried_by", "carried"},
                                             {"posture", "arms", "across_m", "back_m", "up_m",
                                              "turn_deg", "speed_mps", "heading_deg"}}};
    return table == "focus"     ? focus
           : table == "viewing" ? viewing
           : table == "person"  ? person
                                : none;
}

}  // namespace

bool is_key_and_value(std::string_view text) {
    const std::size_t equals = end_of_key(text);
    return equals != text.npos && !trimmed(text.substr(0, equals)).empty() &&
           !trimmed(text.substr(equals + 1)).empty();
}

std::string_view key_of(std::string_view text) {
    return trimmed(text.substr(0, end_of_key(text)));
}

tl::expected<Override, Problem> take_apart(const std::string& text) {
    Override taken{.file = fmt::format("{}{}", override_prefix, text),
                   .parts = {},
                   .value_text = {},
                   .value = {}};
    if (!is_key_and_value(text))
        return tl::unexpected(taken.problem("an override needs a key and a value",
                                            "write key=value, as in camera.f_number=2.8"));
    if (text.find_first_of("\n\r") != text.npos)
        return tl::unexpected(
            taken.problem("an override is one line", "give each value its own --set"));

    const std::string_view whole{text};
    const std::string_view key = key_of(whole);
    const std::string_view value = trimmed(whole.substr(end_of_key(whole) + 1));
    taken.parts = split_at_dots(key);
    if (taken.parts.size() > 8 || std::ranges::count(taken.parts, std::string{}) > 0)
        return tl::unexpected(
            taken.problem(fmt::format("`{}` is no key of a scene", shortened(key)),
                          "write the table and the key, as in camera.f_number"));

    taken.value_text = value;
    auto parsed = parse_toml(fmt::format("value = {}", taken.value_text), taken.file);
    if (!parsed) {  // A bare word.
        taken.value_text = scene::toml_string(value);
        parsed = parse_toml(fmt::format("value = {}", taken.value_text), taken.file);
    }
    if (!parsed)
        return tl::unexpected(parsed.error());
    taken.value = std::move(*parsed);
    return taken;
}

std::vector<std::string_view> rivals_of(const Override& override) {
    const std::string& key = override.parts.back();
    const auto holds_key = [&](const auto& group) {
        return std::ranges::find(group, key) != group.end();
    };
    const toml::node* value = override.value.get("value");
    const bool says_no = value->is_boolean() && !value->as_boolean()->get();
    std::vector<std::string_view> rivals;
    if (says_no)
        return rivals;
    for (const Rivals& groups : rivalries(override.parts.front())) {
        if (std::ranges::none_of(groups, holds_key))
            continue;
        for (const Group& group : groups)
            if (!holds_key(group))
                rivals.insert(rivals.end(), group.begin(), group.end());
    }
    return rivals;
}

std::optional<std::size_t> index_from(std::string_view text) {
    std::size_t index = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), index);
    if (error != std::errc{} || end != text.data() + text.size())
        return std::nullopt;
    return index;
}

}  // namespace backrow::scene_file
