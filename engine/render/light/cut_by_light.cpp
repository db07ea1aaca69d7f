#include "render/light/cut_by_light.h"

#include "render/light/numbering.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <bit>
#include <cmath>
#include <optional>
#include <utility>

namespace backrow::render {
namespace {

// Edges in the ball are looked at every so far, lest a shadow lie between: a foot, an arm.
constexpr float longest_m = 0.2f;
// An edge is not cut below this share of the ball's radius: a texel of the sun's map.
constexpr float finest_radii = 1.0f / 256.0f;
// Beyond the ball shadows end, but a window's light still falls off: both may grow with the
// distance.
constexpr float longest_growth = 3.0f;
constexpr float finest_growth = 0.3f;
// How much the light in the middle may differ from that between the ends: a share of it, and of
// paper white.
constexpr float relative_bend = 0.2f;
constexpr float least_bend = 0.008f;

// From the longest edges to the finest; slivers could go on for ever.
constexpr int most_rounds = 5;

using Pair = std::uint64_t;

Pair pair_of(std::uint32_t a, std::uint32_t b) {
    const auto [least, most] = std::minmax(a, b);
    return static_cast<Pair>(least) << 32U | most;
}

std::uint32_t first_of(Pair pair) {
    return static_cast<std::uint32_t>(pair >> 32U);
}

std::uint32_t second_of(Pair pair) {
    return static_cast<std::uint32_t>(pair);
}

// Vertices in one place are one place, whatever their normals and colours.
class Places {
public:
    explicit Places(const std::vector<GpuVertex>& vertices) : vertices_{vertices} {}

    /// An edge by the places of its ends.
    Pair of(Pair edge) {
        for (std::size_t i = places_.size(); i < vertices_.size(); ++i)
            places_.push_back(place_at(vertices_[i].position_m));
        return pair_of(places_[first_of(edge)], places_[second_of(edge)]);
    }

private:
    // Three coordinates are too long for a key; the number of the first two and the third are not.
    std::uint32_t place_at(const glm::vec3& at) {
        const auto key_of = [](std::uint32_t first, std::uint32_t second) {
            return Pair{first} << 32U | second;
        };
        // 0 and −0 are one.
        const auto bits = [](float value) { return std::bit_cast<std::uint32_t>(value + 0.0f); };
        const std::uint32_t column = columns_.of(key_of(bits(at.x), bits(at.y))).number;
        return known_.of(key_of(column, bits(at.z))).number;
    }

    const std::vector<GpuVertex>& vertices_;
    std::vector<std::uint32_t> places_;  // of each vertex
    Numbering columns_;
    Numbering known_;
};

template <class Number, std::size_t count>
std::array<Number, count> between(const std::array<Number, count>& a,
                                  const std::array<Number, count>& b) {
    std::array<Number, count> middle{};
    for (std::size_t i = 0; i < count; ++i)
        middle[i] = static_cast<Number>((int{a[i]} + int{b[i]}) / 2);
    return middle;
}

// Shaders make normals unit again.
GpuVertex between(const GpuVertex& a, const GpuVertex& b) {
    return {(a.position_m + b.position_m) * 0.5f,
            between(a.normal, b.normal),
            between(a.colour_and_ambient_visibility, b.colour_and_ambient_visibility),
            (a.uv + b.uv) * 0.5f,
            a.material,
            a.face};
}

// Lengths for a ball: where edges are cut whatever the light, and where never.
class Lengths {
public:
    explicit Lengths(const Ball& ball)
        : centre_m_{ball.centre_m}, radius_m_{static_cast<float>(ball.radius_m)} {}

    [[nodiscard]] bool may_be_cut(const glm::vec3& a, const glm::vec3& b) const {
        return glm::length(b - a) > finest_m(a, b);
    }
    /// The share of the largest bend that an edge may have.
    [[nodiscard]] float strictness(const glm::vec3& a, const glm::vec3& b) const {
        return std::min(1.0f, finest_m(a, b) / glm::length(b - a));
    }
    [[nodiscard]] bool too_long(const glm::vec3& a, const glm::vec3& b) const {
        return glm::length(b - a) > longest_m + longest_growth * beyond_m(a, b);
    }

private:
    [[nodiscard]] float finest_m(const glm::vec3& a, const glm::vec3& b) const {
        return finest_radii * radius_m_ + finest_growth * beyond_m(a, b);
    }

