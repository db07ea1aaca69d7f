#include "scene/camera_view.h"

#include "scene/index_of.h"

#include "optics/blur/focus_span.h"

#include "base/units.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstddef>
#include <limits>
#include <numbers>

namespace backrow::scene {
namespace {

const glm::dvec3 straight_up{0, 1, 0};

const Person& known_person(const Scene& scene, std::string_view name) {
    const Person* person = person_named(scene, name);
    assert(person != nullptr);
    return *person;
}

glm::dvec3 between_the_eyes_m(const Person& person) {
    const figures::ReferencePoints points = reference_points(person);
    return 0.5 * (points.left_eye_m + points.right_eye_m);
}

// Solids bound the group sideways and in depth; feet and crowns, which are exact, bound its height.
glm::dvec3 middle_of_group_m(const std::vector<Person>& people,
                             const std::vector<figures::PosedBody>& bodies) {
    constexpr double far_away = std::numeric_limits<double>::infinity();
    glm::dvec3 low{far_away};
    glm::dvec3 high{-far_away};
    const auto take = [&](const glm::dvec3& from, const glm::dvec3& to) {
        low = glm::min(low, from);
        high = glm::max(high, to);
    };
    for (std::size_t i = 0; i < people.size(); ++i) {
        const glm::dvec3 feet = figure_origin_m(people[i]);
        const glm::dvec3 crown = bodies[i].points.crown_m;
        take(feet, feet);
        take(crown, crown);
        for (const figures::Capsule& solid : bodies[i].solids)
            for (const glm::dvec3& end : {solid.from_m, solid.to_m}) {
                const glm::dvec3 level_radius{solid.radius_m, 0, solid.radius_m};
                const glm::dvec3 level_end{end.x, feet.y, end.z};
                take(level_end - level_radius, level_end + level_radius);
            }
    }
    return 0.5 * (low + high);
}

/// How far up from the horizontal a point is seen, radians.
double elevation_rad(const glm::dvec3& from_m, const glm::dvec3& point_m) {
    const glm::dvec3 way_m = point_m - from_m;
    return std::atan2(way_m.y, std::hypot(way_m.x, way_m.z));
}

/// The middle of the group, as long as that keeps everybody in the frame from feet to crown; else
/// the height that does; else, where no height does, the one that keeps the faces, with a tenth of
/// the frame over the highest crown (common practice, no source) if that leaves every chin in it.
glm::dvec3 aim_at_group_m(const Scene& scene) {
    constexpr double headroom = 0.1;
    const Camera& camera = scene.camera;
    const glm::dvec3 lens_m = lens_position_m(camera);
    std::vector<figures::PosedBody> bodies;
    for (const Person& person : scene.people)
        bodies.push_back(posed_body(person));
    const glm::dvec3 middle_m = middle_of_group_m(scene.people, bodies);
    double top_rad = -std::numbers::pi;
    double chin_rad = std::numbers::pi;
    double foot_rad = std::numbers::pi;
    for (const figures::PosedBody& body : bodies) {
        top_rad = std::max(top_rad, elevation_rad(lens_m, body.points.crown_m));
        chin_rad = std::min(chin_rad, elevation_rad(lens_m, body.points.chin_m));
        for (const glm::dvec3& sole_m : body.marks.soles_m)
            foot_rad = std::min(foot_rad, elevation_rad(lens_m, sole_m));
    }
    const bool upright = camera.orientation == Orientation::portrait;
    // A little less than the frame has when it is focused at infinity.
    const double half_rad =
        0.98 * std::atan(camera.sensor_mm[upright ? 0 : 1] / 2 / camera.focal_length_mm);
    const double middle_rad = elevation_rad(lens_m, middle_m);
    const auto holds = [&](double low_rad, double aim_rad) {
        return top_rad <= aim_rad + half_rad && low_rad >= aim_rad - half_rad;
    };
    if (holds(foot_rad, middle_rad))
        return middle_m;
    double aim_rad = (top_rad + foot_rad) / 2;
    if (!holds(foot_rad, aim_rad)) {
        aim_rad = top_rad + headroom * 2 * half_rad - half_rad;
        if (!holds(chin_rad, aim_rad))
            aim_rad = (top_rad + chin_rad) / 2;
    }
    const double along_m = std::hypot(middle_m.x - lens_m.x, middle_m.z - lens_m.z);
    return {middle_m.x, lens_m.y + along_m * std::tan(aim_rad), middle_m.z};
}

optics::PointInView in_view(const CameraView& view, const glm::dvec3& point_m) {
    const glm::dvec3 from_lens_m = point_m - view.position_m;
    const double axial = glm::dot(from_lens_m, view.forward);
    const double aside_m = glm::length(from_lens_m - axial * view.forward);
    return {.axial_m = axial, .field_tangent = aside_m / axial};
}

/// Where the largest blur of these points is least. The perfect lens has it in closed form, and
/// without the last digits' noise.
double evenest_over_m(const CameraView& view, const std::vector<glm::dvec3>& points_m) {
    std::vector<optics::PointInView> points;
    for (const glm::dvec3& point_m : points_m)
        points.push_back(in_view(view, point_m));
    const auto [nearest, farthest] = std::ranges::minmax(points, {}, &optics::PointInView::axial_m);
    if (optics::is_perfect(view.lens.profile) || nearest.axial_m <= 0)
        return nearest.axial_m == farthest.axial_m
                   ? nearest.axial_m
                   : optics::balanced_focus_m(nearest.axial_m, farthest.axial_m);
    return optics::evenest_focus_m(view.focused(), points);
}

/// The camera as it takes itself to be: it knows nothing of its own offset.
CameraView as_found(CameraView view) {
    view.lens.profile.focus_offset_dpt = 0;
    return view;
}

struct FocusAxial {
    const Scene& scene;
    const CameraView& view;

