#include "window/layout.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <optional>
#include <vector>

using namespace backrow::window;

namespace {

bool overlap(const Area& a, const Area& b) {
    return a.least.x < b.most.x && b.least.x < a.most.x && a.least.y < b.most.y &&
           b.least.y < a.most.y;
}

}  // namespace

// From the smallest window that the command line takes to the largest screens, with letters from
// small to as large as there is room for.
TEST_CASE("the parts of the window lie within it and nowhere on each other", "[window][property]") {
    for (const ImVec2 size : {ImVec2{800, 500}, ImVec2{1024, 640}, ImVec2{1366, 768},
                              ImVec2{1920, 1080}, ImVec2{3840, 2160}})
        for (const double asked : {0.75, 1.0, 1.5, 2.0, 3.0})
            for (int enlarged = -1; enlarged < static_cast<int>(parts.size()); ++enlarged) {
                const double scale = std::min(asked, greatest_scale(size));
                CAPTURE(size.x, size.y, scale, enlarged);
                const auto s = static_cast<float>(scale);
                const Layout layout = lay_out(
                    size, scale, {.top = 34 * s, .foot = 20 * s},
                    enlarged < 0 ? std::nullopt
                                 : std::optional{parts[static_cast<std::size_t>(enlarged)]});
                std::vector<Area> areas{layout.top, layout.foot};
                for (const Part part : parts)
                    if (layout.of(part))
                        areas.push_back(*layout.of(part));
                if (enlarged >= 0)
                    CHECK(layout.of(parts[static_cast<std::size_t>(enlarged)]));
                else
                    CHECK((areas.size() == 2 + parts.size()) == has_room_for_all(size, scale));
                for (std::size_t i = 0; i < areas.size(); ++i) {
                    CHECK(areas[i].width() > 40 * s);
                    CHECK(areas[i].height() > 12 * s);
                    CHECK(areas[i].least.x >= 0);
                    CHECK(areas[i].least.y >= 0);
                    CHECK(areas[i].most.x <= size.x);
                    CHECK(areas[i].most.y <= size.y + 0.01f);
                    for (std::size_t j = 0; j < i; ++j)
                        CHECK_FALSE(overlap(areas[i], areas[j]));
                }
            }
}

TEST_CASE("letters are never larger than the window has room for", "[window][property]") {
    CHECK(greatest_scale({800, 500}) > 1.5);
    CHECK(greatest_scale({1366, 768}) > 2);
    CHECK(greatest_scale({3840, 2160}) > 3);
    CHECK(has_room_for_all({800, 500}, 1));
    CHECK_FALSE(has_room_for_all({800, 500}, 1.5));
}
