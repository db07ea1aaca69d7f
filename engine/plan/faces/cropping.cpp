#include "plan/faces/cropping.h"

#include "plan/faces/head_in_picture.h"

#include <algorithm>
#include <array>
#include <span>

namespace backrow::plan {
namespace {

constexpr double close_heads = 0.25;

bool is_above_or_below(const scene::CameraView& view, const glm::dvec3& point_m) {
    const scene::Seen seen = project(view, point_m);
    return seen.axial_m <= 0 || seen.at_px.y < 0 || seen.at_px.y > view.height_px;
}

bool is_beside(const scene::CameraView& view, const glm::dvec3& point_m, double radius_m = 0) {
    const scene::Seen seen = project(view, point_m);
    if (seen.axial_m <= 0)
        return true;
    const double radius_px = radius_m / seen.axial_m * view.image_distance_mm() * view.px_per_mm();
    return seen.at_px.x - radius_px < 0 || seen.at_px.x + radius_px > view.width_px;
}

/// How far the head stays from the nearest edge, camera pixels.
double head_room_px(const scene::CameraView& view, const figures::ReferencePoints& points) {
    double room_px = std::max(view.width_px, view.height_px);
    for (const glm::dvec3& point_m : head_outline_m(points)) {
        const glm::dvec2 at_px = project(view, point_m).at_px;
        room_px = std::min(
            {room_px, at_px.x, view.width_px - at_px.x, at_px.y, view.height_px - at_px.y});
    }
    return room_px;
}

std::optional<Cut> cut_at(const scene::CameraView& view, const figures::PosedBody& body) {
    const figures::ReferencePoints& points = body.points;
    if (is_above_or_below(view, points.crown_m))
        return Cut::crown;
    if (is_above_or_below(view, points.chin_m))
        return Cut::chin;
    const auto outline = head_outline_m(points);
    if (std::ranges::any_of(outline, [&](const glm::dvec3& p) { return is_beside(view, p); }))
        return Cut::side;
    const auto cuts_body = [&](const figures::Capsule& solid) {
        return std::ranges::any_of(std::array{solid.from_m, solid.to_m}, [&](const glm::dvec3& p) {
            return !is_above_or_below(view, p) && is_beside(view, p, solid.radius_m);
        });
    };
    if (std::ranges::any_of(body.solids, cuts_body) || std::ranges::any_of(body.hair, cuts_body))
        return Cut::side;
    const figures::BodyMarks& marks = body.marks;
    if (is_above_or_below(view, marks.chest_m))
        return Cut::chest;
    if (is_above_or_below(view, marks.waist_m))
        return Cut::waist;
    const auto any_cut = [&](std::span<const glm::dvec3> pair) {
        return std::ranges::any_of(pair,
                                   [&](const glm::dvec3& p) { return is_above_or_below(view, p); });
    };
    if (any_cut(marks.knees_m))
        return Cut::knees;
    if (any_cut(marks.soles_m))
        return Cut::feet;
    return std::nullopt;
}

}  // namespace

Cropping cropping(const scene::CameraView& view, const figures::PosedBody& body) {
    const figures::ReferencePoints& points = body.points;
    Cropping cropping{.cut_at = cut_at(view, body),
                      .has_whole_head = whole_head_in_picture(view, points)};
    cropping.is_head_close =
        cropping.has_whole_head &&
        head_room_px(view, points) < close_heads * face_height_px(view, points);
    return cropping;
}

bool FrameCuts::is_whole_group() const noexcept {
    return heads.empty() && heads_close.empty() && bodies.empty();
}

FrameCuts frame_cuts(std::span<const Cropping> croppings) {
    FrameCuts cuts;
    for (std::size_t i = 0; i < croppings.size(); ++i) {
        if (!croppings[i].has_whole_head)
            cuts.heads.push_back(i);
        else if (croppings[i].cut_at)
            cuts.bodies.push_back(i);
        if (croppings[i].is_head_close)
            cuts.heads_close.push_back(i);
    }
    return cuts;
}

const char* to_word(Cut cut) noexcept {
    switch (cut) {
    case Cut::crown:
        return "crown";
    case Cut::chin:
        return "chin";
    case Cut::chest:
        return "chest";
    case Cut::waist:
        return "waist";
    case Cut::knees:
        return "knees";
    case Cut::feet:
        return "feet";
    case Cut::side:
        break;
    }
    return "side";
}

}  // namespace backrow::plan
