#include "stage/stage.h"

#include "scene/footing.h"
#include "scene/reach.h"
#include "stage/read_photograph.h"
#include "stage/stage_models.h"

#include "setting/backdrops/photograph.h"

#include "figures/appearance.h"
#include "figures/skin/skin_detail.h"

#include "base/side_by_side.h"
#include "base/units.h"

#include <fmt/format.h>

#include <glm/ext/matrix_transform.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <map>
#include <numeric>
#include <string_view>

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

/// Everybody, on several threads.
std::vector<std::array<Part, 2>> all_person_parts(const scene::Scene& scene,
                                                  std::span<const scene::CameraView> views,
                                                  figures::HasSkinDetail skin_detail) {
    const std::vector<scene::Person>& people = scene.people;
    std::vector<std::array<Part, 2>> parts(people.size());
    side_by_side(people.size(),
                 [&](std::size_t i) { parts[i] = person_parts(scene, views, i, skin_detail); });
    return parts;
}

std::vector<std::size_t> near_to_far(const std::vector<scene::Person>& people,
                                     const scene::CameraView& view) {
    std::vector<std::size_t> order(people.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::stable_sort(order, {}, [&](std::size_t i) {
        return axial_m(view, scene::engine_from_mark(people[i].place));
    });
    return order;
}

/// The sheet of each person's kind of skin, −1 where none is laid over them; each sheet once.
std::vector<int> add_sheets(const scene::Scene& scene, std::span<const scene::CameraView> views,
                            figures::HasSkinDetail wanted, Stage& stage) {
    std::vector<int> textures;
    std::map<figures::SkinDetailKind, int> known;
    std::vector<figures::SkinDetailKind> kinds;
    const int first = static_cast<int>(stage.textures.size());
    for (const scene::Person& person : scene.people) {
        textures.push_back(-1);
        if (has_skin_detail(views, person, wanted) == figures::HasSkinDetail::no)
            continue;
        const figures::SkinDetailKind kind = figures::skin_detail_kind(
            figures::appearance(figure_of(person)), person.measures.age_years);
        const auto [found, is_new] =
            known.try_emplace(kind, first + static_cast<int>(kinds.size()));
        if (is_new)
            kinds.push_back(kind);
        textures.back() = found->second;
    }
    double largest_px = 0;
    for (const scene::Person& person : scene.people)
        largest_px = std::max(largest_px, largest_head_px(views, person));
    const auto size =
        largest_px < whole_sheet_head_px ? figures::SheetSize::half : figures::SheetSize::whole;
    // One at a time: painting takes three times the memory of what is painted.
    for (const figures::SkinDetailKind& kind : kinds)
        stage.textures.push_back(figures::skin_detail_sheet(kind, size));
    return textures;
}

void add_people(const scene::Scene& scene, std::span<const scene::CameraView> views,
                figures::HasSkinDetail skin_detail, Stage& stage) {
    std::vector<std::array<Part, 2>> parts = all_person_parts(scene, views, skin_detail);
    const std::vector<int> sheets = add_sheets(scene, views, skin_detail, stage);
    for (const std::size_t i : near_to_far(scene.people, views.front()))
        for (Part& part : parts[i]) {
            part.material.texture = sheets[i];
            stage.parts.push_back(std::move(part));
        }
}

void add_pieces(std::string_view name, std::vector<setting::Piece> pieces, Stage& stage) {
    for (setting::Piece& piece : pieces)
        stage.parts.push_back({.name = std::string{name},
                               .mesh = std::move(piece.mesh),
                               .material = piece.material,
                               .role = piece.is_highlight ? Role::highlight : Role::surroundings});
}

// Its problems go to the others; the texture goes to the stage, and build makes the pieces of it.
template <class Build>
void add_picture(const std::string& name, const std::string& file, const Place& named_at,
                 PhotographShape shape, const Build& build, Stage& stage,
                 std::vector<Problem>& problems) {
    auto picture = read_photograph(file, named_at, shape);
    if (!picture) {
        std::ranges::move(picture.error(), std::back_inserter(problems));
        return;
    }
    const int texture = static_cast<int>(stage.textures.size());
    add_pieces(name, build(*picture, texture), stage);
    stage.textures.push_back(std::move(*picture));
}

void add_backdrops(const scene::Scene& scene, std::span<const scene::CameraView> views,
                   Stage& stage, std::vector<Problem>& problems) {
    std::vector<setting::Backdrop> backdrops = scene.setting.backdrops;
    std::ranges::stable_sort(backdrops, {}, &setting::Backdrop::back_m);
    for (const setting::Backdrop& backdrop : backdrops) {
        const std::string name = fmt::format("backdrop at {:g} m", backdrop.back_m);
        if (backdrop.kind == setting::BackdropKind::photo) {
            add_picture(
                name, backdrop.photograph.file, backdrop.photograph.named_at, PhotographShape::any,
                [&](const Image<Rgba8>& picture, int texture) {
                    return setting::build_photograph(backdrop.photograph, backdrop.back_m, picture,
                                                     texture);
                },
                stage, problems);
            continue;
        }
        setting::Reach reach = reach_of(views, backdrop.back_m);
        reach.sun_azimuth_deg = scene.light.sun_azimuth_deg;
        reach.sun_elevation_deg = scene.light.sun_elevation_deg;
        add_pieces(name, setting::build_backdrop(backdrop, reach), stage);
    }
}

void add_sky(const scene::Scene& scene, Stage& stage, std::vector<Problem>& problems) {
    const scene::Setting& setting = scene.setting;
    if (setting.panorama.empty())
        return add_pieces(
            "sky", setting::build_sky(scene.light.sun_elevation_deg, scene.light.sun_azimuth_deg),
            stage);
    add_picture(
        "panorama", setting.panorama, setting.panorama_at, PhotographShape::equirectangular,
        [&](const Image<Rgba8>& picture, int texture) {
            return setting::build_panorama(picture, setting.panorama_turn_deg, texture);
        },
        stage, problems);
}

}  // namespace

