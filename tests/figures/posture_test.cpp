#include "people.h"

#include "figures/posture/skeleton.h"

#include <catch2/catch.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>
#include <optional>

using namespace backrow::figures;
using glm::dvec3;

namespace {

// Joints are computed in double precision from lengths of a metre.
constexpr double exact_m = 1e-9;

dvec3 eyes_m(const Person& person) {
    const ReferencePoints points = reference_points(person);
    return (points.left_eye_m + points.right_eye_m) / 2.0;
}

dvec3 ears_m(const Person& person) {
    const ReferencePoints points = reference_points(person);
    return (points.left_ear_m + points.right_ear_m) / 2.0;
}

/// Between the lines of two capsules, less both radii; by halving, for two segments' distance is
/// convex in both places.
double gap_m(const Capsule& a, const Capsule& b) {
    const auto at = [](const Capsule& c, double t) { return c.from_m + (c.to_m - c.from_m) * t; };
    const auto to_b = [&](double t) {
        const dvec3 p = at(a, t), axis = b.to_m - b.from_m;
        const double along = glm::dot(p - b.from_m, axis) / std::max(1e-12, glm::dot(axis, axis));
        return glm::distance(p, at(b, std::clamp(along, 0.0, 1.0)));
    };
    double low = 0, high = 1;
    for (int i = 0; i < 40; ++i) {
        const double third = (high - low) / 3;
        if (to_b(low + third) < to_b(high - third))
            high -= third;
        else
            low += third;
    }
    return to_b((low + high) / 2) - a.radius_m - b.radius_m;
}

/// How far two people run into each other, the second one standing spacing_m to picture right.
double overlap_m(const Person& left, const Person& right, double spacing_m) {
    double deepest = 0;
    for (const Capsule& a : solids(left))
        for (Capsule b : solids(right)) {
            b.from_m.x += spacing_m;
            b.to_m.x += spacing_m;
            deepest = std::max(deepest, -gap_m(a, b));
        }
    return deepest;
}

}  // namespace

TEST_CASE("standing straight, crown, eyes and chin are as high as measured",
          "[figures][property]") {
    for (const Person& person : {adult("Odile"), adult("Bram", Posture::standing, 1.95),
                                 aged("Nia", 4), aged("Hugo", 11)}) {
        const ReferencePoints points = reference_points(person);
        const BodyMeasures& m = person.measures;
        CHECK(points.crown_m.y == Approx(m.stature_m).margin(exact_m));
        CHECK(points.left_eye_m.y == Approx(m.eye_height_m).margin(exact_m));
        CHECK(points.right_eye_m.y == Approx(m.eye_height_m).margin(exact_m));
        CHECK(points.chin_m.y == Approx(m.stature_m - m.head_height_m).margin(0.001));
    }
}

TEST_CASE("the pupils are the interpupillary breadth apart", "[figures][property]") {
    for (const std::string& name : some_names()) {
        Person person = adult(name);
        person.pose.turn_deg = 35;
        const ReferencePoints points = reference_points(person);
        CHECK(glm::distance(points.left_eye_m, points.right_eye_m) ==
              Approx(person.measures.interpupillary_m).margin(exact_m));
    }
}

TEST_CASE("the ears stand above the place, the face in front of them", "[figures][property]") {
    for (const Posture posture : {Posture::standing, Posture::seated, Posture::kneeling}) {
        const Person person = adult("Sefu", posture);
        const ReferencePoints points = reference_points(person);
        CHECK(ears_m(person).x == Approx(0).margin(exact_m));
        CHECK(ears_m(person).z == Approx(0).margin(0.001));
        // Ears' axis to cornea: less than half a head length of 195 mm, more than 60 mm.
        CHECK(points.left_eye_m.z > 0.060);
        CHECK(points.left_eye_m.z < 0.100);
        CHECK(points.nose_tip_m.z > points.left_eye_m.z);
        CHECK(points.left_eye_m.x > points.right_eye_m.x);
    }
}

