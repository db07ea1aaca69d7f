#include "render/light/lighting.h"

#include "render/driver/program.h"
#include "render/light/cut_by_light.h"
#include "render/light/light_rig.h"

#include <glm/vec4.hpp>

#include <algorithm>
#include <cstdint>
#include <limits>
#include <optional>
#include <span>

namespace backrow::render {
namespace {

// Vertices further apart than this, metres, blur a shadow's edge too much to carry it.
constexpr double coarse_m = 0.08;

constexpr std::size_t vertices_in_group = 64;  // as vertex_light.comp has it
constexpr std::size_t vertices_between_reports = 1024 * vertices_in_group;
// Of the time without a graphics card, roughly.
constexpr double share_of_maps = 0.5;
constexpr std::size_t light_size = sizeof(glm::vec4);
constexpr std::uint32_t nowhere = std::numeric_limits<std::uint32_t>::max();

// Finds the light of vertices[first …] in a buffer; up to vertices_between_reports of them.
void find_light(const Program& program, GLuint vertices, GLuint light, std::size_t first,
                std::size_t vertex_count) {
    glUseProgram(program.name());
    glProgramUniform1ui(program.name(), first_vertex_uniform, static_cast<GLuint>(first));
    glProgramUniform1ui(program.name(), vertex_count_uniform, static_cast<GLuint>(vertex_count));
    glBindBufferBase(GL_SHADER_STORAGE_BUFFER, 4, vertices);
    glBindBufferBase(GL_SHADER_STORAGE_BUFFER, 5, light);
    const std::size_t here = std::min(vertices_between_reports, vertex_count - first);
    glDispatchCompute(static_cast<GLuint>((here + vertices_in_group - 1) / vertices_in_group), 1,
                      1);
}

// Mesa keeps what the last computation could look into, deleted or not, until the next one: shadow
// maps would stay for good. So the next one, of no vertices, may look into nothing.
void let_go_of_maps(const Program& program, GLuint vertices, GLuint light) {
    LightRig::bind_no_maps();
    glProgramUniform1ui(program.name(), vertex_count_uniform, 0);
    glBindBufferBase(GL_SHADER_STORAGE_BUFFER, 4, vertices);
    glBindBufferBase(GL_SHADER_STORAGE_BUFFER, 5, light);
    glDispatchCompute(1, 1, 1);
}

bool is_coarse(const DrawnPart& part) {
    return part.lit && part.person < 0 && part.role != stage::Role::highlight &&
           part.spacing_m > coarse_m;
}

// Cuts the coarse parts of the stage; returns the light of their vertices, which are its last.
std::vector<glm::vec4> cut_coarse_parts(const Gl& gl, StageOnGpu& stage, const Program& program,
                                        const Ball& ball, const glm::dvec3& eye_m) {
    LitMesh mesh;
    std::vector<StageOnGpu::Cut> cuts;
    for (std::size_t i = 0; i < stage.parts().size(); ++i) {
        const DrawnPart& part = stage.parts()[i];
        if (!is_coarse(part))
            continue;
        const std::vector<GpuVertex> own = stage.vertices(part.first_vertex, part.vertex_count);
        StageOnGpu::Cut cut;
        cut.drawn_part = i;
        std::vector<std::uint32_t> place(own.size(), nowhere);
        for (int k = 0; k + 2 < part.index_count; k += 3) {
            LitMesh::Triangle triangle{{}, cuts.size()};
            for (std::size_t c = 0; c < 3; ++c)
                triangle.corners[c] =
                    stage.indices()[static_cast<std::size_t>(part.first_index + k) + c] -
                    static_cast<std::uint32_t>(part.first_vertex);
            if (!may_be_cut(triangle, own, ball)) {
                for (const std::uint32_t corner : triangle.corners)
                    cut.kept.push_back(corner);
                continue;
            }
            for (std::uint32_t& corner : triangle.corners) {
                if (place[corner] == nowhere) {
                    place[corner] = static_cast<std::uint32_t>(mesh.vertices.size());
                    mesh.vertices.push_back(own[corner]);
                }
                corner = place[corner];
            }
            mesh.triangles.push_back(triangle);
        }
        if (cut.kept.size() < static_cast<std::size_t>(part.index_count))
            cuts.push_back(std::move(cut));
    }
    if (mesh.triangles.empty())
        return {};
    face_the_lens(mesh, glm::vec3{eye_m});
    cut_where_light_bends(mesh, ball, [&](std::span<const GpuVertex> vertices) {
        std::vector<glm::vec4> light(vertices.size());
        const Buffer from = make_buffer(gl, vertices.data(), vertices.size_bytes(), "cut vertices");
        const Buffer to = make_buffer(gl, nullptr, light.size() * light_size, "cut light");
        for (std::size_t first = 0; first < vertices.size(); first += vertices_between_reports)
            find_light(program, from.name(), to.name(), first, vertices.size());
        glMemoryBarrier(GL_BUFFER_UPDATE_BARRIER_BIT);
        glGetNamedBufferSubData(to.name(), 0, static_cast<GLsizeiptr>(light.size() * light_size),
                                light.data());
        return light;
    });
    // Each part's own vertices side by side, in the order of its triangles.
    std::vector<GpuVertex> vertices;
    std::vector<glm::vec4> light;
    std::ranges::stable_sort(mesh.triangles, {}, &LitMesh::Triangle::part);
    std::vector<std::uint32_t> place(mesh.vertices.size(), nowhere);
    for (const LitMesh::Triangle& triangle : mesh.triangles) {
        StageOnGpu::Cut& cut = cuts[triangle.part];
        if (cut.indices.empty()) {
            cut.first_vertex = static_cast<int>(vertices.size());
            std::ranges::fill(place, nowhere);
        }
        for (const std::uint32_t corner : triangle.corners) {
            if (place[corner] == nowhere) {
                place[corner] = static_cast<std::uint32_t>(vertices.size());
                vertices.push_back(mesh.vertices[corner]);
                light.push_back(mesh.light[corner]);
                ++cut.vertex_count;
            }
            cut.indices.push_back(place[corner]);
        }
    }
    mesh = {};
    stage.cut(gl, cuts, vertices);
    return light;
}

}  // namespace

std::vector<std::string> look_defines(Look look) {
    return look == Look::flat ? std::vector<std::string>{"FLAT"} : std::vector<std::string>{};
}

Finished<Lighting> Lighting::make(const Gl& gl, StageOnGpu& stage, Look look,
                                  const glm::dvec3& eye_m, const Progress& progress,
                                  LightCare care) {
    auto program = make_compute_program(gl, "vertex_light.comp", look_defines(look));
    if (!program)
        return tl::make_unexpected(program.error());

    Lighting lighting{std::move(*program)};
    lighting.look_ = look;
    std::optional<LightRig> rig;
    std::vector<glm::vec4> light_of_coarse;
    const std::size_t vertex_count = stage.vertex_count();
    stage.bind();
    if (look == Look::lit) {
        auto made = LightRig::make(gl, stage, eye_m, care,
                                   [&](double done) { return progress(share_of_maps * done); });
        if (!made)
            return tl::make_unexpected(made.error());
        rig = std::move(*made);
        rig->bind();
        lighting.highlight_colour_ = rig->main_colour();
        light_of_coarse = cut_coarse_parts(gl, stage, lighting.program_, rig->ball(), eye_m);
    }

    lighting.vertex_light_ =
        make_buffer(gl, nullptr, stage.vertex_count() * light_size, "vertex light");
    glNamedBufferSubData(
        lighting.vertex_light_.name(), static_cast<GLintptr>(vertex_count * light_size),
        static_cast<GLsizeiptr>(light_of_coarse.size() * light_size), light_of_coarse.data());
    for (std::size_t first = 0; first < vertex_count; first += vertices_between_reports) {
        find_light(lighting.program_, stage.vertex_buffer(), lighting.vertex_light_.name(), first,
                   vertex_count);
        glFinish();
        const double done = std::min(1.0, static_cast<double>(first + vertices_between_reports) /
                                              static_cast<double>(vertex_count));
        if (!progress(share_of_maps + (1.0 - share_of_maps) * done))
            return tl::make_unexpected(Stopped{});
    }
    glMemoryBarrier(GL_VERTEX_ATTRIB_ARRAY_BARRIER_BIT);
    let_go_of_maps(lighting.program_, stage.vertex_buffer(), lighting.vertex_light_.name());
    lighting.describe(gl, stage);
    return lighting;
}

Finished<void> Lighting::light_newcomers(const Gl& gl, const StageOnGpu& stage,
                                         const glm::dvec3& eye_m) {
    const auto rig =
        LightRig::make(gl, stage, eye_m, LightCare::unshadowed, [](double) { return true; });
    if (!rig)
        return tl::make_unexpected(rig.error());
    rig->bind();
    stage.bind_materials();
    Buffer all = make_buffer(gl, nullptr, stage.vertex_count() * light_size, "vertex light");
    glCopyNamedBufferSubData(vertex_light_.name(), all.name(), 0, 0,
                             static_cast<GLsizeiptr>(lit_vertices_ * light_size));
    vertex_light_ = std::move(all);
    for (std::size_t first = lit_vertices_; first < stage.vertex_count();
         first += vertices_between_reports)
        find_light(program_, stage.vertex_buffer(), vertex_light_.name(), first,
                   stage.vertex_count());
    glMemoryBarrier(GL_VERTEX_ATTRIB_ARRAY_BARRIER_BIT);
    let_go_of_maps(program_, stage.vertex_buffer(), vertex_light_.name());
    describe(gl, stage);
    return {};
}

void Lighting::describe(const Gl& gl, const StageOnGpu& stage) {
    lit_vertices_ = stage.vertex_count();
    layout_ = make_vertex_array(gl, "vertex-lit layout");
    const GLuint layout = layout_.name();
    stage.describe_positions(layout);
    glVertexArrayVertexBuffer(layout, 1, vertex_light_.name(), 0, light_size);
    glEnableVertexArrayAttrib(layout, 1);
    glVertexArrayAttribBinding(layout, 1, 1);
    glVertexArrayAttribFormat(layout, 1, 4, GL_FLOAT, GL_FALSE, 0);
    stage.describe_uvs(layout, 2);
    stage.describe_materials(layout, 3);
}

void Lighting::bind() const {
    glBindVertexArray(layout_.name());
}

}  // namespace backrow::render
