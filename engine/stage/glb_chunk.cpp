#include "stage/glb_chunk.h"

#include <glm/common.hpp>

#include <bit>
#include <cassert>
#include <cstring>
#include <limits>
#include <string_view>

namespace backrow::stage {
namespace {

static_assert(std::endian::native == std::endian::little, "arrays are written as they lie");
static_assert(sizeof(glm::vec3) == 12 && sizeof(glm::vec2) == 8 && sizeof(Colour16) == 8);

// The numbers by which glTF names component types and buffer targets.
constexpr int unsigned_short = 5123;
constexpr int unsigned_int = 5125;
constexpr int float_32 = 5126;
constexpr int array_buffer = 34962;
constexpr int element_array_buffer = 34963;
constexpr int no_target = 0;

std::size_t to_boundary(std::size_t bytes) {
    return (bytes + 3) / 4 * 4;
}

void append_word(std::vector<std::byte>& bytes, std::size_t value) {
    const auto word = static_cast<std::uint32_t>(value);
    const auto* first = reinterpret_cast<const std::byte*>(&word);
    bytes.insert(bytes.end(), first, first + sizeof word);
}

void append_chunk(std::vector<std::byte>& bytes, std::string_view kind,
                  std::span<const std::byte> content, char filler) {
    append_word(bytes, to_boundary(content.size()));
    const auto letters = std::as_bytes(std::span{kind});
    bytes.insert(bytes.end(), letters.begin(), letters.end());
    bytes.insert(bytes.end(), content.begin(), content.end());
    bytes.resize(to_boundary(bytes.size()), static_cast<std::byte>(filler));
}

}  // namespace

int GlbChunk::add_view(std::span<const std::byte> content, int target) {
    bytes_.resize(to_boundary(bytes_.size()));
    Json view{{"buffer", 0}, {"byteOffset", bytes_.size()}, {"byteLength", content.size()}};
    if (target != no_target)
        view["target"] = target;
    bytes_.insert(bytes_.end(), content.begin(), content.end());
    buffer_views_.push_back(std::move(view));
    return static_cast<int>(buffer_views_.size()) - 1;
}

int GlbChunk::add_accessor(int view, int component_type, std::size_t count, const char* type) {
    assert(count > 0);
    accessors_.push_back({{"bufferView", view},
                          {"componentType", component_type},
                          {"count", count},
                          {"type", type}});
    return static_cast<int>(accessors_.size()) - 1;
}

int GlbChunk::add_positions(std::span<const glm::vec3> positions_m) {
    const int accessor = add_accessor(add_view(std::as_bytes(positions_m), array_buffer), float_32,
                                      positions_m.size(), "VEC3");
    glm::vec3 least = positions_m.front();
    glm::vec3 greatest = least;
    for (const glm::vec3& position_m : positions_m) {
        least = glm::min(least, position_m);
        greatest = glm::max(greatest, position_m);
    }
    accessors_.back()["min"] = {least.x, least.y, least.z};
    accessors_.back()["max"] = {greatest.x, greatest.y, greatest.z};
    return accessor;
}

int GlbChunk::add_normals(std::span<const glm::vec3> normals) {
    return add_accessor(add_view(std::as_bytes(normals), array_buffer), float_32, normals.size(),
                        "VEC3");
}

int GlbChunk::add_uvs(std::span<const glm::vec2> uvs) {
    return add_accessor(add_view(std::as_bytes(uvs), array_buffer), float_32, uvs.size(), "VEC2");
}

int GlbChunk::add_colours(std::span<const Colour16> colours) {
    const int accessor = add_accessor(add_view(std::as_bytes(colours), array_buffer),
                                      unsigned_short, colours.size(), "VEC4");
    accessors_.back()["normalized"] = true;
    return accessor;
}

// The greatest index of each width means "start anew" to some drivers, and glTF forbids it.
int GlbChunk::add_indices(std::span<const std::uint32_t> indices, std::size_t vertex_count) {
    if (vertex_count > std::numeric_limits<std::uint16_t>::max())
        return add_accessor(add_view(std::as_bytes(indices), element_array_buffer), unsigned_int,
                            indices.size(), "SCALAR");
    const std::vector<std::uint16_t> narrow(indices.begin(), indices.end());
    return add_accessor(add_view(std::as_bytes(std::span{narrow}), element_array_buffer),
                        unsigned_short, indices.size(), "SCALAR");
}

int GlbChunk::add_picture(std::span<const std::byte> encoded) {
    return add_view(encoded, no_target);
}

std::vector<std::byte> glb_of(const Json& json, std::span<const std::byte> binary) {
    // Names out of imported models may be in any encoding; JSON is UTF-8.
    const std::string text = json.dump(-1, ' ', false, Json::error_handler_t::replace);
    constexpr std::size_t headers = 3 * 4 + 2 * 2 * 4;
    const std::size_t length = headers + to_boundary(text.size()) + to_boundary(binary.size());
    std::vector<std::byte> bytes;
    bytes.reserve(length);
    for (const char letter : std::string_view{"glTF"})
        bytes.push_back(static_cast<std::byte>(letter));
    append_word(bytes, 2);  // the version of glTF
    append_word(bytes, length);
    append_chunk(bytes, "JSON", std::as_bytes(std::span{text}), ' ');
    append_chunk(bytes, std::string_view{"BIN\0", 4}, binary, '\0');
    assert(bytes.size() == length);
    return bytes;
}

}  // namespace backrow::stage
