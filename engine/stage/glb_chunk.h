#pragma once

// The binary half of a .glb: arrays laid one behind the other, and the JSON that says where.

#include <nlohmann/json.hpp>

#include <glm/vec2.hpp>
#include <glm/vec3.hpp>

#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace backrow::stage {

using Json = nlohmann::ordered_json;

/// Four channels of sixteen bits keep every vertex on a boundary of four bytes; three would not.
using Colour16 = std::array<std::uint16_t, 4>;

/// Buffer views and accessors as they grow. Every array starts on a boundary of four bytes.
/// Source: [GLTF2] §3.6.
class GlbChunk {
public:
    /// Each returns the index of the new accessor. Nothing may be empty.
    int add_positions(std::span<const glm::vec3> positions_m);
    int add_normals(std::span<const glm::vec3> normals);
    int add_uvs(std::span<const glm::vec2> uvs);
    int add_colours(std::span<const Colour16> colours);
    /// Sixteen bits wide where vertex_count allows.
    int add_indices(std::span<const std::uint32_t> indices, std::size_t vertex_count);

    /// An encoded picture; returns the index of its buffer view.
    int add_picture(std::span<const std::byte> encoded);

    [[nodiscard]] const Json& buffer_views() const noexcept { return buffer_views_; }
    [[nodiscard]] const Json& accessors() const noexcept { return accessors_; }
    [[nodiscard]] const std::vector<std::byte>& bytes() const noexcept { return bytes_; }

private:
    int add_view(std::span<const std::byte> content, int target);
    int add_accessor(int view, int component_type, std::size_t count, const char* type);

    std::vector<std::byte> bytes_;
    Json buffer_views_ = Json::array();
    Json accessors_ = Json::array();
};

/// Header, JSON chunk and binary chunk in one. The whole must be shorter than 2³² bytes.
/// Source: [GLTF2] §4.4.
[[nodiscard]] std::vector<std::byte> glb_of(const Json& json, std::span<const std::byte> binary);

}  // namespace backrow::stage
