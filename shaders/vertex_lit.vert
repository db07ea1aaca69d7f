// The world through one point of the lens, where each vertex knows its light already. Skin detail multiplies
// it at every pixel, or, where it is too small to be seen, its mean does at the vertex; any other
// texture multiplies it and leaves alone what is added.

#include "lens.glsl"

layout(location = 0) in vec3 position_m;
layout(location = 1) in vec4 vertex_light;
layout(location = 2) in vec2 uv;
#ifdef MEAN_DETAILED
layout(binding = 0) uniform sampler2D skin_detail;
const int mean_level = 4;  // of 16 × 16 texels
#endif
#ifdef TEXTURED
#include "material.glsl"
layout(location = 3) in uvec2 material_and_face;
layout(location = 1) uniform vec3 highlight_colour;
out vec3 added_light;
#endif

layout(location = 0) uniform int first_sample;

out vec3 light_on_surface;
out vec2 uv_on_surface;
out float blur_by_depth;

void main() {
    Landing at = landing(position_m, lens_samples[first_sample]);
    gl_Position = at.clip;
    blur_by_depth = at.blur_by_depth;
    light_on_surface = vertex_light.rgb;
#ifdef MEAN_DETAILED
    ivec2 size = textureSize(skin_detail, mean_level);
    ivec2 texel_at = min(ivec2(fract(uv) * vec2(size)), size - 1);
    light_on_surface *= texelFetch(skin_detail, texel_at, mean_level).rgb;
#endif
#ifdef TEXTURED
    added_light = highlight_colour * vertex_light.a + materials[material_and_face.x].emission.rgb;
#endif
    uv_on_surface = uv;
}
