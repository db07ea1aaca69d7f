#include "figures/cut.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <array>
#include <cstdint>
#include <map>
#include <tuple>
#include <utility>
#include <vector>

namespace backrow::figures {
namespace {

using glm::dvec3;

/// One new vertex for each edge and plane, however many triangles share them.
class Divided {
public:
    explicit Divided(shapes::Mesh& mesh) : mesh_{mesh} {}

    /// `before` lies on the near side of the cut, `after` beyond it.
    std::uint32_t crossing(const Cut& cut, std::uint32_t before, std::uint32_t after) {
        const auto [it, is_new] = made_.try_emplace({&cut, before, after}, mesh_.vertices.size());
        if (is_new) {
            const shapes::Vertex a = mesh_.vertices[before], b = mesh_.vertices[after];
            const double from = cut.beyond_m(dvec3{a.position_m});
            const double to = cut.beyond_m(dvec3{b.position_m});
            const auto share = static_cast<float>(from / (from - to));
            shapes::Vertex v = a;
            v.position_m = glm::mix(a.position_m, b.position_m, share);
            const glm::vec3 normal = glm::mix(a.normal, b.normal, share);
            if (glm::dot(normal, normal) > 0)
                v.normal = glm::normalize(normal);
            mesh_.vertices.push_back(v);
        }
        return static_cast<std::uint32_t>(it->second);
    }

private:
    shapes::Mesh& mesh_;
    std::map<std::tuple<const Cut*, std::uint32_t, std::uint32_t>, std::size_t> made_;
};

}  // namespace

void cut_off(const Covering& garment, shapes::Mesh& mesh) {
    if (garment.pieces.empty())
        return;
    const std::vector<std::uint32_t> whole = std::exchange(mesh.indices, {});
    Divided divided{mesh};
    for (std::size_t i = 0; i < whole.size(); i += 3) {
        const std::array<std::uint32_t, 3> corner{whole[i], whole[i + 1], whole[i + 2]};
        dvec3 middle{0};
        for (const std::uint32_t c : corner)
            middle += dvec3{mesh.vertices[c].position_m} / 3.0;
        const Cut& cut = garment.cut_at(middle);
        std::vector<std::uint32_t> kept;
        for (std::size_t k = 0; k < 3; ++k) {
            const std::uint32_t a = corner[k], b = corner[(k + 1) % 3];
            const bool a_stays = cut.beyond_m(dvec3{mesh.vertices[a].position_m}) < 0;
            const bool b_stays = cut.beyond_m(dvec3{mesh.vertices[b].position_m}) < 0;
            if (a_stays)
                kept.push_back(a);
            if (a_stays && !b_stays)
                kept.push_back(divided.crossing(cut, a, b));
            if (!a_stays && b_stays)
                kept.push_back(divided.crossing(cut, b, a));
        }
        for (std::size_t k = 2; k < kept.size(); ++k)
            mesh.indices.insert(mesh.indices.end(), {kept[0], kept[k - 1], kept[k]});
    }
}

}  // namespace backrow::figures
