// A small bright source: each copy adds its share of the light and takes away the same share of what
// this pass shows behind it, of what is spread the amount alone (a). Where the lens parts the colours,
// there is a copy of each.

#include "pass_light.glsl"
#include "surface.glsl"

layout(location = 1) uniform float share;
flat in int channel;  // −1: all of them
layout(location = 0) out vec4 light;

void main() {
    Seen behind = seen_by_pass(ivec2(gl_FragCoord.xy));
    vec3 kept = behind.light * (1.0 - behind.spread);
    light = share * vec4(materials[surface.material].emission.rgb - kept, behind.spread.g);
    if (channel >= 0)
        light *= vec4(equal(ivec4(channel), ivec4(0, 1, 2, 1)));
}
