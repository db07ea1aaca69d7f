#pragma once

// The camera and the crop as shaders/lens.glsl reads them, and which parts can be seen in it.

#include "render/driver/gl.h"
#include "render/passes/crop_rect.h"
#include "render/passes/lens_samples.h"
#include "render/studio/stage_on_gpu.h"

#include "scene/camera_view.h"

#include <vector>

namespace backrow::render {

/// Nothing nearer to the lens than this is drawn, metres along the axis.
inline constexpr double nearest_drawn_m = 0.05;

/// Whether the lens has at most spherical aberration and field curvature: all that
/// shaders/lens.glsl works out as SIMPLE_LENS.
[[nodiscard]] bool is_simple(const optics::LensSettings& lens) noexcept;

/// Camera, crop and lens samples in buffers.
class ViewUniforms {
public:
    ViewUniforms(const Gl& gl, const scene::CameraView& view, const CropRect& crop,
                 const LensSamples& samples);
    void bind() const;

private:
    Buffer view_;
    Buffer samples_;
    Texture open_points_;
};

/// How far from its chief ray the light of a point can land.
class BlurReach {
public:
    explicit BlurReach(const scene::CameraView& view);
    /// Camera pixels, with a little to spare; axial_m > 0.
    [[nodiscard]] double radius_px(double axial_m) const noexcept;

private:
    double px_dioptre_;  // radius of the disc for one dioptre off focus
    double focus_dpt_;
    double error_dpt_;  // the lens's errors at their largest
};

/// Radius of the disc on the axis, texels, without the lens's errors; axial_m may be infinite.
[[nodiscard]] double blur_radius_texels(const scene::CameraView& view, const CropRect& crop,
                                        double axial_m);

/// How far red or blue is parted from green at the most, by the edge of the opening, texels.
[[nodiscard]] double colours_reach_texels(const scene::CameraView& view, const CropRect& crop);

/// The parts of the stage that may touch the crop through some point of the lens.
[[nodiscard]] std::vector<const DrawnPart*>
parts_in_crop(const StageOnGpu& stage, const scene::CameraView& view, const CropRect& crop);

}  // namespace backrow::render
