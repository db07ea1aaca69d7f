#include "stage/model_triangles.h"

#include "stage/model_refusal.h"

#include "base/colour.h"

#include <fmt/format.h>

#include <glm/common.hpp>
#include <glm/geometric.hpp>
#include <glm/mat3x3.hpp>
#include <glm/matrix.hpp>

#include <cmath>
#include <cstdint>
#include <limits>
#include <utility>

namespace backrow::stage {
namespace {

glm::dmat4 dmat4_of(const aiMatrix4x4& m) {
    return {{m.a1, m.b1, m.c1, m.d1},
            {m.a2, m.b2, m.c2, m.d2},
            {m.a3, m.b3, m.c3, m.d3},
            {m.a4, m.b4, m.c4, m.d4}};
}

/// Adds the triangles of one mesh, where a node puts it, to what has the same surface.
class Baker {
public:
    Baker(const Instance& instance, const VertexReading& reading, shapes::Mesh& into)
        : mesh_{*instance.mesh}, model_from_mesh_{instance.model_from_mesh}, reading_{reading},
          has_uv_{mesh_.HasTextureCoords(reading.uv_channel)}, into_{into},
          baked_(mesh_.mNumVertices, unbaked) {
        const glm::dmat3 turned{model_from_mesh_};
        const double volume = glm::determinant(turned);
        mirrored_ = volume < 0;
        if (volume != 0)
            normal_from_normal_ = glm::transpose(glm::inverse(turned));
    }

    void bake() {
        for (unsigned i = 0; i < mesh_.mNumFaces; ++i) {
            const aiFace& face = mesh_.mFaces[i];
            if (face.mNumIndices == 3)  // what Triangulate leaves otherwise are points and lines
                bake(face.mIndices[0], face.mIndices[mirrored_ ? 2 : 1],
                     face.mIndices[mirrored_ ? 1 : 2]);
        }
    }

private:
    static constexpr std::uint32_t unbaked = std::numeric_limits<std::uint32_t>::max();

    void bake(unsigned a, unsigned b, unsigned c) {
        const glm::vec3 at_a = position(a);
        const glm::vec3 at_b = position(b);
        const glm::vec3 at_c = position(c);
        const glm::dvec3 across =
            glm::cross(glm::dvec3{at_b} - glm::dvec3{at_a}, glm::dvec3{at_c} - glm::dvec3{at_a});
        const double twice_area = glm::length(across);
        if (!(twice_area > 0))
            return;
        const glm::vec3 facing{across / twice_area};
        for (const unsigned i : {a, b, c})
            into_.indices.push_back(vertex(i, facing));
    }

    [[nodiscard]] glm::vec3 position(unsigned i) const {
        const aiVector3D& from = mesh_.mVertices[i];
        const glm::dvec3 at{model_from_mesh_ * glm::dvec4{from.x, from.y, from.z, 1}};
        // Written so that NaN is refused too.
        if (!(std::abs(at.x) <= reading_.farthest && std::abs(at.y) <= reading_.farthest &&
              std::abs(at.z) <= reading_.farthest))
            throw Refusal{
                fmt::format("has a vertex that is not a number or lies more than {:g} units "
                            "from its origin",
                            reading_.farthest),
                save_again};
        return glm::vec3{at};
    }

    std::uint32_t vertex(unsigned i, const glm::vec3& facing) {
        if (baked_[i] == unbaked) {
            baked_[i] = static_cast<std::uint32_t>(into_.vertices.size());
            into_.vertices.push_back({.position_m = position(i),
                                      .normal = normal(i, facing),
                                      .colour = colour(i),
                                      .uv = uv(i)});
        }
        return baked_[i];
    }

    [[nodiscard]] glm::vec3 normal(unsigned i, const glm::vec3& facing) const {
        if (!mesh_.HasNormals())
            return facing;
        const aiVector3D& from = mesh_.mNormals[i];
        const glm::dvec3 turned = normal_from_normal_ * glm::dvec3{from.x, from.y, from.z};
        const double length = glm::length(turned);
        if (!(length > 0) || !std::isfinite(length))
            return facing;
        return glm::vec3{turned / length};
    }

    [[nodiscard]] glm::vec3 colour(unsigned i) const {
        if (!mesh_.HasVertexColors(0))
            return glm::vec3{1};
        const aiColor4D& from = mesh_.mColors[0][i];
        const glm::vec3 colour{from.r, from.g, from.b};
        if (!finite(colour))
            throw Refusal{"has a vertex whose colour is not a number", save_again};
        const glm::vec3 unit = glm::clamp(colour, 0.0f, 1.0f);
        if (reading_.colours_are_linear)
            return unit;
        return {linear_from_srgb(unit.r), linear_from_srgb(unit.g), linear_from_srgb(unit.b)};
    }

    [[nodiscard]] glm::vec2 uv(unsigned i) const {
        if (!has_uv_)
            return glm::vec2{0};
        const aiVector3D& from = mesh_.mTextureCoords[reading_.uv_channel][i];
        const glm::vec2 at{from.x, from.y};
        if (!finite(at))
            throw Refusal{"has a texture coordinate that is not a number", save_again};
        return at;
    }

    const aiMesh& mesh_;
    glm::dmat4 model_from_mesh_;
    glm::dmat3 normal_from_normal_{1};
    bool mirrored_ = false;
    VertexReading reading_;
    bool has_uv_;
    shapes::Mesh& into_;
    std::vector<std::uint32_t> baked_;
};

}  // namespace

// Without recursion: a hostile file may nest as deep as it likes. Nor may a small file say the same
// mesh a million times over.
std::vector<Instance> instances_of(const aiScene& scene, std::size_t most_triangles) {
    std::vector<Instance> instances;
    std::size_t faces = 0;
    std::vector<std::pair<const aiNode*, glm::dmat4>> open{{scene.mRootNode, glm::dmat4{1}}};
    while (!open.empty()) {
        const auto [node, above] = open.back();
        open.pop_back();
        const glm::dmat4 here = above * dmat4_of(node->mTransformation);
        for (unsigned i = 0; i < node->mNumMeshes; ++i) {
            const aiMesh* mesh = scene.mMeshes[node->mMeshes[i]];
            faces += mesh->mNumFaces;
            if (faces > most_triangles)
                throw Refusal{fmt::format("has more than {} triangles", most_triangles),
                              "simplify it in a 3D program"};
            instances.push_back({mesh, here});
        }
        for (unsigned i = node->mNumChildren; i-- > 0;)
            open.emplace_back(node->mChildren[i], here);
    }
    return instances;
}

void bake(const Instance& instance, const VertexReading& reading, shapes::Mesh& into) {
    Baker{instance, reading, into}.bake();
}

}  // namespace backrow::stage
