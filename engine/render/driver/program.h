#pragma once

// GLSL files compiled and linked.

#include "render/driver/gl.h"

#include "base/problem.h"

#include <string>
#include <vector>

namespace backrow::render {

// Places of uniforms, as the shaders have them, so that no pass has to ask for them by name.

inline constexpr GLint first_sample_uniform = 0;      ///< lens_pass.vert, vertex_lit.vert
inline constexpr GLint first_triangle_uniform = 2;    ///< vertex_lit.frag
inline constexpr GLint highlight_colour_uniform = 1;  ///< vertex_lit.vert, where it is textured
inline constexpr GLint brightness_uniform = 1;        ///< probe.frag
inline constexpr GLint share_uniform = 1;             ///< highlight.frag
inline constexpr GLint pass_sample_uniform = 3;       ///< pass_light.glsl
inline constexpr GLint by_colour_uniform = 4;         ///< lens_pass.vert
inline constexpr GLint share_of_sum_uniform = 0;      ///< cells.glsl
inline constexpr GLint cell_radius_uniform = 1;       ///< cells.glsl
inline constexpr GLint gain_uniform = 2;              ///< develop.frag, linear.frag
inline constexpr GLint first_vertex_uniform = 0;      ///< vertex_light.comp
inline constexpr GLint vertex_count_uniform = 1;      ///< vertex_light.comp
inline constexpr GLint clip_from_world_uniform = 0;   ///< shadow.vert

/// A vertex and a fragment shader out of shaders/. A line `#include "lens.glsl"` is replaced by
/// that file; defines ("FLAT") are set before the first line. Errors name file and line of the
/// source. Fails where a file is missing or the driver refuses it.
[[nodiscard]] Made<Program> make_program(const Gl& gl, const std::string& vertex_file,
                                         const std::string& fragment_file,
                                         const std::vector<std::string>& defines = {});

/// The same for one compute shader.
[[nodiscard]] Made<Program> make_compute_program(const Gl& gl, const std::string& file,
                                                 const std::vector<std::string>& defines = {});

}  // namespace backrow::render
