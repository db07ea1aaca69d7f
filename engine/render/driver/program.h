#pragma once

// GLSL files compiled and linked.

#include "render/driver/gl.h"

#include "base/problem.h"

#include <string>
#include <vector>

namespace backrow::render {

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
