#include "report/text/utf8.h"

#include <algorithm>
#include <array>
#include <cstddef>

namespace backrow::report {
namespace {

constexpr char32_t unreadable = 0xFFFD;

struct Range {
    char32_t first, last;
};

bool lies_in(char32_t point, const Range& range) {
    return range.first <= point && point <= range.last;
}

template <std::size_t count>
bool lies_in_any(char32_t point, const std::array<Range, count>& ranges) {
    return std::ranges::any_of(ranges, [&](const Range& range) { return lies_in(point, range); });
}

// Blocks of combining marks, joiners and variation selectors.
constexpr std::array<Range, 7> widthless{{{0x0300, 0x036F},
                                          {0x1AB0, 0x1AFF},
                                          {0x1DC0, 0x1DFF},
                                          {0x200B, 0x200F},
                                          {0x20D0, 0x20FF},
                                          {0xFE00, 0xFE0F},
                                          {0xFE20, 0xFE2F}}};

// Blocks whose letters are W or F in [UAX11].
constexpr std::array<Range, 10> wide{{{0x1100, 0x115F},
                                      {0x2E80, 0x303E},
                                      {0x3041, 0xA4CF},
                                      {0xAC00, 0xD7A3},
                                      {0xF900, 0xFAFF},
                                      {0xFE30, 0xFE6F},
                                      {0xFF01, 0xFF60},
                                      {0xFFE0, 0xFFE6},
                                      {0x1F300, 0x1F9FF},
                                      {0x20000, 0x3FFFD}}};

/// How many bytes a letter has that begins with this one, 0 where none does.
int bytes_of_letter(unsigned char lead) {
    if (lead < 0x80)
        return 1;
    if (lead >= 0xC2 && lead <= 0xDF)
        return 2;
    if ((lead & 0xF0) == 0xE0)
        return 3;
    return lead >= 0xF0 && lead <= 0xF4 ? 4 : 0;
}

/// The letter at the start of text and its bytes, or unreadable and 1.
std::pair<char32_t, std::size_t> first_letter(std::string_view text) {
    constexpr std::array<char32_t, 5> least_of_length{0, 0, 0x80, 0x800, 0x10000};
    const auto lead = static_cast<unsigned char>(text.front());
    const auto bytes = static_cast<std::size_t>(bytes_of_letter(lead));
    if (bytes == 1)
        return {lead, 1};
    if (bytes == 0 || bytes > text.size())
        return {unreadable, 1};
    char32_t point = lead & (0x7Fu >> bytes);
    for (std::size_t i = 1; i < bytes; ++i) {
        const auto byte = static_cast<unsigned char>(text[i]);
        if ((byte & 0xC0) != 0x80)
            return {unreadable, 1};
        point = point << 6 | (byte & 0x3Fu);
    }
    const bool is_surrogate = lies_in(point, {0xD800, 0xDFFF});
    if (point < least_of_length[bytes] || point > 0x10FFFF || is_surrogate)
        return {unreadable, 1};
    return {point, bytes};
}

char continued(char32_t point, int shift) {
    return static_cast<char>(0x80 | ((point >> shift) & 0x3F));
}

void append_utf8(std::string& text, char32_t point) {
    if (point < 0x80) {
        text += static_cast<char>(point);
    } else if (point < 0x800) {
        text += {static_cast<char>(0xC0 | (point >> 6)), continued(point, 0)};
    } else if (point < 0x10000) {
        text += {static_cast<char>(0xE0 | (point >> 12)), continued(point, 6), continued(point, 0)};
    } else {
        text += {static_cast<char>(0xF0 | (point >> 18)), continued(point, 12), continued(point, 6),
                 continued(point, 0)};
    }
}

bool is_control(char32_t point) {
    return point < 0x20 || lies_in(point, {0x7F, 0x9F}) || lies_in(point, {0x2028, 0x2029});
}

}  // namespace

std::vector<char32_t> code_points(std::string_view text) {
    std::vector<char32_t> points;
    while (!text.empty()) {
        const auto [point, bytes] = first_letter(text);
        points.push_back(point);
        text.remove_prefix(bytes);
    }
    return points;
}

std::string utf8_from(const std::vector<char32_t>& points) {
    std::string text;
    for (const char32_t point : points)
        append_utf8(text, point);
    return text;
}

std::string on_one_line(std::string_view text) {
    auto points = code_points(text);
    std::ranges::replace_if(points, is_control, U' ');
    return utf8_from(points);
}

int display_width(std::string_view text) {
    int width = 0;
    for (const char32_t point : code_points(text))
        if (!lies_in_any(point, widthless))
            width += lies_in_any(point, wide) ? 2 : 1;
    return width;
}

}  // namespace backrow::report