TEST_CASE("seated, the crown is the sitting height above the seat", "[figures][property]") {
    for (const Person& person :
         {adult("Ines", Posture::seated), aged("Yuki", 6, Posture::seated)}) {
        const double seat_m = seat_height_m(person);
        CHECK(reference_points(person).crown_m.y ==
              Approx(seat_m + person.measures.sitting_height_m).margin(exact_m));
        CHECK(eyes_m(person).y ==
              Approx(seat_m + person.measures.sitting_eye_height_m).margin(0.001));
    }
    // A dining chair is 43 to 46 cm high: a person of 1.75 m sits on it with feet on the ground.
    CHECK(seat_height_m(adult("Paul", Posture::seated, 1.75)) == Approx(0.44).margin(0.04));
    CHECK(seat_height_m(adult("Paul")) == 0);
}

TEST_CASE("turning right turns the face towards picture right", "[figures][property]") {
    Person person = adult("Marta");
    const double facing_m = eyes_m(person).z;
    person.pose.turn_deg = 90;
    CHECK(eyes_m(person).x == Approx(facing_m).margin(exact_m));
    CHECK(eyes_m(person).z == Approx(0).margin(exact_m));
    person.pose.turn_deg = 20;
    person.pose.head_turn_deg = -20;
    CHECK(eyes_m(person).z == Approx(facing_m).margin(exact_m));
    person.pose.turn_deg = -30;
    person.pose.head_turn_deg = 0;
    CHECK(reference_points(person).nose_tip_m.x < 0);
}

TEST_CASE("leaning carries the whole head back by as much as was said", "[figures][property]") {
    for (const Posture posture : all_postures())
        for (const double turn_deg : {0.0, 40.0, -90.0})
            for (const double lean_m : {-0.3, -0.05, 0.1, 0.35}) {
                Person person = adult("Lena", posture);
                person.pose.turn_deg = turn_deg;
                const ReferencePoints before = reference_points(person);
                person.pose.lean_m = lean_m;
                const ReferencePoints after = reference_points(person);
                CAPTURE(static_cast<int>(posture), turn_deg, lean_m);
                for (const dvec3& moved :
                     {after.left_eye_m - before.left_eye_m, after.nose_tip_m - before.nose_tip_m,
                      after.crown_m - before.crown_m}) {
                    CHECK(moved.z == Approx(-lean_m).margin(exact_m));
                    CHECK(moved.x == Approx(0).margin(exact_m));
                }
            }
}

TEST_CASE("leaning sideways carries the head across the picture and leaves the feet",
          "[figures][property]") {
    for (const Posture posture : all_postures())
        for (const double turn_deg : {0.0, 40.0, 180.0})
            for (const double lean_m : {-0.2, 0.08, 0.25}) {
                Person person = adult("Lena", posture);
                person.pose.turn_deg = turn_deg;
                person.pose.lean_m = 0.06;
                const ReferencePoints before = reference_points(person);
                const Skeleton stood = skeleton(person);
                person.pose.lean_sideways_m = lean_m;
                const ReferencePoints after = reference_points(person);
                const Skeleton leant = skeleton(person);
                CAPTURE(static_cast<int>(posture), turn_deg, lean_m);
                for (const dvec3& moved :
                     {after.left_eye_m - before.left_eye_m, after.right_ear_m - before.right_ear_m,
                      after.chin_m - before.chin_m}) {
                    CHECK(moved.x == Approx(lean_m).margin(exact_m));
                    CHECK(moved.z == Approx(0).margin(exact_m));
                }
                for (const std::size_t side : {0u, 1u})
                    CHECK(glm::distance(stood.legs[side].ankle_m, leant.legs[side].ankle_m) ==
                          Approx(0).margin(exact_m));
            }
    // Both leans together end where one alone does: 65° from upright.
    Person far = adult("Lena");
    far.pose.lean_m = 0.5;
    far.pose.lean_sideways_m = 0.6;
    CHECK(skeleton(far).trunk[1].y > std::cos(65.1 * std::acos(-1.0) / 180));
}

