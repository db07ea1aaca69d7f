#pragma once

// How far a face may drift before it leaves a grade.

#include "scene/camera_view.h"
#include "scene/scene.h"

#include "optics/blur/sharp_zone.h"
#include "optics/blur/viewing.h"

#include <optional>
#include <span>
#include <vector>

namespace backrow::plan {

/// Metres along the optical axis, ≥ 0. Both are 0 for a face outside the grade already.
struct Margin {
    double front_m = 0;  ///< Towards the camera.
    double back_m = 0;   ///< Away from it; may be infinite.
};

/// Axial distances between which each face holds, through the lens as it is at that face's place in
/// the picture; nothing where it holds nowhere, as whoever is beside or behind the lens, or
/// everybody where diffraction alone is too much. Nothing moves: sway and the rest are for the
/// odds.
///
/// grade    crisp, fine or soft
/// returns  one for each of Scene::people, in their order
[[nodiscard]] std::vector<std::optional<optics::AxialRange>>
zones(const scene::Scene& scene, const scene::CameraView& view, optics::Grade grade);

/// The same for a face that holds still anywhere in the picture, and need not be there.
///
/// image_heights  0 centre … 1 corner
/// returns        one for each of them
[[nodiscard]] std::vector<std::optional<optics::AxialRange>>
zones_at(const scene::Scene& scene, const scene::CameraView& view, optics::Grade grade,
         std::span<const double> image_heights);

/// What is left of such a zone for a face that is at this distance.
[[nodiscard]] Margin margin_in(const std::optional<optics::AxialRange>& zone,
                               double axial_m) noexcept;

/// margin_in() of zones() for everybody's nearer eye.
[[nodiscard]] std::vector<Margin> margins(const scene::Scene& scene, const scene::CameraView& view,
                                          optics::Grade grade);

}  // namespace backrow::plan
