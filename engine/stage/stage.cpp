#include "stage/stage.h"

#include "scene/footing.h"
#include "scene/reach.h"
#include "stage/earlier_parts.h"
#include "stage/read_photograph.h"
#include "stage/stage_models.h"
#include "stage/stage_people.h"

#include "setting/backdrops/photograph.h"

#include "base/side_by_side.h"
#include "base/units.h"

#include <fmt/format.h>

#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>
#include <future>
#include <memory>
#include <numeric>
#include <string_view>
#include <utility>

namespace backrow::stage {
namespace {

std::vector<std::size_t> near_to_far(const std::vector<scene::Person>& people,
                                     const scene::CameraView& view) {
    std::vector<std::size_t> order(people.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::stable_sort(order, {}, [&](std::size_t i) {
        return axial_m(view, scene::engine_from_mark(people[i].place));
    });
    return order;
}

Part part_of(std::string_view name, setting::Piece piece, MadeFrom made_from) {
    return {.name = std::string{name},
            .mesh = std::move(piece.mesh),
            .material = piece.material,
            .role = piece.is_highlight ? Role::highlight : Role::surroundings,
            .made_from = std::move(made_from)};
}

/// Those of before that were made from this, or else the pieces that build makes.
template <class Made, class Build>
void add_pieces(std::string_view name, Made made, const Stage& earlier, const Build& build,
                Stage& stage) {
    std::vector<Part> parts = earlier_parts(earlier, made);
    if (parts.empty()) {
        std::vector<setting::Piece> pieces = build(std::as_const(made));
        const MadeFrom made_from = std::make_shared<MadeFrom::element_type>(std::move(made));
        for (setting::Piece& piece : pieces)
            parts.push_back(part_of(name, std::move(piece), made_from));
    }
    std::ranges::move(parts, std::back_inserter(stage.parts));
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
    for (setting::Piece& piece : build(*picture, texture))
        stage.parts.push_back(part_of(name, std::move(piece), nullptr));
    stage.textures.push_back(std::move(*picture));
}

void add_backdrops(const scene::Scene& scene, std::span<const scene::CameraView> views,
                   const Stage& earlier, Stage& stage, std::vector<Problem>& problems) {
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
        BackdropMade made{backdrop, reach_of(views, backdrop.back_m)};
        made.reach.sun_azimuth_deg = scene.light.sun_azimuth_deg;
        made.reach.sun_elevation_deg = scene.light.sun_elevation_deg;
        add_pieces(
            name, std::move(made), earlier,
            [](const BackdropMade& from) {
                return setting::build_backdrop(from.backdrop, from.reach);
            },
            stage);
    }
}

void add_sky(const scene::Scene& scene, const Stage& earlier, Stage& stage,
             std::vector<Problem>& problems) {
    const scene::Setting& setting = scene.setting;
    if (setting.panorama.empty())
        return add_pieces(
            "sky", SkyMade{scene.light.sun_elevation_deg, scene.light.sun_azimuth_deg}, earlier,
            [](const SkyMade& from) {
                return setting::build_sky(from.sun_elevation_deg, from.sun_azimuth_deg);
            },
            stage);
    add_picture(
        "panorama", setting.panorama, setting.panorama_at, PhotographShape::equirectangular,
        [&](const Image<Rgba8>& picture, int texture) {
            return setting::build_panorama(picture, setting.panorama_turn_deg, texture);
        },
        stage, problems);
}

/// All but the people.
std::vector<Problem> add_surroundings(const scene::Scene& scene,
                                      std::span<const scene::CameraView> views,
                                      const Stage& earlier, Stage& stage) {
    if (std::vector<setting::Block> blocks = blocks_under(scene.people); !blocks.empty())
        add_pieces("risers and seats", std::move(blocks), earlier, setting::build_blocks, stage);
    std::vector<Problem> problems = add_models(scene.models, stage);
    add_backdrops(scene, views, earlier, stage, problems);
    add_pieces("ground", scene.setting.ground, earlier, setting::build_ground, stage);
    add_sky(scene, earlier, stage, problems);
    return problems;
}

/// Everybody, from near to far, before what the stage has by now.
void put_people_first(const scene::Scene& scene, const scene::CameraView& view,
                      const SkinSheets& sheets, std::vector<std::array<Part, 2>> people,
                      Stage& stage) {
    std::vector<Part> parts;
    for (const std::size_t i : near_to_far(scene.people, view))
        for (Part& part : people[i]) {
            part.material.texture = sheets.of_person[i];
            parts.push_back(std::move(part));
        }
    std::ranges::move(stage.parts, std::back_inserter(parts));
    stage.parts = std::move(parts);
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

Checked<Stage> build_stage(const scene::Scene& scene, const scene::CameraView& view) {
    return build_stage(scene, std::span{&view, 1});
}

Checked<Stage> build_stage(const scene::Scene& scene, std::span<const scene::CameraView> views,
                           figures::HasSkinDetail skin_detail, const Stage& earlier) {
    Stage stage;
    const scene::Light& light = scene.light;
    stage.towards_sun = towards_sun(light.sun_elevation_deg, light.sun_azimuth_deg);
    stage.sun_is_up = light.sun_elevation_deg > 0;
    if (light.kind == scene::LightKind::window)
        stage.window = window_light(light.window);

    // Sheets, surroundings and people need nothing of each other but the numbers of the textures,
    // of which the sheets are the first.
    const SkinSheets sheets = skin_sheets(scene, views, skin_detail);
    stage.textures.resize(sheets.kinds.size());
    auto surroundings = std::async(std::launch::async,
                                   [&] { return add_surroundings(scene, views, earlier, stage); });
    std::vector<std::array<Part, 2>> people(scene.people.size());
    auto everybody = std::async(std::launch::async, [&] {
        side_by_side(people.size(), [&](std::size_t i) {
            people[i] = person_parts(scene, views, i, skin_detail, earlier);
        });
    });
    // One at a time, for painting takes more memory than what is painted; and on this thread, which
    // has other use for it afterwards.
    std::vector<Image<Rgba8>> painted;
    for (const figures::SkinDetailKind& kind : sheets.kinds)
        painted.push_back(figures::skin_detail_sheet(kind, sheets.size));

    everybody.get();
    std::vector<Problem> problems = surroundings.get();
    std::ranges::move(painted, stage.textures.begin());
    if (!problems.empty())
        return tl::unexpected(std::move(problems));
    put_people_first(scene, views.front(), sheets, std::move(people), stage);
    return stage;
}

}  // namespace backrow::stage
