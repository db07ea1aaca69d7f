#include "people.h"

#include <catch2/catch.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>
#include <cstring>
#include <map>

using namespace backrow;
using namespace backrow::figures;
using glm::dvec3;

namespace {

double nearest_m(const shapes::Mesh& mesh, const dvec3& point) {
    double nearest = 1e9;
    for (const shapes::Vertex& v : mesh.vertices)
        nearest = std::min(nearest, glm::distance(dvec3{v.position_m}, point));
    return nearest;
}

double lowest_m(const FigureMesh& figure) {
    double lowest = 1e9;
    for (const auto* mesh : {&figure.body, &figure.face})
        for (const shapes::Vertex& v : mesh->vertices)
            lowest = std::min(lowest, static_cast<double>(v.position_m.y));
    return lowest;
}

std::size_t triangles(const FigureMesh& figure) {
    return (figure.body.indices.size() + figure.face.indices.size()) / 3;
}

void check_sound(const shapes::Mesh& mesh) {
    std::size_t unsound = 0;
    for (const shapes::Vertex& v : mesh.vertices) {
        const bool sound = std::isfinite(v.position_m.x + v.position_m.y + v.position_m.z) &&
                           std::abs(glm::length(v.normal) - 1) < 1e-4f && v.colour.r >= 0 &&
                           v.colour.g >= 0 && v.colour.b >= 0 && v.colour.r <= 1 &&
                           v.colour.g <= 1 && v.colour.b <= 1 && v.ambient_visibility >= 0 &&
                           v.ambient_visibility <= 1;
        unsound += sound ? 0 : 1;
    }
    CHECK(unsound == 0);
    REQUIRE(mesh.indices.size() % 3 == 0);
    std::size_t broken = 0;
    for (std::size_t i = 0; i < mesh.indices.size(); i += 3) {
        const auto a = mesh.indices[i], b = mesh.indices[i + 1], c = mesh.indices[i + 2];
        if (a >= mesh.vertices.size() || b >= mesh.vertices.size() || c >= mesh.vertices.size() ||
            a == b || b == c || a == c)
            ++broken;
    }
    CHECK(broken == 0);
}

/// Share of triangles that face the way their corners' normals do.
double share_facing_out(const shapes::Mesh& mesh) {
    std::size_t right = 0, all = 0;
    for (std::size_t i = 0; i < mesh.indices.size(); i += 3) {
        const shapes::Vertex& a = mesh.vertices[mesh.indices[i]];
        const shapes::Vertex& b = mesh.vertices[mesh.indices[i + 1]];
        const shapes::Vertex& c = mesh.vertices[mesh.indices[i + 2]];
        const glm::vec3 n = glm::cross(b.position_m - a.position_m, c.position_m - a.position_m);
        right += glm::dot(n, a.normal + b.normal + c.normal) >= 0 ? 1 : 0;
        ++all;
    }
    return static_cast<double>(right) / static_cast<double>(all);
}

}  // namespace

// A probe is drawn at the reference point, so the surface must be there: within a millimetre, which
// at 4 m and 50 mm is two of the camera's pixels of depth of blur at most.
TEST_CASE("corneas, nose tip, chin and crown of the mesh lie at the reference points",
          "[figures][property]") {
    for (const Person& person :
         {adult("Odile"), adult("Kofi", Posture::seated, 1.9), aged("Elsa", 4), aged("Ravi", 10)}) {
        Person posed = person;
        posed.pose.turn_deg = 25;
        posed.pose.head_turn_deg = -10;
        posed.pose.lean_m = 0.12;
        const ReferencePoints points = reference_points(posed);
        const FigureMesh figure = build_figure(posed, Detail::near);
        CAPTURE(person.name);
        CHECK(nearest_m(figure.face, points.left_eye_m) < 0.001);
        CHECK(nearest_m(figure.face, points.right_eye_m) < 0.001);
        CHECK(nearest_m(figure.face, points.nose_tip_m) < 0.001);
        CHECK(std::min(nearest_m(figure.face, points.chin_m),
                       nearest_m(figure.body, points.chin_m)) < 0.001);
        CHECK(nearest_m(figure.body, points.crown_m) < 0.001);
    }
}

TEST_CASE("the pupil is the foremost point of the eye and nothing hides it",
          "[figures][property]") {
    for (const std::string& name : some_names())
        for (const double age : {4.0, 12.0, 35.0}) {
            const Person person = aged(name, age);
            const ReferencePoints points = reference_points(person);
            const FigureMesh figure = build_figure(person, Detail::near);
            CAPTURE(name, age);
            // Look along −z at both eyes: the first surface met must be the cornea itself, but for
            // the glint, which lies a few tenths of a millimetre before it.
            for (const dvec3& eye : {points.left_eye_m, points.right_eye_m})
                for (const auto* mesh : {&figure.face, &figure.body})
                    for (std::size_t i = 0; i < mesh->indices.size(); i += 3) {
                        dvec3 p[3];
                        for (std::size_t k = 0; k < 3; ++k)
                            p[k] = dvec3{mesh->vertices[mesh->indices[i + k]].position_m} - eye;
                        const auto cross = [](const dvec3& a, const dvec3& b) {
                            return a.x * b.y - a.y * b.x;
                        };
                        const double area = cross(p[1] - p[0], p[2] - p[0]);
                        const double u = cross(p[1], p[2]) / area, v = cross(p[2], p[0]) / area;
                        if (std::abs(area) < 1e-14 || u < 0 || v < 0 || u + v > 1)
                            continue;
                        const double z = u * p[0].z + v * p[1].z + (1 - u - v) * p[2].z;
                        CHECK(z < 0.0005);
                    }
        }
}

