#include "people.h"

#include "figures/appearance.h"
#include "figures/clothes/cloth.h"
#include "figures/clothes/garments.h"

#include <catch2/catch.hpp>
#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <vector>

using namespace backrow;
using namespace backrow::figures;
using glm::dvec3;

namespace {

Person dressed(const std::string& name, Top top, Posture posture = Posture::standing) {
    Person person = adult(name, posture);
    person.styling = {.top = top, .bottom = Bottom::trousers};
    return person;
}

TopFields top_of(const Person& person) {
    const Skeleton joints = skeleton(person);
    const Appearance look = appearance(person);
    return top_of(joints, look, person.measures, trousers_of(joints, look, person.measures).seat);
}

/// What a ray from inside a figure meets last: how far away, and the colour there; 0 and black for
/// nothing.
struct Outermost {
    double range_m = 0;
    dvec3 colour{0};
};
Outermost outermost(const FigureMesh& figure, const dvec3& from, const dvec3& along) {
    Outermost last;
    for (const shapes::Mesh* mesh : {&figure.body, &figure.face})
        for (std::size_t i = 0; i < mesh->indices.size(); i += 3) {
            std::array<const shapes::Vertex*, 3> v{};
            for (std::size_t k = 0; k < 3; ++k)
                v[k] = &mesh->vertices[mesh->indices[i + k]];
            const dvec3 a{v[0]->position_m}, ab = dvec3{v[1]->position_m} - a,
                                             ac = dvec3{v[2]->position_m} - a;
            const dvec3 p = glm::cross(along, ac);
            const double area = glm::dot(ab, p);
            if (std::abs(area) < 1e-14)
                continue;
            const dvec3 off = from - a, q = glm::cross(off, ab);
            const double s = glm::dot(off, p) / area, t = glm::dot(along, q) / area;
            const double distance = glm::dot(ac, q) / area;
            if (s < 0 || t < 0 || s + t > 1 || distance <= last.range_m)
                continue;
            last = {distance, dvec3{v[0]->colour} * (1 - s - t) + dvec3{v[1]->colour} * s +
                                  dvec3{v[2]->colour} * t};
        }
    return last;
}

}  // namespace

// Smoothly joined with the trunk, a sleeve would swell towards the hip by millimetres. Tolerance:
// the halving of the ray's reach, 0.13 m / 2¹², and the taper of the sleeve across its axis.
TEST_CASE("a sleeve is as thick towards the hip as away from it", "[figures][property]") {
    for (const std::string& name : some_names())
        for (const Top top : {Top::shirt, Top::jumper, Top::jacket}) {
            const Person person = dressed(name, top);
            const Skeleton joints = skeleton(person);
            const TopFields fields = top_of(person);
            for (const std::size_t side : {0u, 1u}) {
                const RoundedCone end =
                    sleeve_end(joints, appearance(person), person.measures, side);
                const dvec3 middle = glm::mix(end.from_m, end.to_m, 0.5);
                dvec3 aside = joints.trunk[0];
                aside = glm::normalize(aside - end.along() * glm::dot(aside, end.along()));
                const double left = leaves_at(fields.sleeves[side], middle, aside, 0.13);
                const double right = leaves_at(fields.sleeves[side], middle, -aside, 0.13);
                CAPTURE(name, side);
                CHECK(left == Approx(right).margin(0.0005));
            }
        }
}

// Its points lie on one plane but for the turned-in edge, a millimetre and a half above it.
TEST_CASE("the hem of a shirt is level all round", "[figures][property]") {
    for (const Top top : {Top::shirt, Top::tee, Top::jumper, Top::jacket}) {
        const Person person = dressed("Wanja", top);
        const Skeleton joints = skeleton(person);
        const Appearance look = appearance(person);
        const TopFields fields = top_of(person);
        const shapes::Field neck = neck_of(joints, person.measures, look.feminine);
        shapes::Mesh cloth;
        add_top(joints, look, person.measures, fields,
                {joints, fields.body, neck, person.measures.stature_m}, {18, 24, 6, 10}, cloth);
        const double hem_m = joints.hips_m.y + hem_up_m(joints, look, person.measures, 0.0);
        std::array<double, 12> lowest{};
        lowest.fill(1e9);
        // Arms hang further out than a third of a metre from hand to hand.
        for (const shapes::Vertex& v : cloth.vertices)
            if (std::abs(v.position_m.x) < 0.15f || v.position_m.y > hem_m + 0.3) {
                const double around = std::atan2(v.position_m.x, v.position_m.z);
                const auto sector = static_cast<std::size_t>(
                    std::clamp((around / std::numbers::pi + 1) * 6, 0.0, 11.0));
                lowest[sector] = std::min(lowest[sector], static_cast<double>(v.position_m.y));
            }
        for (const std::size_t sector : {0u, 1u, 5u, 6u, 10u, 11u})
            CHECK(lowest[sector] == Approx(hem_m).margin(0.002));
    }
}

TEST_CASE("whoever kneels or crouches has come in trousers", "[figures][property]") {
    int skirts = 0;
    for (const std::string& name : some_names()) {
        skirts += appearance(adult(name)).bottom == Bottom::skirt ? 1 : 0;
        for (const Posture posture : all_postures())
            if (wears_trousers(posture))
                CHECK(appearance(adult(name, posture)).bottom == Bottom::trousers);
    }
    CHECK(skirts > 0);
}