    double operator()(const FocusOnPerson& on) const {
        return sharpest_at_m(nearer_eye_m(view, known_person(scene, on.name)));
    }
    double operator()(const FocusBalanced&) const {
        std::vector<glm::dvec3> eyes_m;
        for (const Person& person : scene.people)
            eyes_m.push_back(nearer_eye_m(view, person));
        return evenest_over_m(as_found(view), eyes_m);
    }
    double operator()(const FocusAtDistance& at) const { return at.axial_m; }
    double operator()(const FromMark& point) const {
        return sharpest_at_m(engine_from_mark(point));
    }

    /// The focus that blurs this point least where it lies in the picture, at the opening at which
    /// it is found.
    [[nodiscard]] double sharpest_at_m(const glm::dvec3& point_m) const {
        CameraView finding = as_found(view);
        if (scene.focus_found_at == FocusFoundAt::wide_open)
            finding.lens.f_number = view.lens.profile.widest_f_number;
        return evenest_over_m(finding, {point_m});
    }
};

/// From figure space to where the figure's origin lies.
void put(figures::ReferencePoints& points, const glm::dvec3& origin_m) {
    for (glm::dvec3* point :
         {&points.left_eye_m, &points.right_eye_m, &points.nose_tip_m, &points.left_ear_m,
          &points.right_ear_m, &points.chin_m, &points.crown_m})
        *point += origin_m;
}

void put(figures::BodyMarks& marks, const glm::dvec3& origin_m) {
    for (glm::dvec3* point : {&marks.chest_m, &marks.waist_m, &marks.knees_m[0], &marks.knees_m[1],
                              &marks.soles_m[0], &marks.soles_m[1]})
        *point += origin_m;
}

void put(std::vector<figures::Capsule>& solids, const glm::dvec3& origin_m) {
    for (figures::Capsule& solid : solids) {
        solid.from_m += origin_m;
        solid.to_m += origin_m;
    }
}

struct AimPoint {
    const Scene& scene;

    glm::dvec3 operator()(const AimAtGroup&) const { return aim_at_group_m(scene); }
    glm::dvec3 operator()(const AimAtPerson& at) const {
        return between_the_eyes_m(known_person(scene, at.name));
    }
    glm::dvec3 operator()(const FromMark& point) const { return engine_from_mark(point); }
};

struct GazePoint {
    const Scene& scene;
    const CameraView& view;