TEST_CASE("everybody stands, sits, kneels or crouches on the ground", "[figures][property]") {
    for (const Posture posture : all_postures())
        for (const std::string& name : some_names())
            for (const double age : {3.0, 8.0, 15.0, 40.0}) {
                Person person = aged(name, age, posture);
                person.pose.turn_deg = age * 4;
                const FigureMesh figure = build_figure(person, Detail::middle);
                CAPTURE(name, age, static_cast<int>(posture));
                CHECK(std::abs(lowest_m(figure)) <= 0.005);
                check_sound(figure.body);
                check_sound(figure.face);
            }
}

TEST_CASE("extreme people and poses are finite", "[figures][property]") {
    for (const double stature_m : {least_stature_m, 1.0, greatest_stature_m})
        for (const double age : {2.0, 30.0})
            for (const Posture posture : all_postures())
                for (const double lean_m : {-0.6, 0.6}) {
                    Person person;
                    person.name = "Ada";
                    person.measures = body_measures(stature_m, age);
                    person.pose = {posture, -180, 80, lean_m};
                    const FigureMesh figure = build_figure(person, Detail::middle);
                    CAPTURE(stature_m, age, static_cast<int>(posture), lean_m);
                    check_sound(figure.body);
                    check_sound(figure.face);
                }
}

// At most eight people are built at their closest. Every name in two postures, every posture with
// six names.
TEST_CASE("figures keep within their triangles", "[figures][property]") {
    const std::vector<Posture>& postures = all_postures();
    for (std::size_t i = 0; i < some_names().size(); ++i)
        for (const Posture posture :
             {postures[i % postures.size()], postures[(i + 3) % postures.size()]})
            for (const double age : {5.0, 33.0}) {
                const Person person = aged(some_names()[i], age, posture);
                CAPTURE(person.name, age, static_cast<int>(posture));
                CHECK(triangles(build_figure(person, Detail::close)) <= 40000);
                CHECK(triangles(build_figure(person, Detail::near)) <= 12000);
                CHECK(triangles(build_figure(person, Detail::middle)) <= 4000);
                CHECK(triangles(build_figure(person, Detail::far)) <= 800);
            }
}

// The few that do not agree lie where a surface turns sharply: corners of the eyes, finger tips.
TEST_CASE("triangles are counter-clockwise from outside", "[figures][property]") {
    for (const Detail detail : {Detail::close, Detail::near, Detail::middle, Detail::far}) {
        const FigureMesh figure = build_figure(adult("Zora"), detail);
        CHECK(share_facing_out(figure.body) > 0.97);
        CHECK(share_facing_out(figure.face) > 0.97);
    }
}

TEST_CASE("a name always makes the same figure, another name another", "[figures][property]") {
    const FigureMesh once = build_figure(adult("Wanja"), Detail::near);
    const FigureMesh again = build_figure(adult("Wanja"), Detail::near);
    REQUIRE(once.body.vertices.size() == again.body.vertices.size());
    REQUIRE(once.face.vertices.size() == again.face.vertices.size());
    CHECK(once.body.indices == again.body.indices);
    bool same = true;
    for (std::size_t i = 0; i < once.body.vertices.size(); ++i)
        same = same && once.body.vertices[i].position_m == again.body.vertices[i].position_m &&
               once.body.vertices[i].colour == again.body.vertices[i].colour;
    CHECK(same);
    const FigureMesh other = build_figure(adult("Tomas"), Detail::near);
    bool differs = other.face.vertices.size() != once.face.vertices.size();
    for (std::size_t i = 0; !differs && i < once.face.vertices.size(); ++i)
        differs = other.face.vertices[i].position_m != once.face.vertices[i].position_m;
    CHECK(differs);
}

// Choirs stand 0.55 m apart: common practice, no source. A median adult's bideltoid breadth is
// 0.48 m; sleeves and elbows may fill the gap but not reach far into the neighbour.
TEST_CASE("neighbours 0.55 m apart do not run into each other", "[figures][practice]") {
    for (const std::string& name : some_names()) {
        const FigureMesh figure = build_figure(adult(name), Detail::middle);
        double left = 0, right = 0;
        for (const shapes::Vertex& v : figure.body.vertices) {
            left = std::min(left, static_cast<double>(v.position_m.x));
            right = std::max(right, static_cast<double>(v.position_m.x));
        }
        CAPTURE(name);
        CHECK(right < 0.275 + 0.02);
        CHECK(left > -0.275 - 0.02);
    }
}

// The mesh is as wide and as high as the person was measured: the solids stand in for it.
TEST_CASE("the solids cover most of the figure", "[figures][property]") {
    for (const Posture posture : all_postures()) {
        const Person person = adult("Hugo", posture);
        const std::vector<Capsule> all = solids(person);
        const FigureMesh figure = build_figure(person, Detail::middle);
        std::size_t near = 0;
        for (const shapes::Vertex& v : figure.body.vertices) {
            double nearest = 1e9;
            for (const Capsule& solid : all) {
                const dvec3 axis = solid.to_m - solid.from_m;
                const dvec3 off = dvec3{v.position_m} - solid.from_m;
                const double t = std::clamp(
                    glm::dot(off, axis) / std::max(1e-12, glm::dot(axis, axis)), 0.0, 1.0);
                nearest = std::min(nearest, glm::length(off - axis * t) - solid.radius_m);
            }
            near += nearest < 0.035 ? 1 : 0;
        }
        CHECK(static_cast<double>(near) > 0.95 * static_cast<double>(figure.body.vertices.size()));
    }
}
