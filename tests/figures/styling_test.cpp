#include "people.h"
#include "surface_met.h"

#include "figures/appearance.h"

#include <catch2/catch.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>

using namespace backrow;
using namespace backrow::figures;
using glm::dvec3;

namespace {

/// Every hair style with what can be worn over and on it.
std::vector<Styling> stylings() {
    std::vector<Styling> all;
    for (const Hair hair : {Hair::short_cut, Hair::long_cut, Hair::tied, Hair::curly, Hair::none})
        for (const Headwear headwear : {Headwear::none, Headwear::hat, Headwear::headscarf})
            all.push_back({.hair = hair, .headwear = headwear, .beard = true, .glasses = true});
    for (const Top top : {Top::shirt, Top::jumper, Top::jacket, Top::tee, Top::blouse, Top::dress})
        for (const Bottom bottom : {Bottom::trousers, Bottom::skirt})
            all.push_back({.top = top, .bottom = bottom, .headwear = Headwear::headscarf});
    return all;
}

/// How far before a point the nearest triangle stands, seen along z; below 0 where none does.
double covered_by_m(const shapes::Mesh& mesh, const dvec3& point) {
    return first_met(mesh, point).before_m;
}

}  // namespace

// Half a millimetre is left for the glint, which lies on the cornea.
TEST_CASE("neither glasses nor beard nor headwear hides the eyes", "[figures][property]") {
    for (const Styling& styling : stylings())
        for (const double age : {5.0, 35.0}) {
            Person person = aged("Hugo", age);
            person.styling = styling;
            const ReferencePoints points = reference_points(person);
            const FigureMesh figure = build_figure(person, Detail::near);
            for (const dvec3& eye : {points.left_eye_m, points.right_eye_m}) {
                CHECK(covered_by_m(figure.face, eye) < 0.0005);
                CHECK(covered_by_m(figure.body, eye) < 0.0005);
            }
        }
}

TEST_CASE("what is worn leaves eyes, chin and crown where they were", "[figures][property]") {
    const ReferencePoints bare = reference_points(adult("Sefu"));
    for (const Styling& styling : stylings()) {
        Person person = adult("Sefu");
        person.styling = styling;
        const ReferencePoints points = reference_points(person);
        CHECK(points.left_eye_m == bare.left_eye_m);
        CHECK(points.chin_m == bare.chin_m);
        CHECK(points.crown_m == bare.crown_m);
    }
}

TEST_CASE("the colour of a uniform changes nothing else about anybody", "[figures][property]") {
    for (const Top top : {Top::shirt, Top::jacket, Top::dress}) {
        Person person = adult("Zora");
        person.styling.top = top;
        person.styling.headwear = Headwear::hat;
        const Appearance own = appearance(person);
        person.styling.top_colour = glm::dvec3{0.1, 0.2, 0.3};
        person.styling.bottom_colour = glm::dvec3{0.3, 0.2, 0.1};
        person.styling.headwear_colour = glm::dvec3{0.2, 0.1, 0.3};
        const Appearance uniform = appearance(person);
        CHECK(uniform.top_colour == *person.styling.top_colour);
        CHECK(uniform.headwear_colour == *person.styling.headwear_colour);
        // A dress is of one cloth.
        CHECK(uniform.bottom_colour ==
              (top == Top::dress ? *person.styling.top_colour : *person.styling.bottom_colour));
        CHECK(uniform.bottom == own.bottom);
        CHECK(uniform.under_colour == own.under_colour);
        CHECK(uniform.shoe_colour == own.shoe_colour);
        CHECK(uniform.hair == own.hair);
        CHECK(uniform.fold_phase_rad == own.fold_phase_rad);
    }
}

TEST_CASE("dressed figures keep within their triangles", "[figures][property]") {
    const auto triangles = [](const FigureMesh& figure) {
        return (figure.body.indices.size() + figure.face.indices.size()) / 3;
    };
    for (const Styling& styling : stylings())
        for (const double age : {5.0, 33.0}) {
            Person person = aged("Zora", age);
            person.styling = styling;
            CAPTURE(age, styling.headwear == Headwear::hat, styling.headwear == Headwear::headscarf,
                    styling.hair.has_value(), styling.top.has_value());
            CHECK(triangles(build_figure(person, Detail::close)) <= 40000);
            CHECK(triangles(build_figure(person, Detail::near)) <= 12000);
            CHECK(triangles(build_figure(person, Detail::middle)) <= 4000);
            CHECK(triangles(build_figure(person, Detail::far)) <= 800);
        }
}

TEST_CASE("the solids reach as high as a hat", "[figures][property]") {
    Person person = adult("Bram");
    person.styling.headwear = Headwear::hat;
    double mesh_m = 0, solids_m = 0;
    for (const shapes::Vertex& v : build_figure(person, Detail::near).body.vertices)
        mesh_m = std::max(mesh_m, static_cast<double>(v.position_m.y));
    for (const Capsule& solid : solids(person))
        solids_m = std::max(solids_m, std::max(solid.from_m.y, solid.to_m.y) + solid.radius_m);
    CHECK(mesh_m > person.measures.stature_m);
    // The tolerance of the test of solids and figures: cloth and hair stand out by that much.
    CHECK(mesh_m < solids_m + 0.035);
}
