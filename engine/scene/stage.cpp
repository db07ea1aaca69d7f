#include "scene/stage.h"

#include "scene/footing.h"
#include "scene/import_model.h"
#include "scene/read_photograph.h"

#include "setting/photograph.h"

#include "base/units.h"

#include <fmt/format.h>

#include <glm/ext/matrix_transform.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <atomic>
#include <cmath>
#include <filesystem>
#include <future>
#include <map>
#include <numeric>
#include <string_view>
#include <thread>

namespace backrow::scene {
namespace {

constexpr double close_head_px = 420;
constexpr std::size_t most_people_close = 8;
constexpr double near_head_px = 140;
constexpr double middle_head_px = 40;

// Clothes are nearly matt, skin has a sheen of its own.
constexpr float cloth_gloss = 0.05f;
constexpr float skin_gloss = 0.18f;

// A corner of the frame that looks past the end of the world still asks for this much and no more.
constexpr double longest_ray_in_distances = 6;

std::vector<figures::FigureMesh> build_figures(const std::vector<Person>& people,
                                               const CameraView& view) {
    std::vector<figures::FigureMesh> meshes(people.size());
    std::atomic<std::size_t> next = 0;
    const auto build = [&] {
        for (std::size_t i = next++; i < people.size(); i = next++)
            meshes[i] = figures::build_figure(
                figure_of(people[i]), detail_for(head_height_px(view, people[i]), people.size()));
    };
    const std::size_t threads = std::clamp<std::size_t>(std::thread::hardware_concurrency(), 2, 16);
    std::vector<std::future<void>> others;
    for (std::size_t i = 1; i < std::min(threads, people.size()); ++i)
        others.push_back(std::async(std::launch::async, build));
    build();
    for (std::future<void>& other : others)
        other.get();
    return meshes;
}

std::vector<std::size_t> near_to_far(const std::vector<Person>& people, const CameraView& view) {
    std::vector<std::size_t> order(people.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::stable_sort(
        order, {}, [&](std::size_t i) { return axial_m(view, engine_from_mark(people[i].place)); });
    return order;
}

void add_people(const Scene& scene, const CameraView& view, Stage& stage) {
    std::vector<figures::FigureMesh> meshes = build_figures(scene.people, view);
    for (const std::size_t i : near_to_far(scene.people, view)) {
        const Person& person = scene.people[i];
        const glm::dmat4 world_from_figure =
            glm::translate(glm::dmat4{1}, engine_from_mark(person.place));
        const auto add = [&](const char* what, shapes::Mesh& mesh, Role role, float gloss) {
            stage.parts.push_back({.name = fmt::format("{} {}", person.name, what),
                                   .mesh = std::move(mesh),
                                   .world_from_part = world_from_figure,
                                   .material = {.gloss = gloss},
                                   .role = role,
                                   .person = static_cast<int>(i)});
        };
        add("face", meshes[i].face, Role::face, skin_gloss);
        add("body", meshes[i].body, Role::body, cloth_gloss);
    }
}

void add_pieces(std::string_view name, std::vector<setting::Piece> pieces, Stage& stage) {
    for (setting::Piece& piece : pieces)
        stage.parts.push_back({.name = std::string{name},
                               .mesh = std::move(piece.mesh),
                               .material = piece.material,
                               .role = piece.is_highlight ? Role::highlight : Role::surroundings});
}

/// Every file read once, however often it stands in the scene.
struct ModelStock {
    struct Kept {
        ImportedModel model;
        int first_texture = 0;
    };
    std::map<std::string, Kept> kept;
    std::size_t triangles = 0;
    double texture_megapixels = 0;
};

double megapixels_of(const std::vector<Image<Rgba8>>& textures) {
    double pixels = 0;
    for (const Image<Rgba8>& texture : textures)
        pixels += static_cast<double>(texture.pixels().size());
    return pixels / 1e6;
}

// A model that cannot be used is a mistake of the scene that names it.
Problem told_at_its_name(const Model& model, std::string_view what, std::string mend) {
    return {.where = model.named_at,
            .what = fmt::format("model file {}: {}", model.file, what),
            .mend = std::move(mend)};
}

Problem too_much(const Model& model, std::string_view what) {
    return told_at_its_name(model, what, "use fewer models, or simpler ones");
}

void place_model(const Model& model, const ModelStock::Kept& kept, Stage& stage) {
    for (const Part& unplaced : kept.model.parts) {
        Part part = unplaced;
        part.world_from_part = world_from_model(model, kept.model.lowest);
        if (part.material.texture >= 0)
            part.material.texture += kept.first_texture;
        stage.parts.push_back(std::move(part));
    }
}

std::vector<Problem> add_models(const std::vector<Model>& models, Stage& stage) {
    std::vector<Problem> problems;
    ModelStock stock;
    std::map<std::string, bool> refused;
    for (const Model& model : models) {
        if (refused.contains(model.file))
            continue;
        if (!stock.kept.contains(model.file)) {
            auto read = import_model(model.file);
            if (!read) {
                for (Problem& problem : read.error())
                    problems.push_back(
                        told_at_its_name(model, problem.what, std::move(problem.mend)));
                refused[model.file] = true;
                continue;
            }
            const int first_texture = static_cast<int>(stage.textures.size());
            stock.texture_megapixels += megapixels_of(read->textures);
            std::ranges::move(read->textures, std::back_inserter(stage.textures));
            read->textures.clear();
            stock.kept[model.file] = {std::move(*read), first_texture};
        }
        const ModelStock::Kept& kept = stock.kept[model.file];
        stock.triangles += kept.model.triangles;
        if (stock.triangles > most_model_triangles) {
            problems.push_back(too_much(
                model, fmt::format("with this model the scene's models have more than {} triangles",
                                   most_model_triangles)));
            return problems;
        }
        if (stock.texture_megapixels > most_texture_megapixels) {
            problems.push_back(too_much(
                model, fmt::format("with this model the scene's textures have more than {:g} "
                                   "megapixels",
                                   most_texture_megapixels)));
            return problems;
        }
        place_model(model, kept, stage);
    }
    return problems;
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

void add_backdrops(const Scene& scene, const CameraView& view, Stage& stage,
                   std::vector<Problem>& problems) {
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
        setting::Reach reach = reach_of(view, backdrop.back_m);
        reach.sun_azimuth_deg = scene.light.sun_azimuth_deg;
        reach.sun_elevation_deg = scene.light.sun_elevation_deg;
        add_pieces(name, setting::build_backdrop(backdrop, reach), stage);
    }
}

void add_sky(const Scene& scene, Stage& stage, std::vector<Problem>& problems) {
    const Setting& setting = scene.setting;
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

WindowLight window_light(const WindowPlace& window) {
    const glm::dvec3 outward = towards_sun(0, window.azimuth_deg);
    const glm::dvec3 along{outward.z, 0, -outward.x};
    return {.middle_m =
                outward * window.distance_m + glm::dvec3{0, window.sill_m + window.height_m / 2, 0},
            .half_across_m = along * (window.width_m / 2),
            .half_up_m = {0, window.height_m / 2, 0},
            .facing = -outward};
}

double head_height_px(const CameraView& view, const Person& person) {
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

setting::Reach reach_of(const CameraView& view, double back_m) {
    const double distance_m = std::max(view.position_m.z + back_m, 0.1);
    const glm::dvec3 middle = view.forward * view.image_distance_mm();
    setting::Reach reach{.left_m = view.position_m.x,
                         .right_m = view.position_m.x,
                         .top_m = 0,
                         .lens_to_backdrop_m = distance_m};
    double blur_m = 0;
    for (const double across : {-0.5, 0.5})
        for (const double up : {-0.5, 0.5}) {
            const glm::dvec3 ray =
                glm::normalize(middle + view.right * (across * view.sensor_width_mm) +
                               view.up * (up * view.sensor_height_mm));
            const double range_m = ray.z < -1 / longest_ray_in_distances
                                       ? distance_m / -ray.z
                                       : distance_m * longest_ray_in_distances;
            const glm::dvec3 met = view.position_m + ray * range_m;
            reach.left_m = std::min(reach.left_m, met.x);
            reach.right_m = std::max(reach.right_m, met.x);
            reach.top_m = std::max(reach.top_m, met.y);
            const double axial = range_m * glm::dot(ray, view.forward);
            const double opening_m = m_from_mm(view.focal_length_mm / view.f_number);
            blur_m =
                std::max(blur_m, 0.5 * opening_m * std::abs(axial - view.focus_m) / view.focus_m);
        }
    reach.left_m -= blur_m;
    reach.right_m += blur_m;
    reach.top_m += blur_m;
    return reach;
}

Checked<Stage> build_stage(const Scene& scene, const CameraView& view) {
    Stage stage;
    const Light& light = scene.light;
    stage.towards_sun = towards_sun(light.sun_elevation_deg, light.sun_azimuth_deg);
    stage.sun_is_up = light.sun_elevation_deg > 0;
    if (light.kind == LightKind::window)
        stage.window = window_light(light.window);

    add_people(scene, view, stage);
    const std::vector<setting::Block> blocks = blocks_under(scene.people);
    if (!blocks.empty())
        add_pieces("risers and seats", setting::build_blocks(blocks), stage);
    std::vector<Problem> problems = add_models(scene.models, stage);
    add_backdrops(scene, view, stage, problems);
    add_pieces("ground", setting::build_ground(scene.setting.ground), stage);
    add_sky(scene, stage, problems);
    if (!problems.empty())
        return tl::unexpected(std::move(problems));
    return stage;
}

}  // namespace backrow::scene