glm::dvec3 towards_sun(double elevation_deg, double azimuth_deg) {
    const double elevation = rad_from_deg(elevation_deg);
    const double azimuth = rad_from_deg(azimuth_deg);
    return {std::sin(azimuth) * std::cos(elevation), std::sin(elevation),
            std::cos(azimuth) * std::cos(elevation)};
}

WindowLight window_light(const scene::WindowPlace& window) {
    const glm::dvec3 outward = towards_sun(0, window.azimuth_deg);
    const glm::dvec3 along{outward.z, 0, -outward.x};
    return {.middle_m =
                outward * window.distance_m + glm::dvec3{0, window.sill_m + window.height_m / 2, 0},
            .half_across_m = along * (window.width_m / 2),
            .half_up_m = {0, window.height_m / 2, 0},
            .facing = -outward};
}

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

// Eyes look at, and mirror the light to, the first of the views.
std::array<Part, 2> person_parts(const scene::Scene& scene,
                                 std::span<const scene::CameraView> views, std::size_t person,
                                 figures::HasSkinDetail skin_detail) {
    const scene::Person& who = scene.people[person];
    figures::FigureMesh meshes = figures::build_figure(
        looking_figure(scene, views.front(), who),
        detail_for(largest_head_px(views, who), scene.people.size()),
        eye_light(scene, views.front(), who), has_skin_detail(views, who, skin_detail));
    const auto part = [&](const char* what, shapes::Mesh& mesh, Role role, float gloss) {
        return Part{.name = fmt::format("{} {}", who.name, what),
                    .mesh = std::move(mesh),
                    .world_from_part = glm::translate(glm::dmat4{1}, figure_origin_m(who)),
                    .material = {.gloss = gloss},
                    .role = role,
                    .person = static_cast<int>(person)};
    };
    return {part("face", meshes.face, Role::face, skin_gloss),
            part("body", meshes.body, Role::body, cloth_gloss)};
}

Checked<Stage> build_stage(const scene::Scene& scene, const scene::CameraView& view) {
    return build_stage(scene, std::span{&view, 1});
}

Checked<Stage> build_stage(const scene::Scene& scene, std::span<const scene::CameraView> views,
                           figures::HasSkinDetail skin_detail) {
    Stage stage;
    const scene::Light& light = scene.light;
    stage.towards_sun = towards_sun(light.sun_elevation_deg, light.sun_azimuth_deg);
    stage.sun_is_up = light.sun_elevation_deg > 0;
    if (light.kind == scene::LightKind::window)
        stage.window = window_light(light.window);

    add_people(scene, views, skin_detail, stage);
    const std::vector<setting::Block> blocks = blocks_under(scene.people);
    if (!blocks.empty())
        add_pieces("risers and seats", setting::build_blocks(blocks), stage);
    std::vector<Problem> problems = add_models(scene.models, stage);
    add_backdrops(scene, views, stage, problems);
    add_pieces("ground", setting::build_ground(scene.setting.ground), stage);
    add_sky(scene, stage, problems);
    if (!problems.empty())
        return tl::unexpected(std::move(problems));
    return stage;
}

}  // namespace backrow::stage
