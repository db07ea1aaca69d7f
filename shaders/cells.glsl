// Every lens sample stands for a cell of the opening, one of as many equal ones as there are samples. A
// point off focus is imaged through a cell as a small disc, not as a point: spread by it, the samples'
// ghosts of an edge become the blur that they stand for. One direction at a time.

layout(location = 0) uniform float share_of_sum;  // one over the passes
layout(location = 1) uniform float cell_radius;   // of the disc's radius

const float kernel_radii = 1.3228757;  // √7/2, as lens_samples.cpp has it

// How much a neighbour counts, so far away, where the cells' images have this radius. The variance is
// that of a disc of the radius, r²/4.
float weight_at(float distance_texels, float radius_texels) {
    float part = distance_texels / max(kernel_radii * radius_texels, 1e-6);
    float left = max(0.0, 1.0 - part * part);
    return left * left;
}

int reach_of(float radius_texels) { return int(kernel_radii * radius_texels); }
