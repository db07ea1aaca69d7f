// The rest of what spread_across.frag began, what is sharp, and the small lights, which have their own
// fine samples.

#include "cells.glsl"

layout(binding = 0) uniform sampler2D sharp;
layout(binding = 1) uniform sampler2D blurred;
layout(binding = 2) uniform sampler2D mean;
layout(binding = 3) uniform sampler2D lights;
layout(binding = 4) uniform sampler2D arriving;  // what arrives of the light, its corners in the picture's

vec3 spread_light() {
    ivec2 at = ivec2(gl_FragCoord.xy);
    vec4 here = texelFetch(mean, at, 0);
    int height = textureSize(mean, 0).y;
    int reach = min(int(ceil(here.a)) - 1, height);
    vec3 light = here.rgb;
    float weights = 1.0;
    for (int i = 1; i <= reach; ++i)
        for (int side = -i; side <= i; side += 2 * i) {
            ivec2 there = at + ivec2(0, side);
            if (there.y < 0 || there.y >= height)
                continue;
            vec4 neighbour = texelFetch(mean, there, 0);
            float weight = weight_at(float(i), min(here.a, neighbour.a));
            light += weight * neighbour.rgb;
            weights += weight;
        }
    vec4 small_lights = texelFetch(lights, min(at, textureSize(lights, 0) - 1), 0);
    float amount = texelFetch(blurred, at, 0).a - small_lights.a;
    vec2 nodes = vec2(textureSize(arriving, 0));
    vec2 place = gl_FragCoord.xy / vec2(textureSize(sharp, 0));
    return share_of_sum * texture(arriving, (place * (nodes - 1.0) + 0.5) / nodes).r *
           (texelFetch(sharp, at, 0).rgb + amount * light / weights + small_lights.rgb);
}