TEST_CASE("on a step, eyes are as high above it as above a seat, and feet stand below",
          "[figures][property]") {
    for (const double age : {5.0, 34.0})
        for (const double share : {0.0, 0.4, 1.0}) {
            Person person = aged("Nia", age, Posture::on_step);
            person.pose.step_m = share * highest_step_m(person.measures);
            CAPTURE(age, share);
            CHECK(eyes_m(person).y ==
                  Approx(person.pose.step_m + person.measures.sitting_eye_height_m).margin(0.001));
            CHECK(seat_height_m(person) == 0);
            const Skeleton joints = skeleton(person);
            for (const Leg& leg : joints.legs) {
                CHECK(leg.ankle_m.y == Approx(joints.build.ankle_height_m).margin(exact_m));
                CHECK(leg.knee_m.y > person.pose.step_m - 0.01);
                CHECK(leg.ankle_m.z > leg.knee_m.z - 0.02);
            }
        }
}

TEST_CASE("the lower a posture, the lower the eyes", "[figures][property]") {
    for (const double age : {4.0, 9.0, 30.0}) {
        double above = 10;
        for (const Posture posture :
             {Posture::standing, Posture::kneeling, Posture::seated, Posture::crouching}) {
            const double eye_m = eyes_m(aged("Igor", age, posture)).y;
            CHECK(eye_m < above + (posture == Posture::seated ? 0.15 : 0.0));
            above = std::min(above, eye_m);
        }
    }
}

TEST_CASE("the head's solid comes last and holds the eyes", "[figures][property]") {
    for (const std::string& name : some_names())
        for (const Posture posture : all_postures()) {
            const Person person = adult(name, posture);
            const std::vector<Capsule> all = solids(person);
            REQUIRE(all.size() > 5);
            const Capsule& head = all.back();
            const ReferencePoints points = reference_points(person);
            const auto distance_m = [&](const dvec3& p) {
                const dvec3 axis = head.to_m - head.from_m;
                const double t =
                    std::clamp(glm::dot(p - head.from_m, axis) / glm::dot(axis, axis), 0.0, 1.0);
                return glm::distance(p, head.from_m + axis * t) - head.radius_m;
            };
            // Noses and chins stand out of it by little; eyes and crown lie at its surface.
            CHECK(distance_m(points.left_eye_m) < 0.012);
            CHECK(distance_m(points.crown_m) < 0.012);
            CHECK(distance_m(points.chin_m) < 0.030);
            for (const Capsule& solid : all) {
                CHECK(solid.radius_m > 0);
                CHECK(std::isfinite(glm::length(solid.from_m) + glm::length(solid.to_m)));
            }
        }
}

// Choirs stand 0.55 m apart, common practice, no source: sleeves touch, and solids are as thick as
// sleeves. The knees of who crouches take more, crossed legs half a stature.
TEST_CASE("neighbours in a row do not pass through each other", "[figures][practice]") {
    const double touching_m = 0.02;
    const std::vector<std::string>& names = some_names();
    for (const Posture posture : all_postures())
        for (const auto arms : {std::optional<Arms>{}, std::optional{Arms::down},
                                std::optional{Arms::behind}, std::optional{Arms::crossed}})
            for (std::size_t i = 0; i + 1 < names.size(); ++i) {
                Person left = adult(names[i], posture), right = adult(names[i + 1], posture);
                left.pose.arms = right.pose.arms = arms;
                CAPTURE(names[i], static_cast<int>(posture), arms ? static_cast<int>(*arms) : -1);
                const double spacing_m = posture == Posture::on_ground   ? 0.85
                                         : posture == Posture::crouching ? 0.70
                                                                         : 0.55;
                CHECK(overlap_m(left, right, spacing_m) < touching_m);
            }
}

// Weight on one leg shifts the hips, not what is focused on.
TEST_CASE("whoever stands on one leg has the head where it was", "[figures][property]") {
    int on_one_leg = 0;
    for (const std::string& name : some_names()) {
        const Person person = adult(name);
        const ReferencePoints points = reference_points(person);
        CHECK(points.crown_m.y == Approx(person.measures.stature_m).margin(exact_m));
        CHECK(points.crown_m.x == Approx(0).margin(exact_m));
        const std::vector<Capsule> all = solids(person);
        // The first solid begins between the hips.
        on_one_leg += std::abs(all.front().from_m.x) > 0.01 ? 1 : 0;
    }
    CHECK(on_one_leg > 0);
    CHECK(on_one_leg < static_cast<int>(some_names().size()));
}
