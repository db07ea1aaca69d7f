#include "people.h"
#include "surface_met.h"

#include "figures/head/head_mesh.h"

#include "base/units.h"

#include <catch2/catch.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

using namespace backrow;
using namespace backrow::figures;
using glm::dvec3;

namespace {

constexpr std::array all_expressions{Expression::neutral, Expression::smile, Expression::laugh,
                                     Expression::eyes_closed};

Person with(Person person, Expression expression) {
    person.pose.expression = expression;
    return person;
}

bool is_pupil(const shapes::Vertex& v) {
    return v.colour.r < 0.0065f && v.colour.g < 0.0065f && v.colour.b < 0.0065f;
}

/// Teeth are the one pale thing of a face that is nearly grey; white of the eye is left out by
/// height.
bool is_tooth(const shapes::Vertex& v, double below_m) {
    return v.position_m.y < below_m && v.colour.r > 0.35f && v.colour.b > 0.6f * v.colour.r;
}

/// The middle of one eye's pupil, 0 = left.
dvec3 pupil_m(const Person& person, int side) {
    dvec3 sum{0};
    double count = 0;
    for (const shapes::Vertex& v : build_figure(person, Detail::near).face.vertices)
        if (is_pupil(v) && (v.position_m.x > 0) == (side == 0)) {
            sum += dvec3{v.position_m};
            ++count;
        }
    REQUIRE(count > 0);
    return sum / count;
}

}  // namespace

// What is focused on is the eye at rest; a smile must not move the plane of focus.
TEST_CASE("no expression moves eyes, ears or crown", "[figures][property]") {
    for (const Expression expression : all_expressions)
        for (const double age : {5.0, 40.0}) {
            const Person person = aged("Nia", age);
            const ReferencePoints rest = reference_points(person);
            const ReferencePoints moved = reference_points(with(person, expression));
            CHECK(moved.left_eye_m == rest.left_eye_m);
            CHECK(moved.right_eye_m == rest.right_eye_m);
            CHECK(moved.left_ear_m == rest.left_ear_m);
            CHECK(moved.crown_m == rest.crown_m);
        }
}

// From memory: a jaw opens by some 40 mm between the teeth at most; a laugh in a photograph takes
// about a third.
TEST_CASE("a laugh lowers the chin, nothing else does", "[figures][from-memory]") {
    const Person person = adult("Kofi");
    const double rest_m = reference_points(with(person, Expression::neutral)).chin_m.y;
    const double laugh_m = rest_m - reference_points(with(person, Expression::laugh)).chin_m.y;
    CHECK(laugh_m > 0.008);
    CHECK(laugh_m < 0.020);
    CHECK(reference_points(with(person, Expression::eyes_closed)).chin_m.y ==
          Approx(rest_m).margin(1e-9));
    CHECK(reference_points(with(person, Expression::smile)).chin_m.y ==
          Approx(rest_m).margin(0.003));
}

TEST_CASE("smiles and laughs show teeth, lips at rest show none", "[figures][property]") {
    for (const std::string name : {"Odile", "Kofi", "Elsa", "Zora"})
        for (const Expression expression : all_expressions) {
            const Person person = with(adult(name), expression);
            const FigureMesh figure = build_figure(person, Detail::near);
            const ReferencePoints points = reference_points(person);
            const auto teeth =
                std::ranges::count_if(figure.face.vertices, [&](const shapes::Vertex& v) {
                    return is_tooth(v, points.nose_tip_m.y - 0.01) &&
                           v.position_m.y > points.chin_m.y + 0.02;
                });
            CAPTURE(name, static_cast<int>(expression));
            if (expression == Expression::smile || expression == Expression::laugh)
                CHECK(teeth > 100);
            else
                CHECK(teeth == 0);
        }
}

// Lids are a millimetre thick and more; a ball that showed through would be met first.
TEST_CASE("shut lids cover the eyes", "[figures][property]") {
    for (const std::string name : {"Odile", "Kofi", "Elsa", "Zora"})
        for (const double age : {4.0, 35.0})
            for (const Detail detail : {Detail::close, Detail::middle, Detail::far}) {
                const Person person = with(aged(name, age), Expression::eyes_closed);
                const FigureMesh figure = build_figure(person, detail);
                const ReferencePoints points = reference_points(person);
                CAPTURE(name, age, static_cast<int>(detail));
                CHECK(std::ranges::none_of(figure.face.vertices, is_pupil));
                for (const dvec3& eye : {points.left_eye_m, points.right_eye_m}) {
                    const Met met = first_met(figure.face, eye);
                    CHECK(met.before_m > -0.002);
                    CHECK(met.before_m < 0.006);
                    CHECK(met.colour.r > met.colour.b);
                }
            }
}

