// Every lens sample stands for a cell of the opening, one of as many equal ones as there are samples. A
// point off focus is imaged through a cell as a small disc, not as a point: spread by it, the samples'
// ghosts of an edge become the blur that they stand for. One direction at a time.

layout(location = 0) uniform float share_of_sum;  // one over the passes
layout(location = 1) uniform float cell_radius;   // of the disc's radius

const float kernel_radii = 1.3228757;  // √7/2, as lens_samples.cpp has it

// Where the kernel ends that spreads by images of cells of this radius: its variance is that of a disc
// of the radius, r²/4, also where it holds no more than a texel on either side.
float kernel_end(float radius_texels) {
    float variance = 0.25 * radius_texels * radius_texels;
    if (variance > 0.5)
        return kernel_radii * radius_texels;
    return inversesqrt(1.0 - sqrt(variance / (2.0 - 2.0 * variance)));
}

// How much a neighbour counts, so far away, where the kernel ends there.
float weight_at(float distance_texels, float end_texels) {
    float part = distance_texels / end_texels;
    float left = max(0.0, 1.0 - part * part);
    return left * left;
}
