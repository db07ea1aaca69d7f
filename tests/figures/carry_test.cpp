#include "figures/posture/carry.h"

#include "people.h"

#include "figures/posture/skeleton.h"
#include "figures/posture/spots.h"

#include <catch2/catch.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

using namespace backrow;
using namespace backrow::figures;
using glm::dvec3;

namespace {

/// Both as they are once one carries the other.
struct Pair {
    Person carrier, child;
};

Pair carrying(Person carrier, Person child, Posture how, double side = 1) {
    child.pose.posture = how;
    const Carrying both = carry(carrier, child, side);
    child.pose = both.child;
    carrier.pose.holds = both.holds;
    return {carrier, child};
}

double deepest_m(const std::vector<Capsule>& one, const std::vector<Capsule>& other) {
    double deepest = 0;
    for (const Capsule& a : one)
        for (const Capsule& b : other)
            for (double t = 0; t <= 1; t += 0.125)
                for (double r = 0; r <= 1; r += 0.125)
                    deepest = std::max(deepest, a.radius_m + b.radius_m -
                                                    glm::distance(glm::mix(a.from_m, a.to_m, t),
                                                                  glm::mix(b.from_m, b.to_m, r)));
    return deepest;
}

}  // namespace

TEST_CASE(
    "a carried child's eyes are as high above its hips as seated, and face as the carrier does",
    "[figures][property]") {
    for (const double age : {2.0, 3.5, 6.0})
        for (const double turn_deg : {0.0, 35.0}) {
            Person carrier = adult("Bram", Posture::standing, 1.8);
            carrier.pose.turn_deg = turn_deg;
            const auto [stands, sits] = carrying(carrier, aged("Nia", age), Posture::on_hip);
            const ReferencePoints eyes = reference_points(sits);
            const BodyMeasures& m = sits.measures;
            CAPTURE(age, turn_deg);
            CHECK((eyes.left_eye_m.y + eyes.right_eye_m.y) / 2 ==
                  Approx(sits.pose.seating.hips_m.y + m.sitting_eye_height_m -
                         build_of(m).seat_to_hip_m)
                      .margin(0.001));
            const dvec3 across = glm::normalize(eyes.left_eye_m - eyes.right_eye_m);
            CHECK(glm::dot(across, skeleton(stands).head[0]) == Approx(1).margin(1e-6));
        }
}

TEST_CASE("a child turns with whoever carries it, and sits on the side that was asked for",
          "[figures][property]") {
    for (const Posture how : {Posture::on_hip, Posture::on_shoulders})
        for (const double side : {1.0, -1.0}) {
            Person carrier = adult("Marta");
            const dvec3 eye =
                reference_points(carrying(carrier, aged("Ravi", 3), how, side).child).left_eye_m;
            carrier.pose.turn_deg = 90;
            const dvec3 turned =
                reference_points(carrying(carrier, aged("Ravi", 3), how, side).child).left_eye_m;
            // A quarter turn to picture right takes +z to +x and +x to −z.
            CHECK(turned.x == Approx(eye.z).margin(1e-9));
            CHECK(turned.z == Approx(-eye.x).margin(1e-9));
            CHECK(turned.y == Approx(eye.y).margin(1e-9));
            if (how == Posture::on_hip)
                CHECK(eye.x * side > 0.1);
            else
                CHECK(eye.y > reference_points(adult("Marta")).crown_m.y);
        }
}

// Solids are wider than clothes, 5 cm for two as in the demo scenes, and a child that is carried
// presses itself to whoever carries it, which flesh gives way to: 7 cm, of thighs about a neck 8.
// How children are carried is common practice, no source.
TEST_CASE("a carried child sits on the body that carries it and not in it", "[figures][practice]") {
    for (const char* name : {"Odile", "Kofi", "Lena"})
        for (const double stature_m : {1.58, 1.70, 1.86})
            for (const double age : {2.0, 4.0, 5.5})
                for (const Posture how : {Posture::on_hip, Posture::on_shoulders}) {
                    const auto [stands, sits] = carrying(adult(name, Posture::standing, stature_m),
                                                         aged("Elsa", age), how, -1);
                    CAPTURE(name, stature_m, age, static_cast<int>(how));
                    CHECK(deepest_m(trunk_solids(stands), trunk_solids(sits)) < 0.07);
                    CHECK(deepest_m(trunk_solids(stands), solids(sits)) < 0.08);
                    // Near enough to be held: the seat within a hand of the carrier.
                    CHECK(deepest_m(trunk_solids(stands), solids(sits)) > 0);
                }
}

TEST_CASE("the hands of whoever carries are at the child", "[figures][property]") {
    for (const double age : {2.0, 5.0}) {
        const auto [stands, sits] = carrying(adult("Hugo"), aged("Zora", age), Posture::on_hip);
        const Skeleton s = skeleton(stands), c = skeleton(sits);
        // Under the seat, on the child's side; the other arm is free.
        const dvec3 palm = s.arms[0].wrist_m + s.arms[0].fingers * (0.4 * s.build.hand_m);
        CHECK(palm.y < c.hips_m.y);
        CHECK(glm::distance(palm, c.hips_m) < 0.17);
        CHECK_FALSE(stands.pose.holds[1]);

        const auto [under, above] =
            carrying(adult("Hugo"), aged("Zora", age), Posture::on_shoulders);
        const Skeleton u = skeleton(under), a = skeleton(above);
        for (const std::size_t side : {0u, 1u}) {
            const Leg& leg = a.legs[side];
            const dvec3 shin = glm::mix(leg.knee_m, leg.ankle_m, 0.7);
            CHECK(glm::distance(u.arms[side].wrist_m, shin) < 0.12);
            // Shins hang before the chest.
            const dvec3 chest = on_the_chest(under, static_cast<int>(side), 0.5, 0.85).at_m;
            CHECK(glm::dot(leg.ankle_m - chest, u.trunk[2]) > 0);
        }
    }
}

TEST_CASE("figures of carried children are sound", "[figures][property]") {
    for (const Posture how : {Posture::on_hip, Posture::on_shoulders}) {
        const auto [stands, sits] = carrying(adult("Ines"), aged("Igor", 3), how);
        for (const Person& person : {stands, sits}) {
            const FigureMesh figure = build_figure(person, Detail::near);
            for (const shapes::Mesh* mesh : {&figure.body, &figure.face})
                for (const shapes::Vertex& v : mesh->vertices)
                    if (!std::isfinite(v.position_m.x + v.position_m.y + v.position_m.z) ||
                        std::abs(glm::length(v.normal) - 1) > 1e-4f)
                        FAIL("a vertex is unsound");
        }
        const double lowest_m =
            std::ranges::min(build_figure(sits, Detail::middle).body.vertices, {},
                             [](const shapes::Vertex& v) { return v.position_m.y; })
                .position_m.y;
        CHECK(lowest_m > 0.3);
    }
}
