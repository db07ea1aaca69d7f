#include "scene_file/toml/toml_places.h"

#include <algorithm>

namespace backrow::scene_file {
namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

bool starts_a_character(char c) {
    return (static_cast<unsigned char>(c) & 0xC0u) != 0x80u;
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

Stretch stretch_of(std::string_view text, const toml::node& value) {
    return {offset_of(text, value.source().begin), offset_of(text, value.source().end)};
}

Stretch line_round(std::string_view text, std::size_t offset) {
    const std::size_t before = offset == 0 ? text.npos : text.rfind('\n', offset - 1);
    const std::size_t after = text.find('\n', offset);
    return {before == text.npos ? 0 : before + 1, after == text.npos ? text.size() : after + 1};
}

}  // namespace backrow::scene_file
