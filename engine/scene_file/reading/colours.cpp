#include "scene_file/reading/colours.h"

#include "base/colour.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <cstdint>
#include <string>

namespace backrow::scene_file {
namespace {

/// sRGB as of cloth in daylight, by eye: its black is not quite black, nor its white white.
struct ClothColour {
    std::string_view word;
    std::uint32_t rrggbb;
};
constexpr std::array<ClothColour, 20> cloths{
    {{"white", 0xecebe5},    {"cream", 0xe2d6bc},    {"tan", 0xb2926a},   {"brown", 0x60422e},
     {"grey", 0x80807e},     {"charcoal", 0x3e4044}, {"black", 0x1e1e20}, {"yellow", 0xe2bc42},
     {"mustard", 0xc08e34},  {"orange", 0xd07034},   {"pink", 0xdea0a6},  {"red", 0xac2c2c},
     {"burgundy", 0x68202c}, {"purple", 0x623e74},   {"sky", 0x96b8d8},   {"blue", 0x345c96},
     {"navy", 0x222c48},     {"teal", 0x26686c},     {"green", 0x386e48}, {"olive", 0x686c3e}}};

glm::dvec3 linear_from_rrggbb(std::uint32_t rrggbb) {
    const auto channel = [&](int shift) {
        return static_cast<double>(
            linear_from_srgb(static_cast<float>((rrggbb >> shift) & 0xffU) / 255.0f));
    };
    return {channel(16), channel(8), channel(0)};
}

std::optional<std::uint32_t> six_digits(std::string_view text) {
    constexpr std::string_view digits = "0123456789abcdef";
    if (text.size() != 7 || text.front() != '#')
        return std::nullopt;
    std::uint32_t number = 0;
    for (const char c : text.substr(1)) {
        const auto digit = digits.find(c);
        if (digit == std::string_view::npos)
            return std::nullopt;
        number = number * 16 + static_cast<std::uint32_t>(digit);
    }
    return number;
}

}  // namespace

std::optional<glm::dvec3> linear_from_named_colour(std::string_view name) {
    std::string low{name};
    std::ranges::transform(low, low.begin(),
                           [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    if (const auto rrggbb = six_digits(low))
        return linear_from_rrggbb(*rrggbb);
    const auto* cloth = std::ranges::find(cloths, std::string_view{low}, &ClothColour::word);
    if (cloth == cloths.end())
        return std::nullopt;
    return linear_from_rrggbb(cloth->rrggbb);
}

const std::vector<std::string_view>& colour_words() {
    static const std::vector<std::string_view> words = [] {
        std::vector<std::string_view> all;
        for (const ClothColour& cloth : cloths)
            all.push_back(cloth.word);
        return all;
    }();
    return words;
}

}  // namespace backrow::scene_file
