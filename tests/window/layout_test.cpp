#include "window/layout.h"

#include <catch2/catch.hpp>

#include <array>

using namespace backrow::window;

namespace {

bool overlap(const Area& a, const Area& b) {
    return a.least.x < b.most.x && b.least.x < a.most.x && a.least.y < b.most.y &&
           b.least.y < a.most.y;
}

}  // namespace

// From the smallest window that the command line takes, with letters as large as there is room for.
TEST_CASE("the parts of the window lie within it and nowhere on each other", "[window][property]") {
    struct Window {
        ImVec2 size;
        double scale;
    };
    for (const auto& [size, scale] : {Window{{800, 500}, 1}, Window{{1024, 640}, 1},
                                      Window{{1366, 768}, 1}, Window{{3840, 2160}, 2}}) {
        CAPTURE(size.x, size.y, scale);
        const Layout layout = lay_out(size, scale);
        const std::array areas{layout.top,  layout.camera, layout.faces, layout.above,
                               layout.side, layout.panel,  layout.foot};
        for (std::size_t i = 0; i < areas.size(); ++i) {
            CHECK(areas[i].width() > 0);
            CHECK(areas[i].height() > 0);
            CHECK(areas[i].least.x >= 0);
            CHECK(areas[i].least.y >= 0);
            CHECK(areas[i].most.x <= size.x);
            CHECK(areas[i].most.y <= size.y);
            for (std::size_t j = 0; j < i; ++j)
                CHECK_FALSE(overlap(areas[i], areas[j]));
        }
    }
}
