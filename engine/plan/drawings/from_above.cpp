#include "plan/drawings/from_above.h"

#include "plan/drawings/level_cut.h"

#include "plan/faces/facing.h"
#include "plan/faces/margin.h"
#include "scene/ground_plan.h"
#include "scene/model_shape.h"
#include "scene/reach.h"
#include "scene/risers.h"
#include "scene/seats.h"

#include "base/units.h"

#include <glm/geometric.hpp>
#include <glm/vec4.hpp>

#include <algorithm>
#include <cmath>

namespace backrow::plan {
namespace {

/// Over the width of the frame: enough for a curved zone to look curved.
constexpr int slices = 33;

DrawingPoint on_paper(const glm::dvec3& point_m) {
    const scene::FromMark place = scene::mark_from_engine(point_m);
    return {.x_m = place.across_m, .y_m = place.back_m};
}

DrawingPoint unit_on_paper(const glm::dvec3& direction) {
    const double length = std::hypot(direction.x, direction.z);
    return {.x_m = direction.x / length, .y_m = -direction.z / length};
}

double mean_eye_height_m(const FaceTable& table) {
    double sum_m = 0;
    for (const Face& face : table.faces)
        sum_m += face.eye.up_m;
    return sum_m / static_cast<double>(table.faces.size());
}

/// Where the frame is cut off if nothing else ends it.
double sight_end_m(const scene::Scene& scene, const scene::CameraView& view,
                   const FaceTable& table) {
    constexpr double beyond_people = 1.5;
    constexpr double beyond_backdrops = 1.1;
    double end_m = 0;
    for (const Face& face : table.faces)
        end_m = std::max(end_m, beyond_people * face.axial_m);
    for (const setting::Backdrop& backdrop : scene.setting.backdrops) {
        const glm::dvec3 behind_the_mark =
            scene::engine_from_mark({.across_m = scene.camera.across_m, .back_m = backdrop.back_m});
        end_m = std::max(end_m, beyond_backdrops * glm::distance(behind_the_mark, view.position_m));
    }
    return end_m;
}

// The zone depends on how high the image is, which on a level below or above the lens depends on
// the distance itself; it does so little that each round makes what is wrong several times smaller.
DrawnZone drawn_zone(const scene::Scene& scene, const LevelCut& cut, optics::Grade grade) {
    constexpr int rounds = 10;
    std::vector<double> slopes(slices);
    for (int i = 0; i < slices; ++i)
        slopes[static_cast<std::size_t>(i)] = cut.half_slope * (2.0 * i / (slices - 1) - 1);

    const auto ends = [&](auto end_of) {
        std::vector<std::optional<double>> ends_m(slices, cut.view.lens.focus_m);
        std::vector<double> heights(slices);
        for (int round = 0; round < rounds; ++round) {
            for (std::size_t i = 0; i < slopes.size(); ++i)
                heights[i] = cut.image_height(slopes[i],
                                              std::clamp(ends_m[i].value_or(cut.view.lens.focus_m),
                                                         cut.frame.near_m, cut.frame.far_m));
            const auto zones = zones_at(scene, cut.view, grade, heights);
            for (std::size_t i = 0; i < slopes.size(); ++i)
                ends_m[i] = zones[i] ? std::optional{end_of(*zones[i])} : std::nullopt;
        }
        return ends_m;
    };
    const auto near_m = ends([](const optics::AxialRange& zone) { return zone.near_m; });
    const auto far_m = ends([](const optics::AxialRange& zone) { return zone.far_m; });

    DrawnZone zone(slices);
    for (std::size_t i = 0; i < slopes.size(); ++i) {
        if (!near_m[i] || !far_m[i])
            continue;
        const double from_m = std::max(*near_m[i], cut.frame.near_m);
        const double to_m = std::min(*far_m[i], cut.frame.far_m);
        if (from_m < to_m)
            zone[i] =
                ZoneSlice{.near = cut.point(slopes[i], from_m), .far = cut.point(slopes[i], to_m)};
    }
    return zone;
}

void add_sight(const scene::Scene& scene, const LevelCut& cut, FromAbove& drawing) {
    const double t = cut.half_slope;
    const AxialRange& frame = cut.frame;
    drawing.frame = {{cut.point(-t, frame.near_m), cut.point(t, frame.near_m),
                      cut.point(t, frame.far_m), cut.point(-t, frame.far_m)}};
    const double focus_m = cut.view.lens.focus_m;
    if (focus_m >= frame.near_m && focus_m <= frame.far_m)
        drawing.plane_of_focus = Line{cut.point(-t, focus_m), cut.point(t, focus_m)};
    drawing.crisp = drawn_zone(scene, cut, optics::Grade::crisp);
    drawing.fine = drawn_zone(scene, cut, optics::Grade::fine);
}

// A lean carries shoulders less far than ears. The share is an estimate: shoulders are about three
// quarters as high over the hips as ears are.
DrawingPoint shoulders_of(const DrawingPoint& place, const DrawingPoint& ears) {
    constexpr double share = 0.75;
    return {.x_m = std::lerp(place.x_m, ears.x_m, share),
            .y_m = std::lerp(place.y_m, ears.y_m, share)};
}

PersonFromAbove person_from_above(const scene::Person& person, const Face& face,
                                  const scene::CameraView& view) {
    const figures::ReferencePoints points = scene::reference_points(person);
    const glm::dvec3 ears_m = 0.5 * (points.left_ear_m + points.right_ear_m);
    const DrawingPoint place{.x_m = person.place.across_m, .y_m = person.place.back_m};
    const DrawingPoint head = on_paper(ears_m);
    // A metre back along the ground is this much along the axis.
    const double axial_of_back = -view.forward.z;
    const bool looks_back = axial_of_back > 0;
    return {.place = place,
            .shoulders = shoulders_of(place, head),
            .half_breadth_m = person.measures.bideltoid_breadth_m / 2,
            .half_depth_m = person.measures.chest_depth_m / 2,
            .body_faces = unit_on_paper(facing(person.pose.turn_deg)),
            .head = head,
            .head_half_breadth_m = person.measures.head_breadth_m / 2,
            .head_half_length_m = person.measures.head_length_m / 2,
            .head_faces = unit_on_paper(facing(person.pose.turn_deg + person.pose.head_turn_deg)),
            .nearer_eye = {.x_m = face.eye.across_m, .y_m = face.eye.back_m},
            .row = person.row,
            .verdict = verdict_of(face),
            .predicted_blur_px = face.predicted_blur_px,
            .visible_fraction = face.visible_fraction,
            .forward_m = looks_back ? face.margin.front_m / axial_of_back : 0,
            .back_m = looks_back ? face.margin.back_m / axial_of_back : 0};
}

std::vector<RowFromAbove> rows_from_above(const std::vector<scene::Person>& people) {
    std::vector<RowFromAbove> rows;
    for (const scene::RowOfPeople& row : scene::rows_of(people)) {
        const auto place_in_row = [](const scene::Person* who) {
            return DrawingPoint{.x_m = who->place.across_m - who->own.across_m,
                                .y_m = who->place.back_m - who->own.back_m};
        };
        const auto across_m = [&](const scene::Person* who) { return place_in_row(who).x_m; };
        const auto [left, right] = std::ranges::minmax_element(row, {}, across_m);
        rows.push_back({.row = row.front()->row,
                        .line = {place_in_row(*left), place_in_row(*right)},
                        .up_m = row.front()->place.up_m - row.front()->own.up_m});
    }
    return rows;
}

BackdropFromAbove backdrop_from_above(const setting::Backdrop& backdrop,
                                      const scene::CameraView& view) {
    const setting::Reach reach = scene::reach_of(view, backdrop.back_m);
    const setting::Photograph& photograph = backdrop.photograph;
    const bool is_photo = backdrop.kind == setting::BackdropKind::photo;
    const double half_m = photograph.width_m / 2;
    const double left_m = is_photo ? photograph.across_m - half_m : reach.left_m;
    const double right_m = is_photo ? photograph.across_m + half_m : reach.right_m;
    return {.kind = backdrop.kind, .line = {{left_m, backdrop.back_m}, {right_m, backdrop.back_m}}};
}

std::array<DrawingPoint, 4> model_from_above(const scene::Model& model, const Extent& outline) {
    const glm::dmat4 world_from_model = scene::world_from_model(model, 0);
    const auto corner = [&](double x, double y) {
        return on_paper(glm::dvec3{world_from_model * glm::dvec4{x, 0, -y, 1}});
    };
    const auto& [low, high] = outline;
    return {corner(low.x_m, low.y_m), corner(high.x_m, low.y_m), corner(high.x_m, high.y_m),
            corner(low.x_m, high.y_m)};
}

/// From the middle towards an azimuth as the sun's.
DrawingPoint towards(const DrawingPoint& middle, double azimuth_deg, double away_m) {
    const double azimuth = rad_from_deg(azimuth_deg);
    return {.x_m = middle.x_m + away_m * std::sin(azimuth),
            .y_m = middle.y_m - away_m * std::cos(azimuth)};
}

SunFromAbove sun_from_above(const scene::Light& light, const std::vector<PersonFromAbove>& people) {
    constexpr double beside_people_m = 0.4;
    Extent group;
    for (const PersonFromAbove& person : people)
        group.take(person.place);
    SunFromAbove sun{.middle = {.x_m = (group.low.x_m + group.high.x_m) / 2,
                                .y_m = (group.low.y_m + group.high.y_m) / 2},
                     .at = {},
                     .is_up = light.sun_elevation_deg > 0,
                     .casts = has_sun(light)};
    for (const PersonFromAbove& person : people)
        sun.radius_m = std::max(sun.radius_m, std::hypot(person.place.x_m - sun.middle.x_m,
                                                         person.place.y_m - sun.middle.y_m) +
                                                  person.half_breadth_m + beside_people_m);
    sun.at = towards(sun.middle, light.sun_azimuth_deg, sun.radius_m);
    return sun;
}

Line window_from_above(const scene::WindowPlace& window) {
    constexpr double quarter_turn_deg = 90;
    const DrawingPoint middle = towards({}, window.azimuth_deg, window.distance_m);
    const double half_m = window.width_m / 2;
    return {towards(middle, window.azimuth_deg - quarter_turn_deg, half_m),
            towards(middle, window.azimuth_deg + quarter_turn_deg, half_m)};
}

}  // namespace

FromAbove from_above(const scene::Scene& scene, const scene::CameraView& view,
                     const FaceTable& table, const ModelOutlines& models,
                     std::optional<double> level_m) {
    FromAbove drawing;
    drawing.level_m = level_m ? *level_m : mean_eye_height_m(table);
    drawing.lens = on_paper(view.position_m);
    drawing.looks = unit_on_paper(view.forward);
    if (const auto cut = level_cut(view, drawing.level_m, sight_end_m(scene, view, table)))
        add_sight(scene, *cut, drawing);
    for (std::size_t i = 0; i < scene.people.size(); ++i)
        drawing.people.push_back(person_from_above(scene.people[i], table.faces[i], view));
    drawing.rows = rows_from_above(scene.people);
    drawing.risers = scene::risers_under(scene.people);
    drawing.seats = scene::seats_under(scene.people);
    for (const setting::Backdrop& backdrop : scene.setting.backdrops)
        drawing.backdrops.push_back(backdrop_from_above(backdrop, view));
    for (const scene::Model& model : scene.models) {
        const auto outline = models.find(model.file);
        drawing.models.push_back(outline == models.end()
                                     ? std::nullopt
                                     : std::optional{model_from_above(model, outline->second)});
    }
    if (scene.light.kind == scene::LightKind::open)
        drawing.sun = sun_from_above(scene.light, drawing.people);
    else
        drawing.window = window_from_above(scene.light.window);
    return drawing;
}

Extent extent_of(const FromAbove& drawing) {
    Extent extent;
    extent.take(drawing.lens);
    for (const PersonFromAbove& person : drawing.people) {
        extent.take(person.shoulders, person.half_breadth_m);
        extent.take(person.head, person.head_half_length_m);
    }
    for (const auto* blocks : {&drawing.risers, &drawing.seats})
        for (const setting::Block& block : *blocks) {
            extent.take({block.left_m, block.near_back_m});
            extent.take({block.right_m, block.far_back_m});
        }
    if (drawing.sun)
        extent.take(drawing.sun->middle, drawing.sun->radius_m);
    if (drawing.window) {
        extent.take(drawing.window->from);
        extent.take(drawing.window->to);
    }
    return extent;
}

}  // namespace backrow::plan
