#include "plan/drawings/from_the_side.h"

#include "plan/faces/margin.h"

#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>

namespace backrow::plan {
namespace {

/// Over the height of the frame.
constexpr int side_slices = 17;

/// Engine space to the paper.
class Profile {
public:
    explicit Profile(const scene::CameraView& view)
        : view_{view}, away_{glm::normalize(glm::dvec3{view.forward.x, 0, view.forward.z})} {}

    [[nodiscard]] DrawingPoint point(const glm::dvec3& point_m) const {
        return {.x_m = glm::dot(point_m - view_.position_m, away_), .y_m = point_m.y};
    }
    /// In the upright plane through the axis.
    [[nodiscard]] DrawingPoint point(double up_slope, double axial_m) const {
        return point(view_.position_m + axial_m * (view_.forward + up_slope * view_.up));
    }

private:
    const scene::CameraView& view_;
    glm::dvec3 away_;
};

HeadFromTheSide head_from_the_side(const scene::Person& person, const Face& face,
                                   const scene::CameraView& view, const Profile& profile) {
    const figures::ReferencePoints points = scene::reference_points(person);
    const bool right_is_farther =
        axial_m(view, points.right_ear_m) > axial_m(view, points.left_ear_m);
    return {.nearer_eye = profile.point(scene::engine_from_mark(face.eye)),
            .nose_tip = profile.point(points.nose_tip_m),
            .farther_ear = profile.point(right_is_farther ? points.right_ear_m : points.left_ear_m),
            .chin = profile.point(points.chin_m),
            .crown = profile.point(points.crown_m),
            .height_m = person.measures.head_height_m,
            .row = person.row,
            .verdict = verdict_of(face)};
}

DrawnZone drawn_zone(const scene::Scene& scene, const scene::CameraView& view,
                     const Profile& profile, optics::Grade grade, double end_m) {
    const double v_mm = view.image_distance_mm();
    std::vector<double> slopes(side_slices), heights(side_slices);
    for (std::size_t i = 0; i < side_slices; ++i) {
        const double share = 2.0 * static_cast<double>(i) / (side_slices - 1) - 1;
        slopes[i] = share * view.sensor_height_mm / (2 * v_mm);
        heights[i] = std::abs(share) * view.sensor_height_mm /
                     std::hypot(view.sensor_width_mm, view.sensor_height_mm);
    }
    const auto zones = zones_at(scene, view, grade, heights);
    DrawnZone zone(side_slices);
    for (std::size_t i = 0; i < side_slices; ++i)
        if (zones[i] && zones[i]->near_m < end_m)
            zone[i] = ZoneSlice{.near = profile.point(slopes[i], zones[i]->near_m),
                                .far = profile.point(slopes[i], std::min(zones[i]->far_m, end_m))};
    return zone;
}

Extent extent_of(const std::vector<HeadFromTheSide>& heads) {
    constexpr double hand_m = 0.1;
    Extent extent;
    for (const HeadFromTheSide& head : heads)
        for (const DrawingPoint& point : {head.nose_tip, head.farther_ear, head.chin, head.crown})
            extent.take(point, hand_m);
    return extent;
}

}  // namespace

FromTheSide from_the_side(const scene::Scene& scene, const scene::CameraView& view,
                          const FaceTable& table) {
    constexpr double beyond_people = 1.5;
    double end_m = 0;
    for (const Face& face : table.faces)
        end_m = std::max(end_m, beyond_people * face.axial_m);

    const Profile profile{view};
    FromTheSide drawing;
    drawing.lens = profile.point(view.position_m);
    drawing.axis = {drawing.lens, profile.point(0, end_m)};
    if (view.lens.focus_m <= end_m) {
        const double half_slope = view.sensor_height_mm / (2 * view.image_distance_mm());
        drawing.plane_of_focus = Line{profile.point(-half_slope, view.lens.focus_m),
                                      profile.point(half_slope, view.lens.focus_m)};
    }
    drawing.crisp = drawn_zone(scene, view, profile, optics::Grade::crisp, end_m);
    drawing.fine = drawn_zone(scene, view, profile, optics::Grade::fine, end_m);
    for (std::size_t i = 0; i < scene.people.size(); ++i)
        drawing.heads.push_back(head_from_the_side(scene.people[i], table.faces[i], view, profile));
    drawing.heads_extent = extent_of(drawing.heads);
    return drawing;
}

}  // namespace backrow::plan
