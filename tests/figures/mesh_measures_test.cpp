#include "people.h"

#include "figures/measures/anthropometry.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <functional>

// What a tape or calipers would find on the triangles themselves, against the tables that they are
// built from: nothing here asks the figure's own reference points. One per cent is what a
// photographer could not see: 17 mm of a stature, a millimetre and a half of a head's breadth.

using namespace backrow;
using namespace backrow::figures;
using glm::dvec3;

namespace {

constexpr double one_per_cent = 0.01;

/// Bald, in a close jumper of known thickness, arms down: as near as figures come to a survey.
FigureMesh measured_figure(const BodyMeasures& measures, Posture posture = Posture::standing) {
    Person person;
    person.name = "Paul";
    person.measures = measures;
    person.pose.posture = posture;
    if (posture == Posture::standing)
        person.pose.arms = Arms::down;
    person.pose.expression = Expression::neutral;
    person.styling = {.hair = Hair::none, .top = Top::jumper, .bottom = Bottom::trousers};
    return build_figure(person, Detail::close);
}

/// The least and greatest of a coordinate among the points that count.
struct Span {
    double least = 1e9, most = -1e9;
    [[nodiscard]] double length() const { return most - least; }
};
Span span(const FigureMesh& figure, int axis, const std::function<bool(const dvec3&)>& counts) {
    Span all;
    for (const auto* mesh : {&figure.body, &figure.face})
        for (const shapes::Vertex& v : mesh->vertices) {
            const dvec3 p{v.position_m};
            if (!counts(p))
                continue;
            all.least = std::min(all.least, p[axis]);
            all.most = std::max(all.most, p[axis]);
        }
    return all;
}

/// The middles of the two black pupils, the person's left one first.
std::array<dvec3, 2> pupils(const FigureMesh& figure) {
    std::array<dvec3, 2> middle{dvec3{0}, dvec3{0}};
    std::array<int, 2> count{};
    for (const shapes::Vertex& v : figure.face.vertices)
        if (v.colour.r < 0.0065f && v.colour.g < 0.0065f && v.colour.b < 0.0065f) {
            const std::size_t side = v.position_m.x > 0 ? 0 : 1;
            middle[side] += dvec3{v.position_m};
            ++count[side];
        }
    REQUIRE(count[0] > 3);
    REQUIRE(count[1] > 3);
    return {middle[0] / static_cast<double>(count[0]), middle[1] / static_cast<double>(count[1])};
}

double crown_m(const FigureMesh& figure) {
    return span(figure, 1, [](const dvec3&) { return true; }).most;
}

void check_head_and_height(const BodyMeasures& m) {
    const FigureMesh figure = measured_figure(m);
    const auto eyes = pupils(figure);
    const double eye_m = (eyes[0].y + eyes[1].y) / 2;
    const double crown = crown_m(figure);
    CAPTURE(m.stature_m, m.age_years, static_cast<int>(m.sex));
    CHECK(crown == Approx(m.stature_m).epsilon(one_per_cent));
    CHECK(eye_m == Approx(m.eye_height_m).epsilon(one_per_cent));
    CHECK(eyes[0].x - eyes[1].x == Approx(m.interpupillary_m).epsilon(one_per_cent));

    double lowest_face = 1e9;
    for (const shapes::Vertex& v : figure.face.vertices)
        lowest_face = std::min(lowest_face, static_cast<double>(v.position_m.y));
    CHECK(crown - lowest_face == Approx(m.head_height_m).epsilon(one_per_cent));

    // Above the ears, which stand out further.
    const double above_ears_m = eye_m + 0.1 * m.head_height_m;
    const Span across = span(figure, 0, [&](const dvec3& p) { return p.y > above_ears_m; });
    CHECK(across.length() == Approx(m.head_breadth_m).epsilon(one_per_cent));
    // From between the brows to the back of the head.
    const double brow_m = eye_m + 0.06 * m.head_height_m, top_m = eye_m + 0.14 * m.head_height_m;
    const double front_m = span(figure, 2, [&](const dvec3& p) {
                               return std::abs(p.x) < 0.006 && p.y > brow_m && p.y < top_m;
                           }).most;
    const double back_m = span(figure, 2, [&](const dvec3& p) { return p.y > above_ears_m; }).least;
    CHECK(front_m - back_m == Approx(m.head_length_m).epsilon(one_per_cent));
}

void check_shoulders_and_chest(const BodyMeasures& m) {
    const FigureMesh figure = measured_figure(m);
    const double u = m.stature_m;
    const double cloth_m = 0.009 * std::sqrt(u / 1.7);
    const double chin_m = u - m.head_height_m;
    CAPTURE(u, m.age_years, static_cast<int>(m.sex));
    const Span deltoids = span(figure, 0, [&](const dvec3& p) {
        return p.y < chin_m - 0.063 * u && p.y > chin_m - 0.125 * u;
    });
    CHECK(deltoids.length() - 2 * cloth_m == Approx(m.bideltoid_breadth_m).epsilon(one_per_cent));
    // Calipers are held level: the deepest of several levels counts.
    double chest_m = 0;
    for (double level = chin_m - 0.10 * u; level > chin_m - 0.24 * u; level -= 0.01 * u)
        chest_m = std::max(chest_m, span(figure, 2, [&](const dvec3& p) {
                                        return std::abs(p.x) < 0.07 * u &&
                                               std::abs(p.y - level) < 0.012 * u;
                                    }).length());
    CHECK(chest_m - 2 * cloth_m == Approx(m.chest_depth_m).epsilon(one_per_cent));
}

void check_sitting(const BodyMeasures& m) {
    const FigureMesh figure = measured_figure(m, Posture::seated);
    const double u = m.stature_m;
    const double seat_m = span(figure, 1, [&](const dvec3& p) {
                              return std::abs(p.x) < 0.12 * u && p.z < 0.03 * u && p.z > -0.12 * u;
                          }).least;
    CAPTURE(u, m.age_years, static_cast<int>(m.sex));
    CHECK(crown_m(figure) - seat_m == Approx(m.sitting_height_m).epsilon(one_per_cent));
    const auto eyes = pupils(figure);
    CHECK(eyes[0].y - seat_m == Approx(m.sitting_eye_height_m).epsilon(one_per_cent));
}

std::vector<BodyMeasures> surveyed() {
    std::vector<BodyMeasures> all;
    for (std::size_t i = 0; i < 3; ++i) {
        all.push_back(body_measures(men.stature_m[i], std::nullopt, Sex::male));
        all.push_back(body_measures(women.stature_m[i], std::nullopt, Sex::female));
    }
    return all;
}

}  // namespace

// Source: [ANSUR2], 5th, 50th and 95th percentile; head height as worked out in anthropometry.h.
TEST_CASE("heads, eyes and statures of the triangles are those of the survey",
          "[figures][published]") {
    for (const BodyMeasures& m : surveyed())
        check_head_and_height(m);
}

// Source: [ANSUR2], as above; women's from memory.
TEST_CASE("shoulders and chests of the triangles are those of the survey", "[figures][published]") {
    for (const BodyMeasures& m : surveyed())
        check_shoulders_and_chest(m);
}

// Source: [ANSUR2].
TEST_CASE("the triangles of somebody seated are as high above the seat as in the survey",
          "[figures][published]") {
    for (const BodyMeasures& m : surveyed())
        check_sitting(m);
}

// Source: [CDC2000] medians; heads as shares of an adult's from memory.
TEST_CASE("children's triangles are as high and their heads as large as the tables say",
          "[figures][from-memory]") {
    for (const double age : {2.0, 4.0, 7.0, 10.0, 13.0, 16.0})
        for (const Sex sex : {Sex::female, Sex::male}) {
            const BodyMeasures m = body_measures(stature_m_from_age(age, sex), age, sex);
            check_head_and_height(m);
            check_sitting(m);
        }
}
