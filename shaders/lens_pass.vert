// The world through one point of the lens; instances are further points of the lens, or the three
// colours of each.

#include "lens.glsl"

layout(location = 0) in vec3 position_m;
layout(location = 1) in vec3 normal;
layout(location = 2) in vec4 colour_and_ambient_visibility;
layout(location = 3) in vec2 uv;
layout(location = 4) in uvec2 material_and_face;

layout(location = 0) uniform int first_sample;
layout(location = 4) uniform bool by_colour;

out Surface {
    vec3 position_m;
    vec3 normal;
    vec4 colour_and_ambient_visibility;
    vec2 uv;
    flat uint material;
    flat uint face;
} surface;
out float blur_by_depth;
flat out int channel;

void main() {
    channel = by_colour ? gl_InstanceID % 3 : -1;
    Landing at = landing(position_m,
                         lens_samples[first_sample + (by_colour ? gl_InstanceID / 3 : gl_InstanceID)]);
    gl_Position = at.clip;
    if (by_colour)
        gl_Position.xy += colour_shift(channel, at.pupil) * texel.xy * at.clip.w;
    blur_by_depth = at.blur_by_depth;
    surface.position_m = position_m;
    surface.normal = normal;
    surface.colour_and_ambient_visibility = colour_and_ambient_visibility;
    surface.uv = uv;
    surface.material = material_and_face.x;
    surface.face = material_and_face.y;
}
