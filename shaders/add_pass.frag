// Adds one pass to the sums: what is sharp to one, what is blurred by more than the cell of a sample can
// leave unnoticed to the other, so that the first keeps its edges while the second is spread.

#include "lens.glsl"

layout(binding = 0) uniform sampler2D pass_colour;

layout(location = 0) out vec4 sharp;    // a: mean of 1/(1 + blur radius) of what is blurred
layout(location = 1) out vec4 blurred;  // a: how much of it there is

void main() {
    vec4 light = texelFetch(pass_colour, ivec2(gl_FragCoord.xy), 0);
    float share = spread_share(light.a);
    sharp = vec4(light.rgb * (1.0 - share), share / (1.0 + light.a));
    blurred = vec4(light.rgb * share, share);
}
