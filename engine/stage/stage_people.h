#pragma once

// The people of a stage: how finely they are built, what their eyes do, the sheets of skin detail
// that lie over them.

#include "scene/camera_view.h"
#include "scene/scene.h"
#include "stage/stage.h"

#include "figures/skin/skin_detail.h"

#include <array>
#include <span>
#include <vector>

namespace backrow::stage {

/// How high a person's head is in the picture, camera pixels: head height · v/axial distance. The
/// measure of how finely a figure is built; 0 behind the camera.
[[nodiscard]] double head_height_px(const scene::CameraView& view, const scene::Person& person);

/// Which detail a head of this height deserves: near from 140 px on, middle from 40 px on; close
/// from 420 px on where no more than eight people share the picture.
[[nodiscard]] figures::Detail detail_for(double head_px, std::size_t people);

/// One person as build_stage() makes them: face and body, without the sheet of their skin.
///
/// views     at least one; the eyes look at, and mirror the light to, the first
/// earlier   as of build_stage()
[[nodiscard]] std::array<Part, 2>
person_parts(const scene::Scene& scene, std::span<const scene::CameraView> views,
             std::size_t person, figures::HasSkinDetail skin_detail, const Stage& earlier = {});

/// The sheets that a scene's people share.
struct SkinSheets {
    std::vector<figures::SkinDetailKind> kinds;
    figures::SheetSize size = figures::SheetSize::half;
    std::vector<int> of_person;  ///< Index into kinds; −1 for who is seen small.
};
[[nodiscard]] SkinSheets skin_sheets(const scene::Scene& scene,
                                     std::span<const scene::CameraView> views,
                                     figures::HasSkinDetail wanted);

}  // namespace backrow::stage