    // How far outside of the ball the nearest point of an edge lies.
    [[nodiscard]] float beyond_m(const glm::vec3& a, const glm::vec3& b) const {
        const glm::vec3 edge = b - a;
        const float square = glm::dot(edge, edge);
        const float share =
            square > 0 ? std::clamp(glm::dot(centre_m_ - a, edge) / square, 0.0f, 1.0f) : 0.0f;
        return std::max(0.0f, glm::length(a + share * edge - centre_m_) - radius_m_);
    }

    glm::vec3 centre_m_;
    float radius_m_;
};

// How far two lights are apart, in bends: above 1 it would be seen.
float bends_between(const glm::vec4& a, const glm::vec4& b) {
    const auto most = [](const glm::vec4& of) { return std::max({of.x, of.y, of.z, of.w}); };
    return most(glm::abs(a - b)) / (least_bend + relative_bend * most(glm::max(a, b)));
}

// What lies on a line, to a hair's breadth, draws nothing and could be cut for ever.
bool is_degenerate(const LitMesh::Triangle& triangle, const std::vector<GpuVertex>& vertices) {
    const glm::dvec3 a{vertices[triangle.corners[0]].position_m};
    const glm::dvec3 ab = glm::dvec3{vertices[triangle.corners[1]].position_m} - a;
    const glm::dvec3 ac = glm::dvec3{vertices[triangle.corners[2]].position_m} - a;
    constexpr double hair_m = 2e-5;
    return glm::length(glm::cross(ab, ac)) <=
           hair_m * std::sqrt(std::max(glm::dot(ab, ab), glm::dot(ac, ac)));
}

// Cuts whatever is too long, however it is lit. The points that are put on an edge follow from the
// edge alone.
class LongEdges {
public:
    LongEdges(const Lengths& lengths, std::vector<GpuVertex>& vertices)
        : lengths_{lengths}, vertices_{vertices}, first_middle_{static_cast<std::uint32_t>(
                                                      vertices.size())} {}

    void cut(const LitMesh::Triangle& whole, std::vector<LitMesh::Triangle>& pieces) {
        std::vector<LitMesh::Triangle> open{whole};
        while (!open.empty()) {
            const LitMesh::Triangle triangle = open.back();
            open.pop_back();
            const auto& corners = triangle.corners;
            std::size_t short_edge = 0;
            int long_edges = 0;
            for (std::size_t i = 0; i < 3; ++i) {
                if (too_long(corners[i], corners[(i + 1) % 3]))
                    ++long_edges;
                else
                    short_edge = i;
            }
            if (long_edges == 0 || vertices_.size() > most_cut_vertices) {
                pieces.push_back(triangle);
            } else if (long_edges < 3) {
                zip(corners[(short_edge + 1) % 3], corners[(short_edge + 2) % 3],
                    corners[short_edge], triangle.part, pieces);
            } else {
                const std::uint32_t a = middle(corners[0], corners[1]);
                const std::uint32_t b = middle(corners[1], corners[2]);
                const std::uint32_t c = middle(corners[2], corners[0]);
                open.push_back({{corners[0], a, c}, triangle.part});
                open.push_back({{a, corners[1], b}, triangle.part});
                open.push_back({{c, b, corners[2]}, triangle.part});
                open.push_back({{a, b, c}, triangle.part});
            }
        }
    }

private:
    [[nodiscard]] bool too_long(std::uint32_t a, std::uint32_t b) const {
        // From the same end whoever asks: the last digit must not depend on it.
        const auto [least, most] = std::minmax(a, b);
        return lengths_.too_long(vertices_[least].position_m, vertices_[most].position_m);
    }

    std::uint32_t middle(std::uint32_t a, std::uint32_t b) {
        const auto [number, is_new] = middles_.of(pair_of(a, b));
        if (is_new)
            vertices_.push_back(between(vertices_[a], vertices_[b]));
        return first_middle_ + number;
    }

    // From a (not among them) to b.
    void append_points(std::uint32_t a, std::uint32_t b, std::vector<std::uint32_t>& points) {
        if (too_long(a, b) && vertices_.size() <= most_cut_vertices) {
            const std::uint32_t m = middle(a, b);
            append_points(a, m, points);
            append_points(m, b, points);
        } else {
            points.push_back(b);
        }
    }

