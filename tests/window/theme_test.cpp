#include "window/theme.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

using namespace backrow::window;

namespace {

using Colour = std::array<double, 3>;  // sRGB, 0 to 1

Colour colour_of(ImU32 packed) {
    return {((packed >> IM_COL32_R_SHIFT) & 0xFF) / 255.0,
            ((packed >> IM_COL32_G_SHIFT) & 0xFF) / 255.0,
            ((packed >> IM_COL32_B_SHIFT) & 0xFF) / 255.0};
}

/// A wash as it looks on what it lies on.
Colour laid_on(ImU32 wash, ImU32 ground) {
    const double alpha = (wash >> IM_COL32_A_SHIFT) / 255.0;
    const Colour over = colour_of(wash), below = colour_of(ground);
    Colour mixed{};
    for (std::size_t i = 0; i < mixed.size(); ++i)
        mixed[i] = alpha * over[i] + (1 - alpha) * below[i];
    return mixed;
}

double relative_luminance(const Colour& colour) {
    const auto linear = [](double c) {
        return c <= 0.03928 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
    };
    return 0.2126 * linear(colour[0]) + 0.7152 * linear(colour[1]) + 0.0722 * linear(colour[2]);
}

double contrast(const Colour& one, const Colour& other) {
    const auto [darker, lighter] =
        std::minmax({relative_luminance(one), relative_luminance(other)});
    return (lighter + 0.05) / (darker + 0.05);
}

}  // namespace

// From memory: Web Content Accessibility Guidelines 2.1, definitions of relative luminance and
// contrast ratio, and success criterion 1.4.3: 4.5 for letters of any size. The window's letters
// can be of any size, so nothing is let off with the 3 for large ones. Black on white has 21, by
// the definition itself.
TEST_CASE("whatever is written can be read, by day and by night, also under the pointer",
          "[window][from-memory]") {
    CHECK(contrast({0, 0, 0}, {1, 1, 1}) == Approx(21));
    for (const Theme& theme : {day(), night()}) {
        const std::array inks{std::pair{"ink", theme.ink}, std::pair{"faint ink", theme.faint_ink},
                              std::pair{"accent", theme.accent}};
        const std::array grounds{
            std::pair{"desk", colour_of(theme.desk)}, std::pair{"paper", colour_of(theme.paper)},
            std::pair{"a button", colour_of(theme.raised)},
            std::pair{"a button under the pointer", colour_of(theme.rule)},
            std::pair{"what is chosen", laid_on(theme.accent_wash, theme.paper)}};
        for (const auto& [ink, letters] : inks)
            for (const auto& [ground, background] : grounds) {
                INFO((theme.is_dark ? "by night, " : "by day, ") << ink << " on " << ground);
                CHECK(contrast(colour_of(letters), background) >= 4.5);
            }
        CHECK(contrast(colour_of(theme.paper), colour_of(theme.accent)) >= 4.5);  // “worst”
    }
}

// From memory: the same guidelines, success criterion 1.4.11: 3 for what is no letter and has to be
// seen to use a thing. The frame round what has the keys is in the accent.
TEST_CASE("where the keys are is seen on every ground", "[window][from-memory]") {
    for (const Theme& theme : {day(), night()})
        for (const ImU32 ground : {theme.desk, theme.paper, theme.raised})
            CHECK(contrast(colour_of(theme.accent), colour_of(ground)) >= 3);
}