    using Point = std::optional<glm::dvec3>;
    Point operator()(const GazeAtCamera&) const { return view.position_m; }
    Point operator()(const GazeAhead&) const { return std::nullopt; }
    Point operator()(const GazeAtPerson& at) const {
        return between_the_eyes_m(known_person(scene, at.name));
    }
    Point operator()(const FromMark& point) const { return engine_from_mark(point); }
};

}  // namespace

optics::Lens CameraView::focused() const {
    const auto focused =
        optics::focused_lens(lens, std::hypot(sensor_width_mm, sensor_height_mm) / 2);
    assert(focused);
    return *focused;
}

double CameraView::image_distance_mm() const {
    return optics::image_distance_mm(focused());
}

double axial_m(const CameraView& view, const glm::dvec3& point_m) {
    return glm::dot(point_m - view.position_m, view.forward);
}

Projection::Projection(const CameraView& view)
    : view_{view}, image_distance_mm_{view.image_distance_mm()},
      diagonal_mm_{std::hypot(view.sensor_width_mm, view.sensor_height_mm)} {}

glm::dvec2 Projection::on_sensor_mm(const glm::dvec3& from_lens_m, double axial_m) const {
    const double sensor_mm_per_m = image_distance_mm_ / axial_m;
    return {sensor_mm_per_m * glm::dot(from_lens_m, view_.right),
            sensor_mm_per_m * glm::dot(from_lens_m, view_.up)};
}

// The two densities differ where the pixels are not square.
glm::dvec2 Projection::px(const glm::dvec2& on_sensor_mm) const {
    return {view_.width_px * (0.5 + on_sensor_mm.x / view_.sensor_width_mm),
            view_.height_px * (0.5 - on_sensor_mm.y / view_.sensor_height_mm)};
}

Seen Projection::place(const glm::dvec3& point_m) const {
    const glm::dvec3 from_lens_m = point_m - view_.position_m;
    Seen seen{.axial_m = glm::dot(from_lens_m, view_.forward)};
    if (seen.axial_m > 0)
        seen.at_px = px(on_sensor_mm(from_lens_m, seen.axial_m));
    return seen;
}

Seen Projection::operator()(const glm::dvec3& point_m) const {
    Seen seen = place(point_m);
    if (seen.axial_m <= 0)
        return seen;
    const glm::dvec2 at_mm = on_sensor_mm(point_m - view_.position_m, seen.axial_m);
    seen.image_height = 2 * std::hypot(at_mm.x, at_mm.y) / diagonal_mm_;
    return seen;
}

Seen project(const CameraView& view, const glm::dvec3& point_m) {
    return Projection{view}(point_m);
}

glm::dvec3 engine_from_mark(const FromMark& place) {
    return {place.across_m, place.up_m, -place.back_m};
}

FromMark mark_from_engine(const glm::dvec3& point_m) {
    return {.across_m = point_m.x, .up_m = point_m.y, .back_m = -point_m.z};
}

glm::dvec3 figure_origin_m(const Person& person) {
    const bool sits_lower = person.pose.posture == figures::Posture::on_step;
    return engine_from_mark(person.place) - glm::dvec3{0, sits_lower ? person.pose.step_m : 0.0, 0};
}

figures::Person figure_of(const Person& person) {
    return {.name = person.name,
            .measures = person.measures,
            .pose = person.pose,
            .styling = person.styling};
}

figures::ReferencePoints reference_points(const Person& person) {
    figures::ReferencePoints points = figures::reference_points(figure_of(person));
    put(points, figure_origin_m(person));
    return points;
}

std::vector<figures::Capsule> solids(const Person& person) {
    std::vector<figures::Capsule> solids = figures::solids(figure_of(person));
    put(solids, figure_origin_m(person));
    return solids;
}

figures::PosedBody posed_body(const Person& person) {
    figures::PosedBody body = figures::posed_body(figure_of(person));
    const glm::dvec3 origin_m = figure_origin_m(person);
    put(body.points, origin_m);
    put(body.marks, origin_m);
    put(body.solids, origin_m);
    put(body.hair, origin_m);
    return body;
}

std::optional<glm::dvec3> gaze_point_m(const Scene& scene, const CameraView& view,
                                       const Person& person) {
    return std::visit(GazePoint{scene, view}, person.gaze);
}

glm::dvec3 nearer_eye_m(const CameraView& view, const Person& person) {
    return nearer_eye_m(view, reference_points(person));
}

glm::dvec3 nearer_eye_m(const CameraView& view, const figures::ReferencePoints& points) {
    return axial_m(view, points.left_eye_m) <= axial_m(view, points.right_eye_m)
               ? points.left_eye_m
               : points.right_eye_m;
}

glm::dvec3 lens_position_m(const Camera& camera) {
    return engine_from_mark(
        {.across_m = camera.across_m, .up_m = camera.height_m, .back_m = -camera.lens_to_mark_m});
}

glm::dvec3 aim_point_m(const Scene& scene) {
    return std::visit(AimPoint{scene}, scene.camera.aim);
}

const Person* person_named(const Scene& scene, std::string_view name) {
    const auto index = index_of(scene, name);
    return index ? &scene.people[*index] : nullptr;
}

CameraView camera_view(const Scene& scene) {
    const Camera& camera = scene.camera;
    CameraView view;
    view.position_m = lens_position_m(camera);
    view.look_at_m = aim_point_m(scene);
    if (camera.level)
        view.look_at_m.y = view.position_m.y;
    view.forward = glm::normalize(view.look_at_m - view.position_m);
    view.right = glm::normalize(glm::cross(view.forward, straight_up));
    view.up = glm::cross(view.right, view.forward);

    const bool upright = camera.orientation == Orientation::portrait;
    view.sensor_width_mm = camera.sensor_mm[upright ? 1 : 0];
    view.sensor_height_mm = camera.sensor_mm[upright ? 0 : 1];
    view.width_px = camera.pixels[upright ? 1 : 0];
    view.height_px = camera.pixels[upright ? 0 : 1];

    view.lens = {.focal_length_mm = camera.focal_length_mm,
                 .f_number = camera.f_number,
                 .profile =
                     scene.lens.profile
                         ? optics::at_focal_length(*scene.lens.profile, camera.focal_length_mm)
                         : optics::LensProfile{.widest_f_number = camera.f_number},
                 .blades = scene.lens.blades};
    view.lens.focus_m = std::visit(FocusAxial{scene, view}, scene.focus);
    return view;
}

}  // namespace backrow::scene
