#include "window/pictures/picture_layout.h"

#include "render/faces/face_crop.h"

#include <algorithm>
#include <cmath>

namespace backrow::window {
namespace {

constexpr int fewest_texels = 16;
// Round a face, a share of the head's height.
constexpr double face_margin = 0.1;

int texels_of(double units, double texels_per_unit) {
    return std::max(fewest_texels, static_cast<int>(units * texels_per_unit));
}

PictureLayout lay_whole(const scene::CameraView& view, const Area& area, double texels_per_unit) {
    const double units = std::min(area.width() / static_cast<double>(view.width_px),
                                  area.height() / static_cast<double>(view.height_px));
    const double width = std::floor(view.width_px * units);
    const double height = std::floor(view.height_px * units);
    return {
        .left_top = {area.least.x + std::floor(static_cast<float>((area.width() - width) / 2)),
                     area.least.y + std::floor(static_cast<float>((area.height() - height) / 2))},
        .units_per_px = units,
        .crop = render::whole_frame(view, texels_of(width, texels_per_unit),
                                    texels_of(height, texels_per_unit))};
}

PictureLayout lay_at_full_size(const PicturePoint& middle, const Area& area,
                               double texels_per_unit) {
    const int width = texels_of(area.width(), texels_per_unit);
    const int height = texels_of(area.height(), texels_per_unit);
    return {.left_top = area.least,
            .units_per_px = 1 / texels_per_unit,
            .crop = {.left_px = std::floor(middle.x_px - width / 2.0),
                     .top_px = std::floor(middle.y_px - height / 2.0),
                     .width_px = static_cast<double>(width),
                     .height_px = static_cast<double>(height),
                     .width_texels = width,
                     .height_texels = height}};
}

}  // namespace

ImVec2 PictureLayout::screen(double x_px, double y_px) const {
    return {left_top.x + static_cast<float>((x_px - crop.left_px) * units_per_px),
            left_top.y + static_cast<float>((y_px - crop.top_px) * units_per_px)};
}

Area PictureLayout::screen(const render::CropRect& part) const {
    return {screen(part.left_px, part.top_px),
            screen(part.left_px + part.width_px, part.top_px + part.height_px)};
}

PicturePoint PictureLayout::picture(const ImVec2& screen) const {
    return {crop.left_px + (screen.x - left_top.x) / units_per_px,
            crop.top_px + (screen.y - left_top.y) / units_per_px};
}

PictureLayout lay_picture(const PictureLook& look, const scene::CameraView& view, const Area& area,
                          double texels_per_unit) {
    return look.is_full_size ? lay_at_full_size(look.middle, area, texels_per_unit)
                             : lay_whole(view, area, texels_per_unit);
}

PictureLook dragged(const PictureLook& look, const PictureLayout& layout, const ImVec2& by) {
    PictureLook moved = look;
    moved.middle.x_px -= by.x / layout.units_per_px;
    moved.middle.y_px -= by.y / layout.units_per_px;
    return moved;
}

std::vector<std::optional<Area>>
face_areas(const PictureLayout& layout, const scene::CameraView& view, const scene::Scene& scene) {
    std::vector<std::optional<Area>> areas;
    for (const scene::Person& person : scene.people) {
        const auto face = render::face_crop(view, person, face_margin);
        areas.push_back(face ? std::optional{layout.screen(*face)} : std::nullopt);
    }
    return areas;
}

std::optional<std::size_t> face_at(const std::vector<std::optional<Area>>& areas,
                                   const plan::FaceTable& table, const ImVec2& point) {
    std::optional<std::size_t> nearest;
    for (std::size_t i = 0; i < areas.size(); ++i)
        if (areas[i] && areas[i]->contains(point) &&
            (!nearest || table.faces[i].axial_m < table.faces[*nearest].axial_m))
            nearest = i;
    return nearest;
}

}  // namespace backrow::window
