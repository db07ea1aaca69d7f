#include "report/lens/test_chart.h"

#include "measure/edge_finding.h"
#include "measure/frame_edges.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace backrow;
using namespace backrow::report;
using Catch::Matchers::WithinRel;

// The chart as a camera would have it, four pixels to a point and a little grey. What smooths its
// edges is the mean over a pixel alone: sinc, which falls to a half at 0.6034 cycles a pixel; at
// 5 degrees that is less than 0.1 % more. Tolerance: 3 %, for the eight bits and the 17 by 15
// places within a pixel at which the drawing library smooths.
TEST_CASE("edges of the chart are found over all of the sheet, and are straight",
          "[report][property]") {
    for (const Paper paper : {Paper::a4, Paper::letter}) {
        const Image<Rgb8> sheet = test_chart(paper).pixels(4);
        Image<float> light(sheet.width_px(), sheet.height_px());
        std::ranges::transform(sheet.pixels(), light.pixels().begin(), [](const Rgb8& pixel) {
            return 0.05f + 0.7f * static_cast<float>(pixel.g) / 255;
        });
        const auto edges = measure::measure_edges(light, measure::find_edges(light, 500));
        int upright = 0;
        int level = 0;
        int beyond_half_way = 0;
        for (const measure::FrameEdge& edge : edges) {
            if (!edge.sharpness)
                continue;
            (edge.sharpness->is_upright ? upright : level) += 1;
            beyond_half_way += edge.image_height > 0.5;
            CHECK_THAT(edge.sharpness->mtf50_cy_per_px, WithinRel(0.6034, 0.03));
            CHECK_THAT(edge.sharpness->angle_deg, WithinRel(5, 0.02));
        }
        // Fourteen squares have 28 sides of either direction.
        CHECK(upright >= 24);
        CHECK(level >= 24);
        CHECK(beyond_half_way >= 16);
    }
}