// The middle of the pupil goes round the middle of the ball, 12 mm behind it: 5° are a millimetre.
// The ball is drawn as a shell flatter than that, so some degrees are lost towards its sides.
TEST_CASE("eyes turn to what they look at, and no further than eyes go", "[figures][property]") {
    Person person = adult("Bram");
    person.pose.looks_at_m = std::nullopt;
    const ReferencePoints points = reference_points(person);
    const dvec3 ahead = pupil_m(person, 0);
    const auto turned_deg = [&](double target_deg) {
        const double a = rad_from_deg(target_deg);
        person.pose.looks_at_m = points.left_eye_m + dvec3{std::sin(a), 0, std::cos(a)} * 100.0;
        return deg_from_rad(std::asin((pupil_m(person, 0).x - ahead.x) / 0.012));
    };
    CHECK(turned_deg(0) == Approx(0).margin(0.5));
    CHECK(turned_deg(15) == Approx(15).margin(2));
    CHECK(turned_deg(-30) == Approx(-30).margin(2));
    CHECK(turned_deg(70) == Approx(most_eye_turn_deg).margin(3));
    CHECK(turned_deg(-120) == Approx(-most_eye_turn_deg).margin(3));

    person.pose.looks_at_m = points.left_eye_m + dvec3{0, -100, 1};
    const double down_m = ahead.y - pupil_m(person, 0).y;
    CHECK(deg_from_rad(std::asin(down_m / 0.012)) == Approx(most_eye_rise_deg).margin(3));
}

TEST_CASE("a turned body looks back at the same point", "[figures][property]") {
    for (const double turn_deg : {-30.0, 20.0}) {
        Person person = adult("Ines");
        person.pose.turn_deg = turn_deg;
        const dvec3 ahead = pupil_m(person, 1);
        person.pose.looks_at_m = dvec3{0, person.measures.eye_height_m, 20};
        const dvec3 back = pupil_m(person, 1);
        // Turned to the right, the eyes go left.
        CHECK((back.x - ahead.x) * turn_deg < 0);
        CHECK(std::abs(back.x - ahead.x) > 0.003);
    }
}

// What a face does must not cost more than its clothes: the budgets of figure_test.cpp hold.
TEST_CASE("faces in motion keep within their triangles", "[figures][property]") {
    const auto triangles = [](const FigureMesh& figure) {
        return (figure.body.indices.size() + figure.face.indices.size()) / 3;
    };
    for (const std::string name : {"Odile", "Kofi", "Elsa", "Zora", "Wanja", "Ada"}) {
        const Person person = with(adult(name), Expression::laugh);
        CHECK(triangles(build_figure(person, Detail::close)) <= 42000);
        CHECK(triangles(build_figure(person, Detail::near)) <= 13700);
        CHECK(triangles(build_figure(person, Detail::middle)) <= 4750);
        CHECK(triangles(build_figure(person, Detail::far)) <= 910);
    }
}

// A bridge of skin from lip to lip would show as soon as they part.
TEST_CASE("between parted lips is no skin", "[figures][property]") {
    for (const std::string name : {"Odile", "Sefu", "Tomas"})
        for (const Detail detail : {Detail::close, Detail::near, Detail::middle}) {
            const Person person = with(adult(name), Expression::laugh);
            const Person shut = with(adult(name), Expression::neutral);
            const FigureMesh open_face = build_figure(person, detail);
            const FigureMesh shut_face = build_figure(shut, detail);
            CAPTURE(name, static_cast<int>(detail));
            // The skin comes first and has the same triangles in both; only where the mouth opens
            // may one grow to the height of the gap, a centimetre and more this near to the middle.
            const double lip_m = reference_points(shut).nose_tip_m.y - 0.012;
            std::size_t bridges = 0;
            const auto tall_m = [](const shapes::Mesh& mesh, std::size_t i) {
                const float a = mesh.vertices[mesh.indices[i]].position_m.y,
                            b = mesh.vertices[mesh.indices[i + 1]].position_m.y,
                            c = mesh.vertices[mesh.indices[i + 2]].position_m.y;
                return static_cast<double>(std::max({a, b, c}) - std::min({a, b, c}));
            };
            for (std::size_t i = 0; i < shut_face.face.indices.size() * 2 / 3; i += 3) {
                const glm::vec3 at = shut_face.face.vertices[shut_face.face.indices[i]].position_m;
                if (open_face.face.indices[i] != shut_face.face.indices[i])
                    break;
                if (at.y < lip_m && std::abs(at.x) < 0.015f && at.z > 0.05f &&
                    tall_m(open_face.face, i) > tall_m(shut_face.face, i) + 0.008)
                    ++bridges;
            }
            CHECK(bridges == 0);
        }
}
