#pragma once

// How the camera's picture lies on the screen, whole or at one texel a camera pixel, and whose face
// a pointer on it is over.

#include "window/layout.h"

#include "plan/faces/face_table.h"
#include "render/passes/crop_rect.h"
#include "scene/camera_view.h"
#include "scene/scene.h"

#include <imgui.h>

#include <cstddef>
#include <optional>
#include <vector>

namespace backrow::window {

/// A point of the camera's picture, in its pixels from the top-left corner.
struct PicturePoint {
    double x_px = 0;
    double y_px = 0;
};

/// What of the picture is looked at.
struct PictureLook {
    bool is_full_size = false;  ///< One texel of the screen is one camera pixel …
    PicturePoint middle{};      ///< … round this one.
};

/// What the darkroom is to fill, as last laid out.
struct WantedPrints {
    render::CropRect picture{};
    int face_width_texels = 0;
    int face_height_texels = 0;
};

struct PictureLayout {
    ImVec2 left_top{};
    double units_per_px = 1;  ///< Of the screen, per camera pixel.
    render::CropRect crop{};  ///< What shows.

    [[nodiscard]] ImVec2 screen(double x_px, double y_px) const;
    [[nodiscard]] Area screen(const render::CropRect& part) const;
    [[nodiscard]] PicturePoint picture(const ImVec2& screen) const;
    [[nodiscard]] Area area() const { return screen(crop); }
};

/// area             of the screen, to be filled: by the whole picture as far as its shape allows,
///                  at full size all of it
/// texels_per_unit  of the screen
[[nodiscard]] PictureLayout lay_picture(const PictureLook& look, const scene::CameraView& view,
                                        const Area& area, double texels_per_unit);

/// The look after the picture has been dragged by so many units of the screen.
[[nodiscard]] PictureLook dragged(const PictureLook& look, const PictureLayout& layout,
                                  const ImVec2& by);

/// Everybody's face on the screen, in the order of Scene::people; nothing for whoever is not before
/// the lens.
///
/// view  camera_view() of this scene
[[nodiscard]] std::vector<std::optional<Area>>
face_areas(const PictureLayout& layout, const scene::CameraView& view, const scene::Scene& scene);

/// Whose face is there; whoever stands nearer hides whoever stands behind.
///
/// areas  face_areas()
/// table  face_table() of the same scene
[[nodiscard]] std::optional<std::size_t> face_at(const std::vector<std::optional<Area>>& areas,
                                                 const plan::FaceTable& table, const ImVec2& point);

}  // namespace backrow::window
