#include "people.h"

#include "figures/appearance.h"
#include "figures/skin/skin_detail.h"

#include "base/colour.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <vector>

using namespace backrow;
using namespace backrow::figures;

namespace {

double linear_green(const Image<Rgba8>& sheet, int column, int row) {
    return static_cast<double>(
        linear_from_srgb(static_cast<float>(sheet.at(column, row).g) / 255.0f));
}

double mean_green(const Image<Rgba8>& sheet, int first_row, int rows) {
    double sum = 0;
    for (int row = first_row; row < first_row + rows; ++row)
        for (int column = 0; column < sheet.width_px(); ++column)
            sum += linear_green(sheet, column, row);
    return sum / (static_cast<double>(rows) * sheet.width_px());
}

/// The mean over a blur disc.
double blurred_green(const Image<Rgba8>& sheet, int column, int row, double blur_texels) {
    const double radius = blur_texels / 2;
    const int reach = static_cast<int>(std::ceil(radius));
    double sum = 0, weight = 0;
    for (int y = -reach; y <= reach; ++y)
        for (int x = -reach; x <= reach; ++x) {
            // A texel at the rim counts by how far its middle lies inside.
            const double inside = std::clamp(radius + 0.5 - std::hypot(x, y), 0.0, 1.0);
            sum += inside * linear_green(sheet, column + x, row + y);
            weight += inside;
        }
    return sum / weight;
}

/// What a blur disc leaves of a cheek's detail: the root mean square of its differences from the
/// mean of the millimetre and a half around, over that mean.
double detail_of_cheek(const Image<Rgba8>& sheet, double blur_texels) {
    // A square of 20 mm below the left eye.
    const int left = sheet::width / 2 + 100, top = 470, side = 80;
    double sum = 0;
    for (int row = top; row < top + side; ++row)
        for (int column = left; column < left + side; ++column) {
            const double around = blurred_green(sheet, column, row, 1.5 * sheet::per_mm);
            const double off = blurred_green(sheet, column, row, blur_texels) / around - 1;
            sum += off * off;
        }
    return std::sqrt(sum / (side * side));
}

const Image<Rgba8>& grown_sheet() {
    static const Image<Rgba8> sheet = skin_detail_sheet({.age = SkinAge::grown});
    return sheet;
}

}  // namespace

// Four texels are a millimetre, so a face of 900 pixels from chin to crown has a pixel a texel:
// 900 over the 230 mm of a head is 3.9. A disc of one pixel leaves what a pixel shows. A ripple
// that a disc of three pixels leaves half of is 4.3 pixels long (2·J1(x)/x = ½ at x = 2.2), a
// millimetre: so the detail is finer than that, and a face in which it is gone is a face out of
// focus.
TEST_CASE("pores are there at one pixel of blur and lose more than half at three",
          "[figures][property]") {
    const double sharp = detail_of_cheek(grown_sheet(), 1);
    CHECK(sharp > 0.04);
    CHECK(detail_of_cheek(grown_sheet(), 3) < 0.5 * sharp);
}

// Tolerance: half a step of eight bits is 0.4 % at this brightness, and the brightest texels are
// cut off at white.
TEST_CASE("skin and hair with skin_detail are as bright as without", "[figures][property]") {
    for (const SkinDetailKind& kind :
         {SkinDetailKind{.age = SkinAge::child, .freckled = true},
          SkinDetailKind{.age = SkinAge::old, .shaven = true, .curled = true}}) {
        const Image<Rgba8> sheet = skin_detail_sheet(kind);
        CHECK(mean_green(sheet, 0, sheet::face_rows) ==
              Approx(skin_detail_mean_at(face_uv({0, 0}))).epsilon(0.02));
        CHECK(mean_green(sheet, sheet::skin_row, sheet::skin_rows) ==
              Approx(skin_detail_mean_at(skin_uv(10, 10))).epsilon(0.02));
        CHECK(mean_green(sheet, sheet::hair_row, sheet::hair_rows) ==
              Approx(skin_detail_mean_at(hair_uv(10, 10))).epsilon(0.02));
    }
}

