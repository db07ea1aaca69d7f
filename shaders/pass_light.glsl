// What a pass sees, of each colour where it is: red and blue are green's picture moved by what the lens
// parts them by, which at any distance is the same.

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
vec4 other_colour(ivec2 at, int channel, vec2 pupil) {
    vec2 off = round(lens_samples[pass_sample].jitter - colour_shift(channel, pupil));
    ivec2 there = at + ivec2(off.x, -off.y);
    return texelFetch(pass_colour, clamp(there, ivec2(0), textureSize(pass_colour, 0) - 1), 0);
}

Seen seen_by_pass(ivec2 at) {
    vec4 green = texelFetch(pass_colour, at, 0);
    float share = spread_share(green.a);
    Seen seen = Seen(green.rgb, vec3(share), green.a);
    if (colours.z > 0.0) {
        vec2 pupil = open_point(lens_samples[pass_sample].pupil, height_at(vec2(at) + 0.5)).pupil;
        vec4 red = other_colour(at, 0, pupil);
        vec4 blue = other_colour(at, 2, pupil);
        seen.light.rb = vec2(red.r, blue.b);
        seen.spread.rb = vec2(spread_share(red.a), spread_share(blue.a));
    }
    return seen;
}
