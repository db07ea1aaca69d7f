// Adds one pass to the sums by blending: quicker on a software rasteriser.

#include "add_pass.glsl"

layout(location = 0) out vec4 sharp;
layout(location = 1) out vec4 blurred;

void main() {
    Parts parts = parts_of_pass(ivec2(gl_FragCoord.xy));
    sharp = parts.sharp;
    blurred = parts.blurred;
}