TEST_CASE("cloth lies where the sheet is white, skin and hair do not", "[figures][property]") {
    const Image<Rgba8>& sheet = grown_sheet();
    // A place on the line between two texels is the mean of its four, across the sheet's edges.
    for (const int column : {0, sheet.width_px() - 1})
        for (const int row : {0, sheet.height_px() - 1})
            CHECK(sheet.at(column, row) == Rgba8{255, 255, 255, 255});

    const Person person = adult("Odile");
    const FigureMesh bare = build_figure(person, Detail::near);
    const FigureMesh detailed = build_figure(person, Detail::near, {}, HasSkinDetail::yes);
    for (const auto& [plain, mesh] :
         {std::pair{&bare.face, &detailed.face}, {&bare.body, &detailed.body}}) {
        REQUIRE(plain->vertices.size() == mesh->vertices.size());
        std::size_t with_skin_detail = 0;
        for (std::size_t i = 0; i < mesh->vertices.size(); ++i) {
            const shapes::Vertex &a = plain->vertices[i], &b = mesh->vertices[i];
            CHECK(a.uv == glm::vec2{0});
            CHECK(a.position_m == b.position_m);
            if (b.uv == glm::vec2{0})
                CHECK(a.colour == b.colour);
            else
                ++with_skin_detail;
            // Inside the sheet along it; across it repeats.
            CHECK((b.uv.y >= 0 && b.uv.y <= 1));
        }
        CHECK(with_skin_detail > mesh->vertices.size() / 10);
        CHECK(with_skin_detail < mesh->vertices.size());
    }
}

TEST_CASE("skin is that of the age, and who wears a beard is not shaven", "[figures][property]") {
    const auto kind_of = [](const Person& person) {
        return skin_detail_kind(appearance(person), person.measures.age_years);
    };
    CHECK(kind_of(aged("Bram", 6)).age == SkinAge::child);
    CHECK(kind_of(aged("Bram", 20)).age == SkinAge::young);
    CHECK(kind_of(aged("Bram", 40)).age == SkinAge::grown);
    CHECK(kind_of(aged("Bram", 70)).age == SkinAge::old);
    Person man = adult("Paul");
    man.measures.sex = Sex::male;
    CHECK(kind_of(man).shaven);
    man.styling.beard = true;
    CHECK_FALSE(kind_of(man).shaven);
    man.styling.beard = false;
    man.measures.sex = Sex::female;
    CHECK_FALSE(kind_of(man).shaven);
}

TEST_CASE("somebody whom the sun dazzles narrows the eyes", "[figures][property]") {
    const Person person = adult("Ines");
    const auto face_of = [&](double dazzle) {
        EyeLight light;
        light.towards_sun = {0, 0.3, 1};
        light.dazzle = dazzle;
        return build_figure(person, Detail::near, light).face;
    };
    const shapes::Mesh calm = face_of(0), dazzled = face_of(1);
    REQUIRE(calm.vertices.size() == dazzled.vertices.size());
    const glm::dvec3 eye_m = reference_points(person).left_eye_m;
    // How far down (-1) or up (+1) the skin above or below the pupil has moved at most.
    const auto moved_m = [&](double way) {
        double most_m = 0;
        for (std::size_t i = 0; i < calm.vertices.size(); ++i) {
            const glm::dvec3 off = glm::dvec3{calm.vertices[i].position_m} - eye_m;
            if (std::abs(off.x) < 0.004 && off.y * way < -0.003 && off.y * way > -0.007)
                most_m =
                    std::max(most_m, way * static_cast<double>(dazzled.vertices[i].position_m.y -
                                                               calm.vertices[i].position_m.y));
        }
        return most_m;
    };
    CHECK(moved_m(-1) > 0.0005);
    CHECK(moved_m(1) > 0.0005);
    // With the sun behind the head nothing changes.
    EyeLight behind;
    behind.towards_sun = {0, 0.3, -1};
    EyeLight dim = behind;
    behind.dazzle = 1;
    CHECK(build_figure(person, Detail::near, behind).face.vertices[100].position_m ==
          build_figure(person, Detail::near, dim).face.vertices[100].position_m);
}
