#include "figures/posture/reach.h"

#include "people.h"

#include "figures/posture/skeleton.h"

#include <catch2/catch.hpp>
#include <glm/geometric.hpp>

#include <cmath>
#include <numbers>
#include <vector>

using namespace backrow;
using namespace backrow::figures;
using glm::dvec3;

namespace {

double degrees_between(const dvec3& a, const dvec3& b) {
    return std::acos(glm::dot(glm::normalize(a), glm::normalize(b))) * 180 / std::numbers::pi;
}

std::vector<Capsule> shifted(std::vector<Capsule> solids, const dvec3& by_m) {
    for (Capsule& solid : solids) {
        solid.from_m += by_m;
        solid.to_m += by_m;
    }
    return solids;
}

/// A left hand on the back of a neighbour who stands to picture right.
std::optional<Hold> on_neighbours_back(const Person& who, const Person& neighbour, double apart_m,
                                       double across, double up) {
    Spot spot = on_the_back(neighbour, 0, across, up);
    spot.at_m.x += apart_m;
    return reach(who, 0, spot, {1, 0, 0}, shifted(trunk_solids(neighbour), {apart_m, 0, 0}));
}

}  // namespace

// Limits of [AAOS1965], from memory. Bones are as long as bones, to rounding.
TEST_CASE("an arm that reaches is bent as arms bend, and no longer than it is",
          "[figures][from-memory]") {
    int laid = 0;
    for (const std::string& name : some_names())
        for (const double apart_m : {0.45, 0.55, 0.70, 0.9})
            for (const double across : {-0.4, 0.3, 1.0})
                for (const double up : {0.45, 0.85}) {
                    Person who = adult(name);
                    const auto hold = on_neighbours_back(who, adult("Bram"), apart_m, across, up);
                    if (!hold)
                        continue;
                    ++laid;
                    who.pose.holds[0] = hold;
                    const Skeleton s = skeleton(who);
                    const Arm& arm = s.arms[0];
                    CAPTURE(name, apart_m, across, up);
                    CHECK(glm::distance(arm.wrist_m, hold->wrist_m) < 1e-6);
                    CHECK(glm::distance(arm.shoulder_m, arm.elbow_m) ==
                          Approx(s.build.upper_arm_m).margin(1e-9));
                    CHECK(glm::distance(arm.elbow_m, arm.wrist_m) ==
                          Approx(s.build.forearm_m).margin(1e-9));
                    const dvec3 upper = arm.elbow_m - arm.shoulder_m;
                    CHECK(degrees_between(upper, arm.wrist_m - arm.elbow_m) <
                          elbow_flexion_deg + 0.01);
                    CHECK(degrees_between(upper, -s.trunk[2]) > 90 - shoulder_backwards_deg - 0.01);
                }
    CHECK(laid > 50);
}

TEST_CASE("what is out of reach is left alone", "[figures][property]") {
    CHECK(on_neighbours_back(adult("Odile"), adult("Bram"), 0.55, 0.2, 0.85));
    CHECK_FALSE(on_neighbours_back(adult("Odile"), adult("Bram"), 1.1, 0.2, 0.85));
    // A child does not reach round a man.
    CHECK_FALSE(on_neighbours_back(aged("Nia", 5), adult("Bram"), 0.55, 1.0, 0.85));
}

// Clothes have folds and fingers are bent: some part of the hand within a centimetre and a half of
// the cloth, and no fingertip further in than two, which cloth and flesh give.
TEST_CASE("a hand laid on somebody lies on the clothes, not in them", "[figures][property]") {
    for (const char* name : {"Sefu", "Kofi", "Marta"})
        for (const double across : {0.0, 0.2, 0.4}) {
            Person who = adult("Odile");
            const Person neighbour = adult(name);
            who.pose.holds[0] = on_neighbours_back(who, neighbour, 0.5, across, 0.8);
            CAPTURE(name, across);
            REQUIRE(who.pose.holds[0]);
            const Skeleton s = skeleton(who);
            const shapes::Mesh cloth = build_figure(neighbour, Detail::near).body;
            double nearest_m = 1, deepest_m = 0;
            for (const shapes::Vertex& v : build_figure(who, Detail::near).body.vertices) {
                const dvec3 at{v.position_m};
                if (glm::dot(at - s.arms[0].wrist_m, s.arms[0].fingers) < 0 ||
                    glm::distance(at, s.arms[0].wrist_m) > 1.1 * s.build.hand_m)
                    continue;
                double closest_m = 1, off_m = 0;
                for (const shapes::Vertex& c : cloth.vertices) {
                    const dvec3 from = at - (dvec3{c.position_m} + dvec3{0.5, 0, 0});
                    if (glm::length(from) < closest_m) {
                        closest_m = glm::length(from);
                        off_m = glm::dot(from, dvec3{c.normal});
                    }
                }
                nearest_m = std::min(nearest_m, off_m);
                deepest_m = std::max(deepest_m, -off_m);
            }
            CHECK(nearest_m < 0.015);
            CHECK(deepest_m < 0.020);
        }
}
