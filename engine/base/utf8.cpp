#include "base/utf8.h"

#include <utf8proc.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <utility>

namespace backrow {
namespace {

constexpr char32_t unreadable = 0xFFFD;

utf8proc_int32_t number_of(char32_t point) {
    return static_cast<utf8proc_int32_t>(point);
}

/// The letter at the start of text and its bytes, or unreadable and none.
std::pair<char32_t, std::size_t> first_letter(std::string_view text) {
    utf8proc_int32_t point = 0;
    const auto bytes = utf8proc_iterate(reinterpret_cast<const utf8proc_uint8_t*>(text.data()),
                                        static_cast<utf8proc_ssize_t>(text.size()), &point);
    if (bytes <= 0)
        return {unreadable, 0};
    return {static_cast<char32_t>(point), static_cast<std::size_t>(bytes)};
}

}  // namespace

bool is_utf8(std::string_view text) {
    while (!text.empty()) {
        const auto bytes = first_letter(text).second;
        if (bytes == 0)
            return false;
        text.remove_prefix(bytes);
    }
    return true;
}

bool is_control(char32_t point) {
    switch (utf8proc_category(number_of(point))) {
    case UTF8PROC_CATEGORY_CC:
    case UTF8PROC_CATEGORY_ZL:
    case UTF8PROC_CATEGORY_ZP:
        return true;
    default:
        return false;
    }
}

std::vector<char32_t> code_points(std::string_view text) {
    std::vector<char32_t> points;
    while (!text.empty()) {
        const auto [point, bytes] = first_letter(text);
        points.push_back(point);
        text.remove_prefix(std::max<std::size_t>(bytes, 1));
    }
    return points;
}

std::string utf8_from(const std::vector<char32_t>& points) {
    constexpr std::size_t most_bytes_of_letter = 4;
    std::string text;
    for (const char32_t point : points) {
        std::array<utf8proc_uint8_t, most_bytes_of_letter> letter{};
        const auto bytes = utf8proc_encode_char(number_of(point), letter.data());
        text.append(letter.begin(), letter.begin() + bytes);
    }
    return text;
}

std::string on_one_line(std::string_view text) {
    auto points = code_points(text);
    std::ranges::replace_if(points, is_control, U' ');
    return utf8_from(points);
}

std::string kept_apart(std::string_view name) {
    std::string line = on_one_line(name);
    const auto runs_left = [](char32_t letter) {
        const auto direction =
            utf8proc_get_property(static_cast<utf8proc_int32_t>(letter))->bidi_class;
        return direction == UTF8PROC_BIDI_CLASS_R || direction == UTF8PROC_BIDI_CLASS_AL;
    };
    if (!std::ranges::any_of(code_points(line), runs_left))
        return line;
    return "\u2068" + line + "\u2069";
}

int display_width(std::string_view text) {
    int width = 0;
    for (const char32_t point : code_points(text))
        width += utf8proc_charwidth(number_of(point));
    return width;
}

}  // namespace backrow
