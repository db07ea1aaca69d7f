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

class FaceMeter {
public:
    [[nodiscard]] static Made<FaceMeter> make(const Gl& gl);

    /// Probe::measure() at the nearer eye, camera pixels. Nothing where it lies behind the lens.
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
