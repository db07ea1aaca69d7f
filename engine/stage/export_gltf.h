#pragma once

// The stage as a binary glTF 2.0 file, and the camera beside it, for other programs to check ours.

#include "scene/camera_view.h"
#include "stage/stage.h"

#include "base/problem.h"

#include <cstddef>
#include <string>
#include <vector>

namespace backrow::stage {

/// A binary glTF holds lengths in 32 bits, so this is as large as one can be.
inline constexpr std::size_t most_glb_bytes = 0xFFFF'FFFF;

/// A .glb: metres, +Y up, one node a part with its transform, COLOR_0 as normalised 16-bit
/// (shapes/quantise.h), base colour, texture and emission (strength above 1 through
/// KHR_materials_emissive_strength), double sided, and the camera as a node looking down −Z with
/// yfov = 2·atan(sensor height / 2v). Surfaces that no light falls on carry KHR_materials_unlit,
/// unless they glow, which that extension would hide. Equal meshes, materials and textures are
/// written once; parts without triangles are left out. Texture coordinates count from the top left.
///
/// stage     every index of a mesh counts its own vertices, every texture one of the stage's
/// returns   the bytes of the file; the same stage gives the same bytes
/// errors    a stage that would make more than most_glb_bytes
/// source    [GLTF2]
[[nodiscard]] Made<std::vector<std::byte>> glb_from_stage(const Stage& stage,
                                                          const scene::CameraView& view);

/// focal_length_mm, f_number, sensor_width_mm, sensor_height_mm, focus_distance_m (axial),
/// position, look_at, up (engine space), width_px, height_px: of the picture that was made, as
/// JSON.
[[nodiscard]] std::string camera_json(const scene::CameraView& view, int width_px, int height_px);

}  // namespace backrow::stage
