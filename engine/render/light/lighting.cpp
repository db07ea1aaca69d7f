#include "render/light/lighting.h"

#include "render/driver/program.h"

#include <algorithm>

namespace backrow::render {
namespace {

// Vertices further apart than this, metres, blur a shadow's edge too much to carry it.
constexpr double coarse_m = 0.08;

constexpr unsigned vertices_in_group = 64;  // as vertex_light.comp has it
constexpr unsigned vertices_between_reports = 1024 * vertices_in_group;
// Of the time without a graphics card, roughly.
constexpr double share_of_maps = 0.5;

}  // namespace

std::vector<std::string> look_defines(Look look) {
    return look == Look::flat ? std::vector<std::string>{"FLAT"} : std::vector<std::string>{};
}

Finished<Lighting> Lighting::make(const Gl& gl, const StageOnGpu& stage, Look look,
                                  const glm::dvec3& eye_m, const Progress& progress,
                                  LightCare care) {
    auto program = make_compute_program(gl, "vertex_light.comp", look_defines(look));
    if (!program)
        return tl::make_unexpected(program.error());

    Lighting lighting;
    lighting.look_ = look;
    if (look == Look::lit) {
        auto rig = LightRig::make(gl, stage, eye_m, care,
                                  [&](double done) { return progress(share_of_maps * done); });
        if (!rig)
            return tl::make_unexpected(rig.error());
        lighting.rig_ = std::move(*rig);
        lighting.rig_->bind();
    }

    constexpr std::size_t light_size = 4 * sizeof(float);
    lighting.vertex_light_ =
        make_buffer(gl, nullptr, stage.vertex_count() * light_size, "vertex light");
    glUseProgram(program->name());
    glProgramUniform1ui(program->name(), glGetUniformLocation(program->name(), "vertex_count"),
                        static_cast<GLuint>(stage.vertex_count()));
    stage.bind();
    glBindBufferBase(GL_SHADER_STORAGE_BUFFER, 4, stage.vertex_buffer());
    glBindBufferBase(GL_SHADER_STORAGE_BUFFER, 5, lighting.vertex_light_.name());
    const GLint first_vertex = glGetUniformLocation(program->name(), "first_vertex");
    for (std::size_t first = 0; first < stage.vertex_count(); first += vertices_between_reports) {
        glProgramUniform1ui(program->name(), first_vertex, static_cast<GLuint>(first));
        glDispatchCompute(vertices_between_reports / vertices_in_group, 1, 1);
        glFinish();
        const double done = std::min(1.0, static_cast<double>(first + vertices_between_reports) /
                                              static_cast<double>(stage.vertex_count()));
        if (!progress(share_of_maps + (1.0 - share_of_maps) * done))
            return tl::make_unexpected(Stopped{});
    }
    glMemoryBarrier(GL_VERTEX_ATTRIB_ARRAY_BARRIER_BIT);

    lighting.layout_ = make_vertex_array(gl, "vertex-lit layout");
    const GLuint layout = lighting.layout_.name();
    stage.describe_positions(layout);
    glVertexArrayVertexBuffer(layout, 1, lighting.vertex_light_.name(), 0, light_size);
    glEnableVertexArrayAttrib(layout, 1);
    glVertexArrayAttribBinding(layout, 1, 1);
    glVertexArrayAttribFormat(layout, 1, 3, GL_FLOAT, GL_FALSE, 0);
    stage.describe_uvs(layout, 2);
    return lighting;
}

bool Lighting::by_pixel(const DrawnPart& part) const noexcept {
    // The skin detail of people lies on close vertices and only multiplies.
    const bool is_skin_detail = part.texture >= 0 && part.person >= 0;
    return (part.texture >= 0 && !is_skin_detail) ||
           (look_ == Look::lit && part.lit && part.spacing_m > coarse_m);
}

void Lighting::bind_by_vertex() const {
    glBindVertexArray(layout_.name());
}

void Lighting::bind_by_pixel(const StageOnGpu& stage) const {
    stage.bind();
    if (rig_)
        rig_->bind();
}

}  // namespace backrow::render
