#include "stage/stage_people.h"

#include "stage/earlier_parts.h"

#include "figures/appearance.h"

#include <fmt/format.h>

#include <glm/ext/matrix_transform.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <map>
#include <memory>
#include <utility>

namespace backrow::stage {
namespace {

constexpr double close_head_px = 420;
constexpr std::size_t most_people_close = 8;
constexpr double near_head_px = 140;
constexpr double middle_head_px = 40;
// Below it no pore and no strand of hair is left to see.
constexpr double detailed_head_px = 200;
// Two texels a millimetre serve heads up to here.
constexpr double whole_sheet_head_px = 450;

// From where on the sun makes people narrow their eyes, and where they do so most; by eye.
constexpr double dim_ev = 9.5;
constexpr double dazzling_ev = 14.5;

// Clothes are nearly matt, skin has a sheen of its own.
constexpr float cloth_gloss = 0.05f;
constexpr float skin_gloss = 0.18f;

double largest_head_px(std::span<const scene::CameraView> views, const scene::Person& person) {
    double largest_px = 0;
    for (const scene::CameraView& view : views)
        largest_px = std::max(largest_px, head_height_px(view, person));
    return largest_px;
}

figures::HasSkinDetail has_skin_detail(std::span<const scene::CameraView> views,
                                       const scene::Person& person, figures::HasSkinDetail wanted) {
    return wanted == figures::HasSkinDetail::yes &&
                   largest_head_px(views, person) >= detailed_head_px
               ? figures::HasSkinDetail::yes
               : figures::HasSkinDetail::no;
}

/// Somebody as they are drawn: eyes turned to what they look at.
figures::Person looking_figure(const scene::Scene& scene, const scene::CameraView& view,
                               const scene::Person& person) {
    figures::Person figure = figure_of(person);
    if (const auto at = gaze_point_m(scene, view, person))
        figure.pose.looks_at_m = *at - figure_origin_m(person);
    return figure;
}

/// What the eyes of somebody mirror to the lens: the sun, or the window.
figures::EyeLight eye_light(const scene::Scene& scene, const scene::CameraView& view,
                            const scene::Person& person) {
    const scene::Light& light = scene.light;
    const glm::dvec3 eye_m = reference_points(person).left_eye_m;
    figures::EyeLight mirrored{.towards_sun =
                                   towards_sun(light.sun_elevation_deg, light.sun_azimuth_deg),
                               .sun_is_up = light.sun_elevation_deg > 0,
                               .towards_lens = glm::normalize(view.position_m - eye_m)};
    if (light.kind == scene::LightKind::window) {
        mirrored.towards_sun = glm::normalize(window_light(light.window).middle_m - eye_m);
        mirrored.sun_is_up = true;
        mirrored.dazzle = 0;
    }
    return mirrored;
}

}  // namespace

double head_height_px(const scene::CameraView& view, const scene::Person& person) {
    const double axial = axial_m(view, reference_points(person).chin_m);
    if (axial <= 0)
        return 0;
    return person.measures.head_height_m / axial * view.image_distance_mm() * view.px_per_mm();
}

figures::Detail detail_for(double head_px, std::size_t people) {
    if (head_px >= close_head_px && people <= most_people_close)
        return figures::Detail::close;
    if (head_px >= near_head_px)
        return figures::Detail::near;
    return head_px >= middle_head_px ? figures::Detail::middle : figures::Detail::far;
}

std::array<Part, 2> person_parts(const scene::Scene& scene,
                                 std::span<const scene::CameraView> views, std::size_t person,
                                 figures::HasSkinDetail skin_detail, const Stage& earlier) {
    const scene::Person& who = scene.people[person];
    FigureMade made{.person = looking_figure(scene, views.front(), who),
                    .detail = detail_for(largest_head_px(views, who), scene.people.size()),
                    .light = eye_light(scene, views.front(), who),
                    .skin_detail = has_skin_detail(views, who, skin_detail)};
    std::vector<Part> parts = earlier_parts(earlier, made);
    // One alone is left where the other has been exchanged.
    if (parts.size() != 2) {
        figures::FigureMesh meshes =
            figures::build_figure(made.person, made.detail, made.light, made.skin_detail);
        const MadeFrom made_from = std::make_shared<MadeFrom::element_type>(std::move(made));
        parts = {{.name = fmt::format("{} face", who.name),
                  .mesh = std::move(meshes.face),
                  .material = {.gloss = skin_gloss},
                  .role = Role::face,
                  .made_from = made_from},
                 {.name = fmt::format("{} body", who.name),
                  .mesh = std::move(meshes.body),
                  .material = {.gloss = cloth_gloss},
                  .role = Role::body,
                  .made_from = made_from}};
    }
    for (Part& part : parts) {
        part.world_from_part = glm::translate(glm::dmat4{1}, figure_origin_m(who));
        part.material.texture = -1;
        part.person = static_cast<int>(person);
    }
    return {std::move(parts[0]), std::move(parts[1])};
}

SkinSheets skin_sheets(const scene::Scene& scene, std::span<const scene::CameraView> views,
                       figures::HasSkinDetail wanted) {
    SkinSheets sheets;
    double largest_px = 0;
    for (const scene::Person& person : scene.people) {
        largest_px = std::max(largest_px, largest_head_px(views, person));
        sheets.of_person.push_back(-1);
        if (has_skin_detail(views, person, wanted) == figures::HasSkinDetail::no)
            continue;
        const figures::SkinDetailKind kind = figures::skin_detail_kind(
            figures::appearance(figure_of(person)), person.measures.age_years);
        const auto known = std::ranges::find(sheets.kinds, kind);
        sheets.of_person.back() = static_cast<int>(known - sheets.kinds.begin());
        if (known == sheets.kinds.end())
            sheets.kinds.push_back(kind);
    }
    sheets.size =
        largest_px < whole_sheet_head_px ? figures::SheetSize::half : figures::SheetSize::whole;
    return sheets;
}

}  // namespace backrow::stage
