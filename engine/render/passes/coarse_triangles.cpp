#include "render/passes/coarse_triangles.h"

#include <cmath>

namespace backrow::render {
namespace {

// Twenty-one bits for each direction: two kilometres of cells of a millimetre.
std::uint64_t cell_of(const glm::vec3& at_m, double side_m) {
    std::uint64_t cell = 0;
    for (int axis = 0; axis < 3; ++axis) {
        const auto step = static_cast<std::int64_t>(std::floor(at_m[axis] / side_m));
        cell = cell << 21 | (static_cast<std::uint64_t>(step) & 0x1fffff);
    }
    return cell;
}

}  // namespace

std::vector<std::uint32_t> VertexCells::coarser(std::span<const std::uint32_t> indices,
                                                const std::vector<glm::vec3>& positions_m) {
    const auto stands_for = [&](std::uint32_t vertex) {
        const glm::vec3& at_m = positions_m[vertex];
        const std::uint32_t first =
            first_in_.try_emplace(cell_of(at_m, side_m_), vertex).first->second;
        return positions_m[first] == at_m ? vertex : first;
    };
    std::vector<std::uint32_t> left;
    for (std::size_t i = 0; i + 2 < indices.size(); i += 3) {
        const std::uint32_t a = stands_for(indices[i]);
        const std::uint32_t b = stands_for(indices[i + 1]);
        const std::uint32_t c = stands_for(indices[i + 2]);
        if (a != b && b != c && c != a)
            left.insert(left.end(), {a, b, c});
    }
    return left;
}

std::span<const std::uint32_t> CoarseTriangles::of(const StageOnGpu& stage, std::size_t number,
                                                   double cell_m) {
    const DrawnPart& part = stage.parts()[number];
    // Doubled and halved, so that a camera that comes nearer does not ask for others all the time.
    const double halvings = std::floor(std::log2(cell_m));
    StagePart& kept = parts_
                          .try_emplace({part.stage_part, halvings},
                                       StagePart{VertexCells{std::exp2(halvings)}, {}})
                          .first->second;
    const auto [found, is_new] = kept.drawn.try_emplace(number);
    if (is_new)
        found->second = kept.cells.coarser(
            std::span{stage.indices()}.subspan(static_cast<std::size_t>(part.first_index),
                                               static_cast<std::size_t>(part.index_count)),
            stage.positions());
    return found->second;
}

}  // namespace backrow::render
