// What a pass sees, of each colour where it is: red and blue are green's picture moved by what the lens
// parts them by, which is the same all over a pass.

#include "lens.glsl"

layout(binding = 0) uniform sampler2D pass_colour;
layout(location = 3) uniform int pass_sample;

struct Seen {
    vec3 light;
    vec3 spread;        // how much of each is to be spread (lens.glsl)
    float blur_texels;  // of green
};

// By whole texels, so that the place in the texel that the pass stands for stays within it: jitter
// and what the rounding leaves are one jitter.
ivec2 texels_off(int channel, LensSample through) {
    vec2 off = round(through.jitter - colour_shift(channel, through));
    return ivec2(off.x, -off.y);
}

vec4 other_colour(ivec2 at, int channel) {
    ivec2 there = at + texels_off(channel, lens_samples[pass_sample]);
    return texelFetch(pass_colour, clamp(there, ivec2(0), textureSize(pass_colour, 0) - 1), 0);
}

Seen seen_by_pass(ivec2 at) {
    vec4 green = texelFetch(pass_colour, at, 0);
    float share = spread_share(green.a);
    Seen seen = Seen(green.rgb, vec3(share), green.a);
    if (colours.z > 0.0) {
        vec4 red = other_colour(at, 0);
        vec4 blue = other_colour(at, 2);
        seen.light.rb = vec2(red.r, blue.b);
        seen.spread.rb = vec2(spread_share(red.a), spread_share(blue.a));
    }
    return seen;
}
