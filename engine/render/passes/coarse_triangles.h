#pragma once

// Fewer triangles over the same vertices, in the same light, for a picture that has to come at
// once: of vertices in one cell of a grid, one stands for all [ROSSIGNAC1993]. What is finer than a
// texel costs a small picture most of its time and is not to be seen in it.

#include "render/studio/stage_on_gpu.h"

#include <cstddef>
#include <cstdint>
#include <map>
#include <span>
#include <unordered_map>
#include <utility>
#include <vector>

namespace backrow::render {

/// Cells of one size, and which vertex stands for all in each: the first that was met. Vertices at
/// just its place are left as they are, for there two surfaces meet in an edge or a seam.
class VertexCells {
public:
    /// side_m  > 0
    explicit VertexCells(double side_m) : side_m_{side_m} {}

    /// Those of these triangles that keep three corners. Triangles that once shared an edge do so
    /// afterwards, if they went through the same cells.
    ///
    /// indices  three a triangle, into positions_m
    [[nodiscard]] std::vector<std::uint32_t> coarser(std::span<const std::uint32_t> indices,
                                                     const std::vector<glm::vec3>& positions_m);

private:
    double side_m_;
    std::unordered_map<std::uint64_t, std::uint32_t> first_in_;
};

/// Of one stage; what was worked out stays for the pictures that follow, and who moves keeps the
/// triangles that they had.
class CoarseTriangles {
public:
    /// A part's triangles, three indices each as in StageOnGpu::indices(). Valid until the next
    /// call.
    ///
    /// number  of the part among the stage's
    /// cell_m  longest side of a cell, > 0; the cells are up to a half smaller
    [[nodiscard]] std::span<const std::uint32_t> of(const StageOnGpu& stage, std::size_t number,
                                                    double cell_m);

private:
    /// One part of the stage may be drawn as several.
    struct StagePart {
        VertexCells cells;
        std::map<std::size_t, std::vector<std::uint32_t>> drawn;  ///< By number.
    };
    std::map<std::pair<std::size_t, double>, StagePart> parts_;  ///< By number, and log2 of cells.
};

}  // namespace backrow::render
