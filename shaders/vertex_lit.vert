// The world through one point of the lens, where each vertex knows its light already.

#include "lens.glsl"

layout(location = 0) in vec3 position_m;
layout(location = 1) in vec3 vertex_light;
#ifdef GRAINED
layout(location = 2) in vec2 uv;
out vec2 uv_on_surface;
#endif

uniform int first_sample;

out vec3 light_on_surface;

void main() {
    gl_Position = clip_from_world(position_m, lens_samples[first_sample]);
    light_on_surface = vertex_light;
#ifdef GRAINED
    uv_on_surface = uv;
#endif
}
