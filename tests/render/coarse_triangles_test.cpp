#include "render/passes/coarse_triangles.h"

#include <catch2/catch.hpp>

#include <glm/geometric.hpp>

#include <algorithm>
#include <map>
#include <set>
#include <utility>

using backrow::render::VertexCells;

namespace {

struct Surface {
    std::vector<glm::vec3> positions_m;
    std::vector<std::uint32_t> indices;
};

/// A sheet one metre square of so many squares a side, each of two triangles, bent to a hill.
Surface sheet(std::uint32_t squares, float hill = 0.2f) {
    Surface made;
    for (std::uint32_t row = 0; row <= squares; ++row)
        for (std::uint32_t column = 0; column <= squares; ++column) {
            const float x = static_cast<float>(column) / static_cast<float>(squares);
            const float z = static_cast<float>(row) / static_cast<float>(squares);
            made.positions_m.emplace_back(x, hill * x * (1 - x), z);
        }
    const auto at = [&](std::uint32_t row, std::uint32_t column) {
        return row * (squares + 1) + column;
    };
    for (std::uint32_t row = 0; row < squares; ++row)
        for (std::uint32_t column = 0; column < squares; ++column)
            made.indices.insert(made.indices.end(), {at(row, column), at(row, column + 1),
                                                     at(row + 1, column), at(row + 1, column),
                                                     at(row, column + 1), at(row + 1, column + 1)});
    return made;
}

double area_m2(const std::vector<std::uint32_t>& indices, const std::vector<glm::vec3>& at_m) {
    double sum_m2 = 0;
    for (std::size_t i = 0; i + 2 < indices.size(); i += 3)
        sum_m2 += glm::length(glm::cross(at_m[indices[i + 1]] - at_m[indices[i]],
                                         at_m[indices[i + 2]] - at_m[indices[i]])) /
                  2;
    return sum_m2;
}

}  // namespace

TEST_CASE("a quick picture's surface has fewer triangles, and nearly the same size",
          "[render][property]") {
    const Surface fine = sheet(100);
    VertexCells cells{0.05};
    const auto coarse = cells.coarser(fine.indices, fine.positions_m);
    CHECK(coarse.size() < fine.indices.size() / 10);
    CHECK(area_m2(coarse, fine.positions_m) ==
          Approx(area_m2(fine.indices, fine.positions_m)).epsilon(0.1));
}

TEST_CASE("a quick picture's surface has no holes", "[render][property]") {
    const Surface fine = sheet(40);
    const auto coarse = VertexCells{0.06}.coarser(fine.indices, fine.positions_m);
    // Each edge inside is met once in either direction.
    std::map<std::pair<std::uint32_t, std::uint32_t>, int> edges;
    for (std::size_t i = 0; i < coarse.size(); i += 3)
        for (std::size_t k = 0; k < 3; ++k)
            ++edges[{coarse[i + k], coarse[i + (k + 1) % 3]}];
    for (const auto& [edge, times] : edges) {
        const auto& [from, to] = edge;
        const auto is_rim = [&](float a, float b) {
            return (a < 0.06f && b < 0.06f) || (a > 0.9f && b > 0.9f);
        };
        const glm::vec3& a = fine.positions_m[from];
        const glm::vec3& b = fine.positions_m[to];
        if (!is_rim(a.x, b.x) && !is_rim(a.z, b.z))
            CHECK(edges.contains({to, from}));
    }
}

TEST_CASE("what is larger than the cells of a quick picture stays as it is", "[render][property]") {
    const Surface large = sheet(4);
    CHECK(VertexCells{0.05}.coarser(large.indices, large.positions_m) == large.indices);

    // Where two surfaces meet in an edge, each has vertices of its own, in its own light.
    Surface folded = sheet(4, 0);
    const auto second = static_cast<std::uint32_t>(large.positions_m.size());
    for (const glm::vec3& at_m : large.positions_m)
        folded.positions_m.emplace_back(at_m.x, at_m.z, 0);
    for (const std::uint32_t index : large.indices)
        folded.indices.push_back(index + second);
    CHECK(VertexCells{0.05}.coarser(folded.indices, folded.positions_m) == folded.indices);
}
