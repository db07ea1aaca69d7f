// What a pass adds to the sums: what is sharp to one, what is blurred by more than the cell of a sample can
// leave unnoticed to the other, so that the first keeps its edges while the second is spread.

#include "pass_light.glsl"

struct Parts {
    vec4 sharp;    // a: 1/(1 + blur radius) of what is blurred, its mean is the sharper side's of an edge
    vec4 blurred;  // a: how much of it there is
};

Parts parts_of_pass(ivec2 at) {
    Seen seen = seen_by_pass(at);
    return Parts(vec4(seen.light * (1.0 - seen.spread), seen.spread.g / (1.0 + seen.blur_texels)),
                 vec4(seen.light * seen.spread, seen.spread.g));
}
