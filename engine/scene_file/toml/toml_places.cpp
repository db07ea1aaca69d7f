#include "scene_file/toml/toml_places.h"

#include <algorithm>

namespace backrow::scene_file {
namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

bool starts_a_character(char c) {
    return (static_cast<unsigned char>(c) & 0xC0u) != 0x80u;
}

std::size_t end_of_string(std::string_view text, std::size_t begin) {
    const char quote = text[begin];
    const std::string_view three = quote == '"' ? "\"\"\"" : "'''";
    const bool is_long = text.substr(begin).starts_with(three);
    std::size_t at = begin + (is_long ? 3 : 1);
    while (at < text.size()) {
        if (quote == '"' && text[at] == '\\') {
            at += 2;
        } else if (is_long ? text.substr(at).starts_with(three) : text[at] == quote) {
            at += is_long ? 3 : 1;
            // A long string may end in quotation marks of its own.
            while (is_long && at < text.size() && text[at] == quote)
                ++at;
            return at;
        } else {
            ++at;
        }
    }
    return text.size();
}

std::size_t end_of_brackets(std::string_view text, std::size_t begin) {
    int depth = 0;
    for (std::size_t at = begin; at < text.size();) {
        const char c = text[at];
        if (c == '"' || c == '\'') {
            at = end_of_string(text, at);
            continue;
        }
        if (c == '#') {
            at = std::min(text.find('\n', at), text.size());
            continue;
        }
        depth += c == '[' || c == '{' ? 1 : c == ']' || c == '}' ? -1 : 0;
        ++at;
        if (depth == 0)
            return at;
    }
    return text.size();
}

}  // namespace

std::size_t offset_of(std::string_view text, const toml::source_position& place) {
    std::size_t at = text.starts_with(byte_order_mark) ? byte_order_mark.size() : 0;
    for (toml::source_index line = 1; line < place.line && at < text.size(); ++line)
        at = std::min(text.find('\n', at), text.size() - 1) + 1;
    for (toml::source_index column = 1; column < place.column && at < text.size(); ++column)
        do
            ++at;
        while (at < text.size() && !starts_a_character(text[at]));
    return at;
}

std::size_t end_of_value(std::string_view text, std::size_t begin) {
    if (begin >= text.size())
        return text.size();
    const char first = text[begin];
    if (first == '"' || first == '\'')
        return end_of_string(text, begin);
    if (first == '[' || first == '{')
        return end_of_brackets(text, begin);
    std::size_t end = std::min(text.find_first_of(",]}#\r\n", begin), text.size());
    while (end > begin && (text[end - 1] == ' ' || text[end - 1] == '\t'))
        --end;
    return end;
}

Stretch stretch_of(std::string_view text, const toml::node& value) {
    const std::size_t begin = offset_of(text, value.source().begin);
    return {begin, end_of_value(text, begin)};
}

Stretch line_round(std::string_view text, std::size_t offset) {
    const std::size_t before = offset == 0 ? text.npos : text.rfind('\n', offset - 1);
    const std::size_t after = text.find('\n', offset);
    return {before == text.npos ? 0 : before + 1, after == text.npos ? text.size() : after + 1};
}

}  // namespace backrow::scene_file