    // A sliver, or one with one long edge, like a zip: from the corner where its long edges meet.
    // Halving all long edges again and again would cut it across its width as well, for nothing.
    void zip(std::uint32_t left_end, std::uint32_t apex, std::uint32_t right_end, std::size_t part,
             std::vector<LitMesh::Triangle>& pieces) {
        std::vector<std::uint32_t> left;
        std::vector<std::uint32_t> right;
        append_points(apex, left_end, left);
        append_points(apex, right_end, right);
        const auto distance = [&](std::uint32_t a, std::uint32_t b) {
            return glm::length(vertices_[a].position_m - vertices_[b].position_m);
        };
        pieces.push_back({{left[0], apex, right[0]}, part});
        for (std::size_t i = 0, j = 0; i + 1 < left.size() || j + 1 < right.size();) {
            const bool goes_left = j + 1 == right.size() ||
                                   (i + 1 < left.size() && distance(left[i + 1], right[j]) <
                                                               distance(left[i], right[j + 1]));
            if (goes_left) {
                pieces.push_back({{left[i + 1], left[i], right[j]}, part});
                ++i;
            } else {
                pieces.push_back({{left[i], right[j], right[j + 1]}, part});
                ++j;
            }
        }
    }

    Lengths lengths_;
    std::vector<GpuVertex>& vertices_;
    std::uint32_t first_middle_;  // Nobody else adds vertices meanwhile.
    Numbering middles_;
};

// The edges of some triangles, each once, in the order in which the triangles have them.
struct Edges {
    std::vector<Pair> ends;
    std::vector<std::array<std::uint32_t, 3>> of_triangles;  // From each corner to the next.
};

Edges edges_of(const std::vector<LitMesh::Triangle>& triangles) {
    Edges edges;
    Numbering known;
    edges.of_triangles.reserve(triangles.size());
    for (const LitMesh::Triangle& triangle : triangles) {
        std::array<std::uint32_t, 3>& of_triangle = edges.of_triangles.emplace_back();
        for (std::size_t i = 0; i < 3; ++i) {
            const Pair edge = pair_of(triangle.corners[i], triangle.corners[(i + 1) % 3]);
            const auto [number, is_new] = known.of(edge);
            if (is_new)
                edges.ends.push_back(edge);
            of_triangle[i] = number;
        }
    }
    return edges;
}

// A triangle with some of its edges cut; middles[i] lies between corners i and i + 1.
void append_pieces(const LitMesh::Triangle& whole,
                   const std::array<std::optional<std::uint32_t>, 3>& middles,
                   const std::vector<GpuVertex>& vertices, std::vector<LitMesh::Triangle>& pieces) {
    const auto add = [&](std::uint32_t a, std::uint32_t b, std::uint32_t c) {
        pieces.push_back({{a, b, c}, whole.part});
    };
    const auto cuts = std::ranges::count_if(middles, &std::optional<std::uint32_t>::has_value);
    // Turned so that the first edge is cut, and of two cut edges the first two are.
    std::size_t first = 0;
    while (!middles[first] || (cuts == 2 && !middles[(first + 1) % 3]))
        ++first;
    const auto corner = [&](std::size_t i) { return whole.corners[(first + i) % 3]; };
    const auto middle = [&](std::size_t i) { return *middles[(first + i) % 3]; };
    if (cuts == 1) {
        add(corner(0), middle(0), corner(2));
        add(middle(0), corner(1), corner(2));
        return;
    }
    add(middle(0), corner(1), middle(1));
    if (cuts == 3) {
        add(corner(0), middle(0), middle(2));
        add(middle(2), middle(1), corner(2));
        add(middle(0), middle(1), middle(2));
        return;
    }
    const auto distance = [&](std::uint32_t a, std::uint32_t b) {
        return glm::length(vertices[a].position_m - vertices[b].position_m);
    };
    if (distance(middle(0), corner(2)) < distance(corner(0), middle(1))) {
        add(corner(0), middle(0), corner(2));
        add(middle(0), middle(1), corner(2));
    } else {
        add(corner(0), middle(0), middle(1));
        add(corner(0), middle(1), corner(2));
    }
}

}  // namespace

void face_the_lens(LitMesh& mesh, const glm::vec3& lens_m) {
    const std::size_t before = mesh.vertices.size();
    std::vector<std::optional<std::uint32_t>> turned(before);
    for (LitMesh::Triangle& triangle : mesh.triangles) {
        const auto corner = [&](std::size_t i) -> const GpuVertex& {
            return mesh.vertices[triangle.corners[i]];
        };
        const glm::vec3 a = corner(0).position_m;
        const glm::vec3 across = glm::cross(corner(1).position_m - a, corner(2).position_m - a);
        if (glm::dot(across, lens_m - a) >= 0)
            continue;
        for (std::uint32_t& index : triangle.corners) {
            if (!turned[index]) {
                turned[index] = static_cast<std::uint32_t>(mesh.vertices.size());
                GpuVertex vertex = mesh.vertices[index];
                for (std::int16_t& component : vertex.normal)
                    component = static_cast<std::int16_t>(-component);
                mesh.vertices.push_back(vertex);
            }
            index = *turned[index];
        }
    }
}

bool may_be_cut(const LitMesh::Triangle& triangle, const std::vector<GpuVertex>& vertices,
                const Ball& ball) {
    const Lengths lengths{ball};
    const auto corner = [&](std::size_t i) { return vertices[triangle.corners[i % 3]].position_m; };
    return lengths.may_be_cut(corner(0), corner(1)) || lengths.may_be_cut(corner(1), corner(2)) ||
           lengths.may_be_cut(corner(2), corner(0));
}

void cut_where_light_bends(LitMesh& mesh, const Ball& ball, const LightAt& light_at) {
    const Lengths lengths{ball};
    std::vector<LitMesh::Triangle> open;
    LongEdges long_edges{lengths, mesh.vertices};
    for (const LitMesh::Triangle& triangle : std::exchange(mesh.triangles, {}))
        if (!is_degenerate(triangle, mesh.vertices))
            long_edges.cut(triangle, open);
    mesh.light = light_at(mesh.vertices);

    Places places{mesh.vertices};
    for (int round = 0; round < most_rounds && !open.empty(); ++round) {
        const Edges edges = edges_of(open);
        const auto at = [&](std::uint32_t vertex) { return mesh.vertices[vertex].position_m; };
        const auto strictness = [&](Pair edge) {
            return lengths.strictness(at(first_of(edge)), at(second_of(edge)));
        };
        const auto middle_of = [&](Pair edge) {
            return between(mesh.vertices[first_of(edge)], mesh.vertices[second_of(edge)]);
        };
        // Vertices lie close enough to trust two that are lit alike.
        std::vector<std::uint32_t> doubtful;
        std::vector<GpuVertex> middles;
        for (std::uint32_t i = 0; i < edges.ends.size(); ++i) {
            const Pair edge = edges.ends[i];
            const std::uint32_t a = first_of(edge);
            const std::uint32_t b = second_of(edge);
            if (lengths.may_be_cut(at(a), at(b)) &&
                bends_between(mesh.light[a], mesh.light[b]) > 0.5f * strictness(edge)) {
                doubtful.push_back(i);
                middles.push_back(middle_of(edge));
            }
        }
        const std::vector<glm::vec4> in_middle = light_at(middles);
        Numbering cut_places;
        std::vector<std::optional<glm::vec4>> known_light(edges.ends.size());
        for (std::size_t i = 0; i < doubtful.size(); ++i) {
            const Pair edge = edges.ends[doubtful[i]];
            const glm::vec4 straight =
                (mesh.light[first_of(edge)] + mesh.light[second_of(edge)]) * 0.5f;
            known_light[doubtful[i]] = in_middle[i];
            if (bends_between(in_middle[i], straight) > strictness(edge))
                cut_places.of(places.of(edge));
        }
        if (cut_places.count() == 0)
            break;
        // Whatever has an edge in such a place, lit otherwise perhaps, is cut with it.
        std::vector<std::uint32_t> cut;
        std::vector<GpuVertex> unlit;
        for (std::uint32_t i = 0; i < edges.ends.size(); ++i)
            if (cut_places.find(places.of(edges.ends[i]))) {
                cut.push_back(i);
                if (!known_light[i])
                    unlit.push_back(middle_of(edges.ends[i]));
            }
        if (mesh.vertices.size() + cut.size() > most_cut_vertices)
            break;
        const std::vector<glm::vec4> light = light_at(unlit);
        std::vector<std::optional<std::uint32_t>> middle_vertex(edges.ends.size());
        for (std::size_t next_light = 0; const std::uint32_t i : cut) {
            middle_vertex[i] = static_cast<std::uint32_t>(mesh.vertices.size());
            mesh.vertices.push_back(middle_of(edges.ends[i]));
            mesh.light.push_back(known_light[i] ? *known_light[i] : light[next_light++]);
        }

        std::vector<LitMesh::Triangle> pieces;
        for (std::size_t t = 0; t < open.size(); ++t) {
            std::array<std::optional<std::uint32_t>, 3> middles_of_edges;
            for (std::size_t i = 0; i < 3; ++i)
                middles_of_edges[i] = middle_vertex[edges.of_triangles[t][i]];
            if (std::ranges::any_of(middles_of_edges, &std::optional<std::uint32_t>::has_value))
                append_pieces(open[t], middles_of_edges, mesh.vertices, pieces);
            else
                mesh.triangles.push_back(open[t]);
        }
        open = std::move(pieces);
    }
    mesh.triangles.insert(mesh.triangles.end(), open.begin(), open.end());
}

}  // namespace backrow::render
