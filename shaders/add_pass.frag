// Adds one pass to the sums: what is sharp to one, what is blurred by more than the cell of a sample can
// leave unnoticed to the other, so that the first keeps its edges while the second is spread.

#include "lens.glsl"

layout(binding = 0) uniform sampler2D pass_colour;
layout(binding = 1) uniform sampler2D pass_depth;
layout(location = 0) uniform int first_sample;

layout(location = 0) out vec4 sharp;    // a: mean of 1/(1 + blur radius) of what is blurred
layout(location = 1) out vec4 blurred;  // a: how much of it there is

void main() {
    ivec2 at = ivec2(gl_FragCoord.xy);
    vec3 light = texelFetch(pass_colour, at, 0).rgb;
    vec2 clip = vec2(gl_FragCoord.x * texel.x - 1.0, 1.0 - gl_FragCoord.y * texel.y);
    float image_height = length((clip - crop.zw) / crop.xy) * defects.z;
    float blur = blur_radius_texels(texelFetch(pass_depth, at, 0).r / lens.w,
                                    vergence_at(image_height), lens_samples[first_sample]);
    float share = spread_share(blur);
    sharp = vec4(light * (1.0 - share), share / (1.0 + blur));
    blurred = vec4(light * share, share);
}
