#include "render/light/light_views.h"

#include <catch2/catch.hpp>

#include <glm/geometric.hpp>

#include <cmath>

using namespace backrow;
using namespace backrow::render;

namespace {

glm::dvec3 seen_at(const LightView& view, const glm::dvec3& place) {
    const glm::dvec4 at = view.map_from_world * glm::dvec4{place, 1.0};
    return glm::dvec3{at} / at.w;
}

const Ball group{{0.2, 1.0, -0.5}, 1.6};

// Places on the ball and inside it.
template <class Check>
void for_places_in(const Ball& ball, const Check& check) {
    for (const double share : {0.3, 0.7, 0.999})
        for (int i = 0; i < 24; ++i) {
            const double turn = 0.7 * i;
            const double up = -0.95 + 1.9 * i / 23;
            const double level = std::sqrt(1 - up * up);
            check(ball.centre_m +
                  share * ball.radius_m *
                      glm::dvec3{level * std::cos(turn), up, level * std::sin(turn)});
        }
}

bool is_in_map(const glm::dvec3& at) {
    return at.x >= 0 && at.x <= 1 && at.y >= 0 && at.y <= 1 && at.z >= 0 && at.z <= 1;
}

}  // namespace

TEST_CASE("every light sees the whole group, what is nearer to it first", "[render][property]") {
    const auto window = stage::window_light({.azimuth_deg = 290, .distance_m = 4});
    for (std::uint64_t i = 0; i < 16; ++i) {
        const LightView sun = view_from_sun({0, 0.6, 0.8}, i, group);
        const LightView sky = view_from_sky(i, group);
        const LightView pane = view_from_window(window, i, group);
        for (const LightView& view : {sun, sky, pane}) {
            for_places_in(
                group, [&](const glm::dvec3& place) { REQUIRE(is_in_map(seen_at(view, place))); });
            CHECK(glm::distance(glm::dvec2{seen_at(view, group.centre_m)}, {0.5, 0.5}) < 1e-9);
        }
        const auto nearer = [&](const LightView& view, const glm::dvec3& towards) {
            return seen_at(view, group.centre_m + towards).z < seen_at(view, group.centre_m).z;
        };
        CHECK(nearer(sun, sun.towards_or_place));
        CHECK(nearer(sky, sky.towards_or_place));
        CHECK(nearer(pane, glm::normalize(pane.towards_or_place - group.centre_m)));
    }
}

// The points of the pane lie on it, spread over all four quarters.
TEST_CASE("a window shines from all of its pane", "[render][property]") {
    const auto window = stage::window_light({.azimuth_deg = 60, .distance_m = 2});
    int quarters[2][2]{};
    for (std::uint64_t i = 0; i < 16; ++i) {
        const glm::dvec3 from_middle =
            view_from_window(window, i, group).towards_or_place - window.middle_m;
        CHECK(std::abs(glm::dot(from_middle, window.facing)) < 1e-12);
        const double across = glm::dot(from_middle, glm::normalize(window.half_across_m));
        CHECK(std::abs(across) <= glm::length(window.half_across_m));
        CHECK(std::abs(from_middle.y) <= window.half_up_m.y);
        ++quarters[across > 0][from_middle.y > 0];
    }
    for (const auto& half : quarters)
        for (const int points : half)
            CHECK(points >= 2);
}

TEST_CASE("a window amid the group still sees what is before it", "[render][property]") {
    auto window = stage::window_light({.azimuth_deg = 60, .distance_m = 2});
    for (const glm::dvec3& middle_m :
         {group.centre_m, group.centre_m + glm::dvec3{0.01, 0, 0}, glm::dvec3{1, 1, 0}}) {
        window.middle_m = middle_m;
        window.half_across_m = window.half_up_m = {0, 0, 0};
        const LightView view = view_from_window(window, 0, group);
        const glm::dvec3 away = middle_m == glm::dvec3{1, 1, 0}
                                    ? glm::normalize(group.centre_m - middle_m)
                                    : window.facing;
        const glm::dvec3 before = seen_at(view, middle_m + 0.6 * away);
        CHECK(is_in_map(before));
        CHECK(std::isfinite(view.width_m));
    }
}
