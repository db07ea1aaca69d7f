// Adds one pass to the sums in place: graphics cards are slow at blending 32-bit floats.

#include "add_pass.glsl"

layout(local_size_x = 16, local_size_y = 16) in;
layout(rgba32f, binding = 0) uniform image2D sharp_sum;
layout(rgba32f, binding = 1) uniform image2D blurred_sum;

void main() {
    ivec2 at = ivec2(gl_GlobalInvocationID.xy);
    if (any(greaterThanEqual(at, imageSize(sharp_sum))))
        return;
    Parts parts = parts_of_pass(at);
    imageStore(sharp_sum, at, imageLoad(sharp_sum, at) + parts.sharp);
    imageStore(blurred_sum, at, imageLoad(blurred_sum, at) + parts.blurred);
}
