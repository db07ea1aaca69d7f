#include "window/fonts.h"

#include "toolkit.h"

#include <catch2/catch.hpp>
#include <imgui.h>

using namespace backrow::window;

namespace {

bool all_show(const Fonts& fonts, ImWchar letter) {
    for (const ImFont* font : {fonts.plain, fonts.bold, fonts.small, fonts.large})
        if (font->FindGlyphNoFallback(letter) == nullptr)
            return false;
    return true;
}

}  // namespace

TEST_CASE("letters are foreign that are not among the program's own", "[window][property]") {
    CHECK(foreign_letters("Zo\u00eb, \u0141ukasz, \u0395\u03bb\u03ad\u03bd\u03b7\n").empty());
    CHECK(foreign_letters("\u5c71\u7530 \u5c71a") == std::set<ImWchar>{0x5c71, 0x7530});
}

// Armenian stands in DejaVu Sans, regular and bold, beside the letters that are always loaded.
TEST_CASE("a name's letters are loaded when it is there, in all sizes", "[window][property]") {
    const Toolkit toolkit;
    constexpr ImWchar ayb = 0x0531;
    const Fonts without = load_fonts(1, {});
    CHECK(all_show(without, 'A'));
    CHECK_FALSE(all_show(without, ayb));
    const Fonts with = load_fonts(1, foreign_letters("\u0531\u0580\u0561"));
    CHECK(all_show(with, 'A'));
    CHECK(all_show(with, ayb));
}

TEST_CASE("a letter that no font holds leaves all others as they were", "[window][property]") {
    const Toolkit toolkit;
    constexpr ImWchar never_assigned = 0xffff;
    const Fonts fonts = load_fonts(1, {0x0531, never_assigned});
    CHECK(all_show(fonts, 'A'));
    CHECK(all_show(fonts, 0x0531));
    CHECK_FALSE(all_show(fonts, never_assigned));
}
