// What a pass adds to the sums: what is sharp to one, what is blurred by more than the cell of a sample can
// leave unnoticed to the other, so that the first keeps its edges while the second is spread.

#include "lens.glsl"

layout(binding = 0) uniform sampler2D pass_colour;

struct Parts {
    vec4 sharp;    // a: 1/(1 + blur radius) of what is blurred, its mean is the sharper side's of an edge
    vec4 blurred;  // a: how much of it there is
};

Parts parts_of_pass(ivec2 at) {
    vec4 light = texelFetch(pass_colour, at, 0);
    float share = spread_share(light.a);
    return Parts(vec4(light.rgb * (1.0 - share), share / (1.0 + light.a)),
                 vec4(light.rgb * share, share));
}
