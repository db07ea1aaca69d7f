// A small bright source: each copy adds its share of the light and takes away the same share of what
// this pass shows behind it, of what is spread the amount alone (a).

#include "lens.glsl"
#include "surface.glsl"

layout(binding = 0) uniform sampler2D pass_colour;
layout(location = 1) uniform float share;
layout(location = 0) out vec4 light;

void main() {
    vec4 behind = texelFetch(pass_colour, ivec2(gl_FragCoord.xy), 0);
    float spread = spread_share(behind.a);
    light = share * vec4(materials[surface.material].emission.rgb - behind.rgb * (1.0 - spread), spread);
}
