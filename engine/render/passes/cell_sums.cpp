#include "render/passes/cell_sums.h"

#include "render/driver/program.h"

#include <array>
#include <cassert>

namespace backrow::render {

Made<SumPrograms> SumPrograms::make(const Gl& gl, const std::vector<std::string>& defines) {
    SumPrograms programs;
    struct Wanted {
        Program& program;
        const char* fragment;
    };
    auto add = gl.on_processor ? make_program(gl, "full_frame.vert", "add_pass.frag", defines)
                               : make_compute_program(gl, "add_pass.comp", defines);
    if (!add)
        return tl::make_unexpected(add.error());
    programs.add = std::move(*add);
    for (const Wanted& wanted :
         {Wanted{programs.spread_across, "spread_across.frag"},
          Wanted{programs.linear, "linear.frag"}, Wanted{programs.develop, "develop.frag"}}) {
        auto program = make_program(gl, "full_frame.vert", wanted.fragment, defines);
        if (!program)
            return tl::make_unexpected(program.error());
        wanted.program = std::move(*program);
    }
    return programs;
}

Texture CellSums::make_colour(const Gl& gl, int width_texels, int height_texels) {
    return make_texture(gl, GL_RGBA16F, width_texels, height_texels, GL_NEAREST, "pass colour");
}

Texture CellSums::make_depth(const Gl& gl, int width_texels, int height_texels) {
    return make_texture(gl, GL_DEPTH_COMPONENT32F, width_texels, height_texels, GL_NEAREST,
                        "pass depth");
}

CellSums::CellSums(const Gl& gl, int width_texels, int height_texels, bool has_lights)
    : gl_{&gl}, width_texels_{width_texels}, height_texels_{height_texels} {
    const auto sum = [&](int width, int height, const char* label) {
        return make_texture(gl, GL_RGBA32F, width, height, GL_NEAREST, label);
    };
    pass_colour_ = make_colour(gl, width_texels, height_texels);
    pass_depth_ = make_depth(gl, width_texels, height_texels);
    sharp_ = sum(width_texels, height_texels, "sharp sum");
    blurred_ = sum(width_texels, height_texels, "blurred sum");
    // Without small lights one black texel stands for theirs.
    lights_ = has_lights ? sum(width_texels, height_texels, "lights") : sum(1, 1, "no lights");
    picture_ =
        make_texture(gl, GL_RGBA8, width_texels, height_texels, GL_NEAREST, "developed picture");
    sum_target_ = make_framebuffer(gl, sharp_.name(), 0, "sums", blurred_.name());
    pass_target_ = make_framebuffer(gl, pass_colour_.name(), pass_depth_.name(), "pass");
    lights_target_ =
        make_framebuffer(gl, lights_.name(), has_lights ? pass_depth_.name() : 0, "lights");
    mean_target_ = make_framebuffer(gl, pass_colour_.name(), 0, "mean");
    picture_target_ = make_framebuffer(gl, picture_.name(), 0, "picture");
    no_vertices_ = make_vertex_array(gl, "no vertices");
    clear();
}

void CellSums::clear() const {
    constexpr std::array<float, 4> nothing{};
    glClearNamedFramebufferfv(sum_target_.name(), GL_COLOR, 0, nothing.data());
    glClearNamedFramebufferfv(sum_target_.name(), GL_COLOR, 1, nothing.data());
    glClearNamedFramebufferfv(lights_target_.name(), GL_COLOR, 0, nothing.data());
}

// Depth is nearest/d, so that floating-point steps are even in 1/d: the greater, the nearer.
void CellSums::begin_pass() const {
    glClipControl(GL_UPPER_LEFT, GL_ZERO_TO_ONE);
    glViewport(0, 0, width_texels_, height_texels_);
    glBindFramebuffer(GL_FRAMEBUFFER, pass_target_.name());
    glDisable(GL_BLEND);
    glDisable(GL_CULL_FACE);
    glEnable(GL_DEPTH_TEST);
    glDepthMask(GL_TRUE);
    glDepthFunc(GL_GREATER);
}

void CellSums::fill(const Framebuffer& target) const {
    glBindFramebuffer(GL_FRAMEBUFFER, target.name());
    glViewport(0, 0, width_texels_, height_texels_);
    glDisable(GL_DEPTH_TEST);
    glDisable(GL_CULL_FACE);
    glBindVertexArray(no_vertices_.name());
    glDrawArrays(GL_TRIANGLES, 0, 3);
}

void CellSums::add(const SumPrograms& programs, int sample) const {
    glUseProgram(programs.add.name());
    glUniform1i(pass_sample_uniform, sample);
    glBindTextureUnit(0, pass_colour_.name());
    if (gl_->on_processor) {
        glEnable(GL_BLEND);
        glBlendFunc(GL_ONE, GL_ONE);
        fill(sum_target_);
        return;
    }
    constexpr int group_texels = 16;  // as add_pass.comp has it
    const auto groups = [](int texels) {
        return static_cast<GLuint>((texels + group_texels - 1) / group_texels);
    };
    glBindImageTexture(0, sharp_.name(), 0, GL_FALSE, 0, GL_READ_WRITE, GL_RGBA32F);
    glBindImageTexture(1, blurred_.name(), 0, GL_FALSE, 0, GL_READ_WRITE, GL_RGBA32F);
    glDispatchCompute(groups(width_texels_), groups(height_texels_), 1);
    glMemoryBarrier(GL_SHADER_IMAGE_ACCESS_BARRIER_BIT | GL_TEXTURE_FETCH_BARRIER_BIT |
                    GL_FRAMEBUFFER_BARRIER_BIT);
}

void CellSums::begin_lights() const {
    glBindFramebuffer(GL_FRAMEBUFFER, lights_target_.name());
    glViewport(0, 0, width_texels_, height_texels_);
    glEnable(GL_BLEND);
    glBlendFunc(GL_ONE, GL_ONE);
    glEnable(GL_DEPTH_TEST);
    glDepthMask(GL_FALSE);
    glBindTextureUnit(0, pass_colour_.name());
}

// The first half goes into the pass that is done with: it is made anew by the next. The gain comes
// last: passes keep their eleven bits however far the setting is off.
void CellSums::spread(const SumPrograms& programs, const Program& last, const Framebuffer& target,
                      int passes, double cell_radius, const Texture& arriving, float gain) const {
    assert(passes > 0);
    glDisable(GL_BLEND);
    glUseProgram(programs.spread_across.name());
    glUniform1f(cell_radius_uniform, static_cast<float>(cell_radius));
    glBindTextureUnit(0, sharp_.name());
    glBindTextureUnit(1, blurred_.name());
    fill(mean_target_);

    glUseProgram(last.name());
    glUniform1f(share_of_sum_uniform, 1.0f / static_cast<float>(passes));
    glUniform1f(gain_uniform, gain);
    glBindTextureUnit(2, pass_colour_.name());
    glBindTextureUnit(3, lights_.name());
    glBindTextureUnit(4, arriving.name());
    fill(target);
    glPixelStorei(GL_PACK_ALIGNMENT, 1);
}

Image<Rgb> CellSums::linear(const SumPrograms& programs, int passes, double cell_radius,
                            const Texture& arriving, float gain) const {
    const Texture light =
        make_texture(*gl_, GL_RGBA32F, width_texels_, height_texels_, GL_NEAREST, "linear picture");
    const Framebuffer target = make_framebuffer(*gl_, light.name(), 0, "linear picture");
    spread(programs, programs.linear, target, passes, cell_radius, arriving, gain);
    Image<Rgb> picture{width_texels_, height_texels_};
    glReadPixels(0, 0, width_texels_, height_texels_, GL_RGB, GL_FLOAT, picture.pixels().data());
    require_no_gl_error();
    return picture;
}

Image<Rgb8> CellSums::developed(const SumPrograms& programs, int passes, double cell_radius,
                                const Texture& arriving, float gain) const {
    spread(programs, programs.develop, picture_target_, passes, cell_radius, arriving, gain);
    Image<Rgb8> picture{width_texels_, height_texels_};
    glReadPixels(0, 0, width_texels_, height_texels_, GL_RGB, GL_UNSIGNED_BYTE,
                 picture.pixels().data());
    require_no_gl_error();
    return picture;
}

}  // namespace backrow::render
