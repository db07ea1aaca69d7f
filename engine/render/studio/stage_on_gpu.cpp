#include "render/studio/stage_on_gpu.h"

#include "shapes/quantise.h"

#include <glm/geometric.hpp>
#include <glm/mat3x3.hpp>
#include <glm/matrix.hpp>

#include <algorithm>
#include <array>
#include <bit>
#include <cassert>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <utility>

namespace backrow::render {
namespace {

// The skin detail of people multiplies all light, highlights too, and is no texture in this sense.
GpuMaterial gpu_material(const stage::Part& part) {
    const shapes::Material& material = part.material;
    return {{material.base_colour.r, material.base_colour.g, material.base_colour.b,
             material.texture >= 0 && part.person < 0 ? 1.0f : 0.0f},
            {material.emission.r, material.emission.g, material.emission.b, 0.0f},
            {material.gloss, material.lit ? 1.0f : 0.0f, 0.0f, 0.0f}};
}

std::int16_t snorm16_from_unit(float value) {
    return static_cast<std::int16_t>(std::lround(std::clamp(value, -1.0f, 1.0f) * 32767.0f));
}

// Parts of one look share a material, so that sixteen bits are enough for any stage.
std::uint16_t index_of(const GpuMaterial& material, std::vector<GpuMaterial>& known) {
    auto found = std::find(known.rbegin(), known.rend(), material);
    if (found == known.rend()) {
        known.push_back(material);
        return static_cast<std::uint16_t>(known.size() - 1);
    }
    return static_cast<std::uint16_t>(known.rend() - found - 1);
}

void append_vertices(const stage::Part& part, std::uint16_t material,
                     std::vector<GpuVertex>& vertices) {
    const glm::dmat3 turn{part.world_from_part};
    const glm::dmat3 normal_turn = glm::transpose(glm::inverse(turn));
    const auto face = part.role == stage::Role::face ? static_cast<std::uint16_t>(part.person + 1)
                                                     : std::uint16_t{0};
    for (const shapes::Vertex& vertex : part.mesh.vertices) {
        const glm::vec3 normal{glm::normalize(normal_turn * glm::dvec3{vertex.normal})};
        vertices.push_back({glm::vec3{part.world_from_part * glm::dvec4{vertex.position_m, 1.0}},
                            {snorm16_from_unit(normal.x), snorm16_from_unit(normal.y),
                             snorm16_from_unit(normal.z), 0},
                            {shapes::unorm16_from_unit(vertex.colour.r),
                             shapes::unorm16_from_unit(vertex.colour.g),
                             shapes::unorm16_from_unit(vertex.colour.b),
                             shapes::unorm16_from_unit(vertex.ambient_visibility)},
                            vertex.uv,
                            material,
                            face});
    }
}

void measure_ball(DrawnPart& part, const GpuVertex* first, const GpuVertex* last) {
    glm::dvec3 least{std::numeric_limits<double>::infinity()};
    glm::dvec3 most{-std::numeric_limits<double>::infinity()};
    for (const GpuVertex* vertex = first; vertex != last; ++vertex) {
        least = glm::min(least, glm::dvec3{vertex->position_m});
        most = glm::max(most, glm::dvec3{vertex->position_m});
    }
    if (first == last)
        return;
    part.centre_m = (least + most) * 0.5;
    part.radius_m = glm::length(most - least) * 0.5;
}

double spacing_m(const stage::Part& part) {
    double sum_m2 = 0.0;
    const auto& vertices = part.mesh.vertices;
    const auto& indices = part.mesh.indices;
    for (std::size_t i = 0; i + 2 < indices.size(); i += 3)
        for (std::size_t k = 0; k < 3; ++k) {
            const glm::vec3 edge =
                vertices[indices[i + k]].position_m - vertices[indices[i + (k + 1) % 3]].position_m;
            sum_m2 += static_cast<double>(glm::dot(edge, edge));
        }
    const double scale = glm::length(glm::dvec3{part.world_from_part[0]});
    return indices.empty() ? 0.0 : scale * std::sqrt(sum_m2 / static_cast<double>(indices.size()));
}

struct TexturedIndices {
    int texture;
    std::vector<std::uint32_t> indices;
};

// Most of a person's triangles are cloth, which has no skin detail; they are drawn without, for a
// look into a texture at every pixel of every pass costs more than the rest of the pixel.
std::vector<TexturedIndices> indices_by_texture(const stage::Part& part) {
    const int texture = part.material.texture;
    if (part.person < 0 || texture < 0)
        return {{texture, part.mesh.indices}};
    std::vector<TexturedIndices> split{{-1, {}}, {texture, {}}};
    const auto& [vertices, indices] = part.mesh;
    for (std::size_t i = 0; i + 2 < indices.size(); i += 3) {
        const bool is_plain = std::all_of(
            indices.begin() + static_cast<std::ptrdiff_t>(i),
            indices.begin() + static_cast<std::ptrdiff_t>(i + 3),
            [&vertices = vertices](std::uint32_t k) { return vertices[k].uv == glm::vec2{0}; });
        auto& chosen = split[is_plain ? 0 : 1].indices;
        chosen.insert(chosen.end(), {indices[i], indices[i + 1], indices[i + 2]});
    }
    return split;
}

Texture upload(const Gl& gl, const Image<Rgba8>& picture) {
    const int longest = std::max(picture.width_px(), picture.height_px());
    const int levels = std::bit_width(static_cast<unsigned>(longest));
    Texture texture = make_texture(gl, GL_SRGB8_ALPHA8, picture.width_px(), picture.height_px(),
                                   GL_LINEAR, "model texture", levels);
    glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
    glTextureSubImage2D(texture.name(), 0, 0, 0, picture.width_px(), picture.height_px(), GL_RGBA,
                        GL_UNSIGNED_BYTE, picture.pixels().data());
    glTextureParameteri(texture.name(), GL_TEXTURE_WRAP_S, GL_REPEAT);
    glTextureParameteri(texture.name(), GL_TEXTURE_WRAP_T, GL_REPEAT);
    // Passes lie in different places of a texel, so their mean smooths as well: a sharper level
    // than that of a single picture does.
    glGenerateTextureMipmap(texture.name());
    glTextureParameteri(texture.name(), GL_TEXTURE_MIN_FILTER, GL_LINEAR_MIPMAP_NEAREST);
    glTextureParameterf(texture.name(), GL_TEXTURE_LOD_BIAS, -1.0f);
    return texture;
}

// Everything but the positions, which describe_positions() gives.
void describe_surface(GLuint layout) {
    for (GLuint attribute = 1; attribute < 5; ++attribute) {
        glEnableVertexArrayAttrib(layout, attribute);
        glVertexArrayAttribBinding(layout, attribute, 0);
    }
    glVertexArrayAttribFormat(layout, 1, 3, GL_SHORT, GL_TRUE, offsetof(GpuVertex, normal));
    glVertexArrayAttribFormat(layout, 2, 4, GL_UNSIGNED_SHORT, GL_TRUE,
                              offsetof(GpuVertex, colour_and_ambient_visibility));
    glVertexArrayAttribFormat(layout, 3, 2, GL_FLOAT, GL_FALSE, offsetof(GpuVertex, uv));
    glVertexArrayAttribIFormat(layout, 4, 2, GL_UNSIGNED_SHORT, offsetof(GpuVertex, material));
}

}  // namespace

StageOnGpu::StageOnGpu(const Gl& gl, const stage::Stage& stage)
    : towards_sun_{stage.towards_sun}, sun_is_up_{stage.sun_is_up}, window_{stage.window} {
    std::vector<GpuVertex> vertices;
    std::size_t vertex_total = 0;
    std::size_t index_total = 0;
    for (const stage::Part& part : stage.parts) {
        vertex_total += part.mesh.vertices.size();
        index_total += part.mesh.indices.size();
    }
    vertices.reserve(vertex_total);
    indices_here_.reserve(index_total);
    for (std::size_t i = 0; i < stage.parts.size(); ++i)
        append(stage.parts[i], i, 0, vertices);

    for (const Image<Rgba8>& picture : stage.textures)
        textures_.push_back(upload(gl, picture));
    take_materials(gl);
    positions_.resize(vertices.size());
    std::ranges::transform(vertices, positions_.begin(), &GpuVertex::position_m);
    take_triangles(
        gl, make_buffer(gl, vertices.data(), vertices.size() * sizeof(GpuVertex), "vertices"));
}

void StageOnGpu::append(const stage::Part& part, std::size_t stage_part,
                        std::size_t vertices_before, std::vector<GpuVertex>& vertices) {
    const std::size_t first = vertices.size();
    const auto base = static_cast<std::uint32_t>(vertices_before + first);
    DrawnPart drawn{.stage_part = stage_part,
                    .first_vertex = static_cast<int>(base),
                    .vertex_count = static_cast<int>(part.mesh.vertices.size()),
                    .role = part.role,
                    .person = part.person,
                    .lit = part.material.lit,
                    .spacing_m = spacing_m(part)};
    part_materials_.push_back(index_of(gpu_material(part), materials_here_));
    append_vertices(part, part_materials_.back(), vertices);
    measure_ball(drawn, vertices.data() + first, vertices.data() + vertices.size());
    for (const auto& [texture, of_part] : indices_by_texture(part)) {
        drawn.texture = texture;
        drawn.first_index = static_cast<int>(indices_here_.size());
        drawn.index_count = static_cast<int>(of_part.size());
        for (const std::uint32_t index : of_part)
            indices_here_.push_back(base + index);
        parts_.push_back(drawn);
    }
}

void StageOnGpu::add_last_part(const Gl& gl, const stage::Stage& stage) {
    std::vector<GpuVertex> vertices;
    append(stage.parts.back(), stage.parts.size() - 1, vertex_count(), vertices);
    take_materials(gl);
    take_more_vertices(gl, vertices);
}

void StageOnGpu::take_materials(const Gl& gl) {
    materials_ = make_buffer(gl, materials_here_.data(),
                             materials_here_.size() * sizeof(GpuMaterial), "materials");
}

void StageOnGpu::take_triangles(const Gl& gl, Buffer vertices) {
    vertices_ = std::move(vertices);
    indices_ = make_buffer(gl, indices_here_.data(), indices_here_.size() * sizeof(std::uint32_t),
                           "indices");
    layout_ = make_vertex_array(gl, "stage layout");
    describe_positions(layout_.name());
    describe_surface(layout_.name());
}

std::vector<GpuVertex> StageOnGpu::vertices(int first_vertex, int vertex_count) const {
    std::vector<GpuVertex> read(static_cast<std::size_t>(vertex_count));
    glGetNamedBufferSubData(
        vertices_.name(),
        static_cast<GLintptr>(static_cast<std::size_t>(first_vertex) * sizeof(GpuVertex)),
        static_cast<GLsizeiptr>(read.size() * sizeof(GpuVertex)), read.data());
    return read;
}

void StageOnGpu::cut(const Gl& gl, const std::vector<Cut>& cuts,
                     const std::vector<GpuVertex>& new_vertices) {
    const auto base = static_cast<std::uint32_t>(vertex_count());
    std::size_t new_indices = 0;
    for (const Cut& cut : cuts)
        new_indices += cut.kept.size() + cut.indices.size();
    indices_here_.reserve(indices_here_.size() + new_indices);
    parts_.reserve(parts_.size() + cuts.size());
    const auto draw = [&](DrawnPart& part, const std::vector<std::uint32_t>& indices,
                          std::uint32_t from) {
        part.first_index = static_cast<int>(indices_here_.size());
        part.index_count = static_cast<int>(indices.size());
        for (const std::uint32_t index : indices)
            indices_here_.push_back(from + index);
    };
    for (const Cut& cut : cuts) {
        DrawnPart others = parts_[cut.drawn_part];
        draw(parts_[cut.drawn_part], cut.kept, static_cast<std::uint32_t>(others.first_vertex));
        draw(others, cut.indices, base);
        others.first_vertex = static_cast<int>(base) + cut.first_vertex;
        others.vertex_count = cut.vertex_count;
        parts_.push_back(others);
    }
    take_more_vertices(gl, new_vertices);
}

// What was there is copied from buffer to buffer, and room is made for no more than what comes:
// with many large surfaces this is when a preview takes the most memory.
void StageOnGpu::take_more_vertices(const Gl& gl, const std::vector<GpuVertex>& more) {
    const std::size_t before = vertex_count();
    positions_.resize(before + more.size());
    std::ranges::transform(more, positions_.begin() + static_cast<std::ptrdiff_t>(before),
                           &GpuVertex::position_m);
    Buffer all = make_buffer(gl, nullptr, positions_.size() * sizeof(GpuVertex), "vertices");
    const auto size_before = static_cast<GLsizeiptr>(before * sizeof(GpuVertex));
    glCopyNamedBufferSubData(vertices_.name(), all.name(), 0, 0, size_before);
    glNamedBufferSubData(all.name(), size_before,
                         static_cast<GLsizeiptr>(more.size() * sizeof(GpuVertex)), more.data());
    take_triangles(gl, std::move(all));
}

void StageOnGpu::move_vertices(std::size_t stage_part, const stage::Part& part) {
    std::vector<GpuVertex> vertices;
    vertices.reserve(part.mesh.vertices.size());
    append_vertices(part, part_materials_[stage_part], vertices);
    int first_vertex = -1;
    for (DrawnPart& drawn : parts_) {
        if (drawn.stage_part != stage_part)
            continue;
        assert(vertices.size() == static_cast<std::size_t>(drawn.vertex_count));
        measure_ball(drawn, vertices.data(), vertices.data() + vertices.size());
        first_vertex = drawn.first_vertex;
    }
    if (first_vertex < 0)
        return;
    std::ranges::transform(vertices, positions_.begin() + first_vertex, &GpuVertex::position_m);
    glNamedBufferSubData(
        vertices_.name(),
        static_cast<GLintptr>(static_cast<std::size_t>(first_vertex) * sizeof(GpuVertex)),
        static_cast<GLsizeiptr>(vertices.size() * sizeof(GpuVertex)), vertices.data());
}

void StageOnGpu::describe_positions(GLuint layout) const {
    glVertexArrayVertexBuffer(layout, 0, vertices_.name(), 0, sizeof(GpuVertex));
    glEnableVertexArrayAttrib(layout, 0);
    glVertexArrayAttribBinding(layout, 0, 0);
    glVertexArrayAttribFormat(layout, 0, 3, GL_FLOAT, GL_FALSE, offsetof(GpuVertex, position_m));
}

void StageOnGpu::describe_uvs(GLuint layout, GLuint attribute) const {
    glEnableVertexArrayAttrib(layout, attribute);
    glVertexArrayAttribBinding(layout, attribute, 0);
    glVertexArrayAttribFormat(layout, attribute, 2, GL_FLOAT, GL_FALSE, offsetof(GpuVertex, uv));
}

void StageOnGpu::describe_materials(GLuint layout, GLuint attribute) const {
    glEnableVertexArrayAttrib(layout, attribute);
    glVertexArrayAttribBinding(layout, attribute, 0);
    glVertexArrayAttribIFormat(layout, attribute, 2, GL_UNSIGNED_SHORT,
                               offsetof(GpuVertex, material));
}

void StageOnGpu::bind() const {
    glBindVertexArray(layout_.name());
    glBindBuffer(GL_ELEMENT_ARRAY_BUFFER, indices_.name());
    bind_materials();
}

void StageOnGpu::bind_materials() const {
    glBindBufferBase(GL_SHADER_STORAGE_BUFFER, 2, materials_.name());
}

void StageOnGpu::draw(const std::vector<Run>& runs) const {
    for (const Run& run : runs)
        draw(run);
}

void StageOnGpu::draw(const Run& run) const {
    if (run.texture >= 0)
        glBindTextureUnit(0, textures_[static_cast<std::size_t>(run.texture)].name());
    draw_instances(run, 1);
}

void add_run(const Run& run, std::vector<Run>& runs) {
    if (run.index_count == 0)
        return;
    if (!runs.empty() && runs.back().texture == run.texture && runs.back().by_mean == run.by_mean &&
        runs.back().first_index + runs.back().index_count == run.first_index)
        runs.back().index_count += run.index_count;
    else
        runs.push_back(run);
}

std::vector<Run> runs_of(const std::vector<const DrawnPart*>& parts) {
    std::vector<Run> runs;
    for (const DrawnPart* part : parts)
        add_run({part->first_index, part->index_count, part->texture}, runs);
    return runs;
}

void draw_instances(const Run& run, int instances) {
    glDrawElementsInstanced(GL_TRIANGLES, run.index_count, GL_UNSIGNED_INT,
                            reinterpret_cast<const void*>(
                                static_cast<std::size_t>(run.first_index) * sizeof(std::uint32_t)),
                            instances);
}

}  // namespace backrow::render
