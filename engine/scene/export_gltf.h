#pragma once

// The stage as a binary glTF 2.0 file, and the camera beside it, for other programs to check ours.

#include "scene/camera_view.h"
#include "scene/stage.h"

#include <cstddef>
#include <string>
#include <vector>

namespace backrow::scene {

/// A .glb: metres, +Y up, one node a part with its transform, COLOR_0 as normalised 16-bit, base
/// colour, texture and emission (strength above 1 through KHR_materials_emissive_strength), double
/// sided, and the camera as a node looking down −Z with yfov = 2·atan(sensor height / 2v).
/// Source: [GLTF2].
[[nodiscard]] std::vector<std::byte> glb_from_stage(const Stage& stage, const CameraView& view);

/// focal_length_mm, f_number, sensor_width_mm, sensor_height_mm, focus_distance_m (axial),
/// position, look_at, up (engine space), width_px, height_px.
[[nodiscard]] std::string camera_json(const CameraView& view, int width_px, int height_px);

}  // namespace backrow::scene
