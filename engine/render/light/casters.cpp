#include "render/light/casters.h"

#include "render/light/numbering.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <vector>

namespace backrow::render {
namespace {

constexpr double largest_part_m = 120.0;
constexpr double reach_radii = 2.0;

// Of each vertex of a part, the one that stands for it: the first in its cube.
std::vector<std::uint32_t> representatives(const StageOnGpu& stage, const DrawnPart& part,
                                           double cell_m) {
    Numbering cells;
    std::vector<std::uint32_t> first_in;  // of each cell
    std::vector<std::uint32_t> stands_for(static_cast<std::size_t>(part.vertex_count));
    const glm::dvec3 origin = part.centre_m - part.radius_m;
    for (std::size_t i = 0; i < stands_for.size(); ++i) {
        const std::size_t index = static_cast<std::size_t>(part.first_vertex) + i;
        const glm::dvec3 cell = (glm::dvec3{stage.positions()[index]} - origin) / cell_m;
        static constexpr double most = (1U << 21U) - 1;
        const auto along = [](double value) {
            return static_cast<std::uint64_t>(std::clamp(value, 0.0, most));
        };
        const std::uint64_t key = along(cell.x) << 42U | along(cell.y) << 21U | along(cell.z);
        const auto [cell_number, is_new] = cells.of(key);
        if (is_new)
            first_in.push_back(static_cast<std::uint32_t>(index));
        stands_for[i] = first_in[cell_number];
    }
    return stands_for;
}

}  // namespace

void Casters::draw() const {
    if (index_count == 0)
        return;
    glBindBuffer(GL_ELEMENT_ARRAY_BUFFER, indices.name());
    draw_instances({.first_index = 0, .index_count = index_count}, 1);
}

Casters casters_in(const Gl& gl, const StageOnGpu& stage, const Ball& ball,
                   const glm::dvec3& towards_light, double cell_m) {
    // Between a ball and a far light lies a tube.
    const bool is_far = towards_light != glm::dvec3{0};
    const auto may_shade = [&](const glm::dvec3& centre_m, double radius_m) {
        const glm::dvec3 from_ball = centre_m - ball.centre_m;
        if (!is_far)
            return glm::length(from_ball) < reach_radii * ball.radius_m + radius_m;
        const double along_m = glm::dot(from_ball, towards_light);
        return along_m > -ball.radius_m - radius_m &&
               glm::length(from_ball - along_m * towards_light) < ball.radius_m + radius_m;
    };
    std::vector<std::uint32_t> chosen;
    for (const DrawnPart& part : stage.parts()) {
        if (part.role == stage::Role::highlight || !part.lit || part.radius_m > largest_part_m ||
            glm::length(part.centre_m - ball.centre_m) >
                part.radius_m + reach_radii * ball.radius_m)
            continue;
        const std::vector<std::uint32_t> stands_for = representatives(stage, part, cell_m);
        const std::uint32_t* corner =
            stage.indices().data() + static_cast<std::size_t>(part.first_index);
        for (int i = 0; i + 2 < part.index_count; i += 3, corner += 3) {
            const auto base = static_cast<std::uint32_t>(part.first_vertex);
            const std::uint32_t a = stands_for[corner[0] - base];
            const std::uint32_t b = stands_for[corner[1] - base];
            const std::uint32_t c = stands_for[corner[2] - base];
            if (a == b || b == c || c == a)
                continue;
            const glm::dvec3 at[]{glm::dvec3{stage.positions()[a]},
                                  glm::dvec3{stage.positions()[b]},
                                  glm::dvec3{stage.positions()[c]}};
            const glm::dvec3 centre = (at[0] + at[1] + at[2]) / 3.0;
            const double radius =
                std::max({glm::length(at[0] - centre), glm::length(at[1] - centre),
                          glm::length(at[2] - centre)});
            if (may_shade(centre, radius))
                chosen.insert(chosen.end(), {a, b, c});
        }
    }
    Casters casters;
    casters.index_count = static_cast<int>(chosen.size());
    casters.indices = make_buffer(gl, chosen.data(), chosen.size() * sizeof(std::uint32_t),
                                  "what throws shadows");
    return casters;
}

}  // namespace backrow::render
