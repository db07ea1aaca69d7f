#include "scene_file/toml/key_depth.h"

#include <algorithm>
#include <string>

namespace backrow::scene_file {
namespace {

LineAndColumn line_and_column(std::string_view text, std::size_t at) {
    const std::string_view before = text.substr(0, at);
    const auto line_start = before.rfind('\n') + 1;  // npos + 1 is 0
    return {.line = 1 + static_cast<int>(std::ranges::count(before, '\n')),
            .column = 1 + static_cast<int>(at - line_start)};
}

// One past the end of the string that opens at `at`. Single-line strings end with their line.
std::size_t past_string(std::string_view text, std::size_t at) {
    const char quote = text[at];
    const bool escapes = quote == '"';
    const bool long_form = text.substr(at, 3) == std::string_view{"\"\"\""} ||
                           text.substr(at, 3) == std::string_view{"'''"};
    const std::string closing(long_form ? 3 : 1, quote);
    at += closing.size();
    while (at < text.size()) {
        if (!long_form && text[at] == '\n')
            return at;
        if (escapes && text[at] == '\\') {
            at += 2;
            continue;
        }
        if (text.substr(at, closing.size()) == closing) {
            at += closing.size();
            // A long string may end in one or two quotes of its own.
            for (int own = 0; long_form && own < 2 && at < text.size() && text[at] == quote; ++own)
                ++at;
            return at;
        }
        ++at;
    }
    return text.size();
}

}  // namespace

std::optional<LineAndColumn> first_overlong_key(std::string_view text) {
    int dots = 0;
    for (std::size_t at = 0; at < text.size();) {
        switch (text[at]) {
        case '#':
            at = std::min(text.find('\n', at), text.size());
            continue;
        case '"':
        case '\'':
            at = past_string(text, at);
            continue;
        case '.':
            if (++dots >= most_key_parts)
                return line_and_column(text, at);
            break;
        case '\n':
        case '=':
        case ',':
        case '{':
        case '}':
        case '[':
        case ']':
            dots = 0;
            break;
        default:
            break;
        }
        ++at;
    }
    return std::nullopt;
}

}  // namespace backrow::scene_file
