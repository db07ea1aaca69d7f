#pragma once

// What a picture makes of a face, measured in it: how blurred the nearer eye is, and how much of
// the face can be seen. For whoever shows pictures of faces: preview, strip and window.

#include "render/faces/probe.h"
#include "render/faces/visibility.h"

#include "scene/camera_view.h"
#include "scene/scene.h"

#include "base/problem.h"

#include <cstddef>
#include <optional>
#include <utility>

namespace backrow::render {

/// As few points of the lens span an area: with one or two, what is measured is the spread of a
/// point's cell, whatever the blur.
inline constexpr int least_points_measured = 3;

/// Whether a picture of so many points of the lens has a blur to measure.
[[nodiscard]] constexpr bool measures_blur(int points_of_lens) noexcept {
    return points_of_lens >= least_points_measured;
}

class FaceMeter {
public:
    [[nodiscard]] static Made<FaceMeter> make(const Gl& gl);

    /// Probe::measure() at the nearer eye, camera pixels. Nothing where it lies behind the lens,
    /// and where the picture has too few points of the lens to be measured (measures_blur()).
    ///
    /// samples  those of the picture; of blocks the first, which has the size of the disc by itself
    [[nodiscard]] std::optional<double> blur_px(const Gl& gl, const scene::CameraView& view,
                                                const LensSamples& samples,
                                                const scene::Person& person) const;

    /// Visibility::measured_visible_fraction() of somebody in the scene whose stage this is.
    ///
    /// person  index in Scene::people
    [[nodiscard]] double measured_visible_fraction(const Gl& gl, const StageOnGpu& stage,
                                                   const scene::CameraView& view,
                                                   const scene::Scene& scene,
                                                   std::size_t person) const;

private:
    FaceMeter(Probe probe, Visibility visibility)
        : probe_{std::move(probe)}, visibility_{std::move(visibility)} {}

    Probe probe_;
    Visibility visibility_;
};

}  // namespace backrow::render