// The few wide triangles of small figures once let the forehead through.
TEST_CASE("no skin shows through a headscarf, near or far", "[figures][regression]") {
    for (const Detail detail : {Detail::close, Detail::near, Detail::middle, Detail::far})
        for (const double age : {6.0, 40.0}) {
            Person person = aged("Zora", age);
            person.styling.headwear = Headwear::headscarf;
            const Appearance look = appearance(person);
            const FigureMesh figure = build_figure(person, detail);
            const ReferencePoints points = reference_points(person);
            const dvec3 middle = (points.left_ear_m + points.right_ear_m) / 2.0;
            const dvec3 scarf = look.headwear_colour / glm::length(look.headwear_colour);
            int through = 0;
            // From the top of the forehead over the crown to the back of the head.
            for (int r = 0; r < 8; ++r)
                for (int i = 0; i < 24; ++i) {
                    const double up = (0.30 + 0.09 * r) * std::numbers::pi / 2;
                    const double around = 2 * std::numbers::pi * i / 24;
                    if (std::cos(around) > 0.2 && up < 0.85)
                        continue;  // The face is bare.
                    const dvec3 along{std::sin(around) * std::cos(up), std::sin(up),
                                      std::cos(around) * std::cos(up)};
                    const dvec3 colour = outermost(figure, middle, along).colour;
                    through += glm::dot(glm::normalize(colour), scarf) > 0.999 ? 0 : 1;
                }
            CAPTURE(static_cast<int>(detail), age);
            CHECK(through == 0);
        }
}

// Its rows once ran the other way round: the cap was lit from within, darker than the neck.
TEST_CASE("a headscarf is lit from outside all over", "[figures][regression]") {
    for (const Detail detail : {Detail::close, Detail::near, Detail::middle, Detail::far}) {
        Person person = adult("Zora");
        person.styling.headwear = Headwear::headscarf;
        const dvec3 scarf = glm::normalize(appearance(person).headwear_colour);
        const FigureMesh figure = build_figure(person, detail);
        const ReferencePoints points = reference_points(person);
        const dvec3 middle = (points.left_ear_m + points.right_ear_m) / 2.0;
        int cap = 0, inwards = 0;
        for (const shapes::Vertex& v : figure.body.vertices) {
            const dvec3 from_middle = dvec3{v.position_m} - middle;
            if (from_middle.y < 0.03 || glm::dot(glm::normalize(dvec3{v.colour}), scarf) < 0.999)
                continue;
            ++cap;
            inwards += glm::dot(from_middle, dvec3{v.normal}) < 0 ? 1 : 0;
        }
        CAPTURE(static_cast<int>(detail));
        CHECK(cap > 10);
        CHECK(inwards == 0);
    }
}

// From chest to arm the front of the shoulder falls back. Tolerance: the open edge of a sleeve lies
// 0.0014 statures, two and a half millimetres, over the body.
TEST_CASE("no groove parts sleeves from the chest", "[figures][regression]") {
    for (const char* name : {"Wanja", "Odile", "Kofi", "Ada"})
        for (const Top top : {Top::shirt, Top::tee, Top::jumper, Top::jacket, Top::dress}) {
            Person person = dressed(name, top);
            person.pose.arms = Arms::down;
            const Skeleton joints = skeleton(person);
            const FigureMesh figure = build_figure(person, Detail::close);
            const double out_m = person.measures.bideltoid_breadth_m / 2;
            const double u = person.measures.stature_m;
            for (const std::size_t side : {0u, 1u}) {
                const dvec3 outwards = joints.trunk[0] * (side == 0 ? 1.0 : -1.0);
                for (const double below_joint : {0.015, 0.025, 0.035}) {
                    double least_m = 1e9, rise_m = 0;
                    for (double x = 0.55 * out_m; x < 0.95 * out_m; x += 0.004) {
                        const dvec3 from = joints.arms[side].shoulder_m +
                                           outwards * (x - joints.build.shoulder_half_m) -
                                           joints.trunk[1] * (below_joint * u);
                        const double here_m = outermost(figure, from, joints.trunk[2]).range_m;
                        rise_m = std::max(rise_m, here_m - least_m);
                        least_m = std::min(least_m, here_m);
                    }
                    CAPTURE(name, static_cast<int>(top), side, below_joint);
                    CHECK(rise_m < 0.003);
                }
            }
        }
}

// The seam is a belt of the same cloth, three millimetres thick; folds above it are as deep.
TEST_CASE("nothing gapes at the waist of a dress", "[figures][property]") {
    for (const char* name : {"Odile", "Ada", "Zora"})
        for (const Detail detail : {Detail::close, Detail::near}) {
            Person person = adult(name);
            person.styling.top = Top::dress;
            person.pose.arms = Arms::down;
            const double u = person.measures.stature_m;
            const Skeleton joints = skeleton(person);
            const double belt_m = belt_up_m(appearance(person), person.measures);
            const FigureMesh figure = build_figure(person, detail);
            for (int i = -5; i <= 5; ++i)
                for (const double facing : {1.0, -1.0}) {
                    // Forearms hang beside it.
                    const double around = 0.15 * i;
                    const dvec3 out = joints.trunk[0] * std::sin(around) +
                                      joints.trunk[2] * (facing * std::cos(around));
                    const auto radius_m = [&](double up_m) {
                        return outermost(figure, joints.on_trunk({0, up_m, -0.008 * u}), out)
                            .range_m;
                    };
                    const double least_m = std::min(radius_m(belt_m + 0.025 * u), radius_m(belt_m));
                    for (double up = 0; up < 0.025; up += 0.002) {
                        CAPTURE(name, static_cast<int>(detail), around, facing, up);
                        CHECK(radius_m(belt_m + up * u) > least_m - 0.006);
                    }
                }
        }
}
