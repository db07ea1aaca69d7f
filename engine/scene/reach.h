#pragma once

// How much of a backdrop the camera can see.

#include "scene/camera_view.h"

#include "setting/surroundings.h"

#include <span>

namespace backrow::scene {

/// The part of a backdrop's plane that the frame can show, the blur of the open lens added:
///
///     half the object-field disc, D·|d − s|/(2s), and what the frame's corners meet
///
/// source    [MERKLINGER] for the disc at the subject
[[nodiscard]] setting::Reach reach_of(const CameraView& view, double back_m);

/// What all of these views need: from the nearest of them, and reaching as far as any.
///
/// views   at least one
[[nodiscard]] setting::Reach reach_of(std::span<const CameraView> views, double back_m);

/// Whether a backdrop made for the first fills all of the second.
[[nodiscard]] bool covers(const setting::Reach& made, const setting::Reach& wanted);

}  // namespace backrow::scene
