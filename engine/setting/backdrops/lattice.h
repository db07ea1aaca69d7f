#pragma once

// Surfaces over a lattice of lines that are close together where the camera looks and far apart
// where it does not.

#include "shapes/assemble.h"

#include <cstddef>
#include <vector>

namespace backrow::setting {

/// Lines every step from low to high, then further and further apart, each gap growth times the one
/// before, until they pass ±limit. Ascending. low ≤ 0 ≤ high, step > 0, growth > 1.
[[nodiscard]] std::vector<float> graded_lines(float low, float high, float step, float growth,
                                              float limit);

/// A sheet facing up, one vertex where lines cross. xs and zs ascend; vertex_at(x, z) makes a
/// vertex, and a cell is left out where is_open(x middle, z middle).
template <class VertexAt, class IsOpen>
void append_sheet(shapes::Mesh& mesh, const std::vector<float>& xs, const std::vector<float>& zs,
                  const VertexAt& vertex_at, const IsOpen& is_open) {
    const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
    const auto columns = static_cast<std::uint32_t>(xs.size());
    for (const float z : zs) {
        for (const float x : xs)
            shapes::append(mesh, vertex_at(x, z));
    }
    for (std::size_t row = 0; row + 1 < zs.size(); ++row) {
        for (std::size_t column = 0; column + 1 < xs.size(); ++column) {
            if (is_open((xs[column] + xs[column + 1]) / 2, (zs[row] + zs[row + 1]) / 2))
                continue;
            const std::uint32_t far_left = first + static_cast<std::uint32_t>(row) * columns +
                                           static_cast<std::uint32_t>(column);
            const std::uint32_t near_left = far_left + columns;
            shapes::append_triangle(mesh, far_left, near_left, near_left + 1);
            shapes::append_triangle(mesh, far_left, near_left + 1, far_left + 1);
        }
    }
}

template <class VertexAt>
void append_sheet(shapes::Mesh& mesh, const std::vector<float>& xs, const std::vector<float>& zs,
                  const VertexAt& vertex_at) {
    append_sheet(mesh, xs, zs, vertex_at, [](float, float) { return false; });
}

}  // namespace backrow::setting
