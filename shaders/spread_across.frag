// What is blurred, by itself and spread across by the cells of the lens; a: where their kernel ends.
// Of a neighbour as much is taken as is blurred there, and by no more than either is.

#include "cells.glsl"

layout(binding = 0) uniform sampler2D sharp;
layout(binding = 1) uniform sampler2D blurred;
layout(location = 0) out vec4 mean;

// The mean of 1/(1 + blur) is that of the sharper side of an edge, which counts.
float kernel_end_at(ivec2 at, float amount) {
    float sharpness = texelFetch(sharp, at, 0).a;
    return kernel_end(amount > 0.0 ? cell_radius * (amount / sharpness - 1.0) : 0.0);
}

void main() {
    ivec2 at = ivec2(gl_FragCoord.xy);
    vec4 sum = texelFetch(blurred, at, 0);
    float end = kernel_end_at(at, sum.a);
    int width = textureSize(blurred, 0).x;
    int reach = min(int(ceil(end)) - 1, width);
    for (int i = 1; i <= reach; ++i)
        for (int side = -i; side <= i; side += 2 * i) {
            ivec2 there = at + ivec2(side, 0);
            if (there.x < 0 || there.x >= width)
                continue;
            vec4 neighbour = texelFetch(blurred, there, 0);
            sum += neighbour * weight_at(float(i), min(end, kernel_end_at(there, neighbour.a)));
        }
    mean = vec4(sum.rgb / max(sum.a, 1e-6), end);
}
