#include "render/passes/accumulation.h"

#include "render/driver/program.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <utility>

namespace backrow::render {
namespace {

Texture make_pass_colour(const Gl& gl, const CropRect& crop) {
    return make_texture(gl, GL_RGBA16F, crop.width_texels, crop.height_texels, GL_NEAREST,
                        "pass colour");
}

Texture make_pass_depth(const Gl& gl, const CropRect& crop) {
    return make_texture(gl, GL_DEPTH_COMPONENT32F, crop.width_texels, crop.height_texels,
                        GL_NEAREST, "pass depth");
}

}  // namespace

Made<PicturePrograms> PicturePrograms::make(const Gl& gl, Look look) {
    PicturePrograms programs;
    struct Wanted {
        Program& program;
        const char* vertex;
        const char* fragment;
        const char* define = nullptr;
    };
    const std::array<Wanted, 9> all{
        Wanted{programs.by_vertex, "vertex_lit.vert", "vertex_lit.frag"},
        Wanted{programs.by_vertex_detailed, "vertex_lit.vert", "vertex_lit.frag", "DETAILED"},
        Wanted{programs.by_vertex_mean_detailed, "vertex_lit.vert", "vertex_lit.frag",
               "MEAN_DETAILED"},
        Wanted{programs.by_vertex_textured, "vertex_lit.vert", "vertex_lit.frag", "TEXTURED"},
        Wanted{programs.highlight, "lens_pass.vert", "highlight.frag"},
        Wanted{programs.add, "full_frame.vert", "add_pass.frag"},
        Wanted{programs.spread_across, "full_frame.vert", "spread_across.frag"},
        Wanted{programs.linear, "full_frame.vert", "linear.frag"},
        Wanted{programs.develop, "full_frame.vert", "develop.frag"}};
    for (const Wanted& wanted : all) {
        std::vector<std::string> defines = look_defines(look);
        if (wanted.define != nullptr)
            defines.emplace_back(wanted.define);
        auto program = make_program(gl, wanted.vertex, wanted.fragment, defines);
        if (!program)
            return tl::make_unexpected(program.error());
        wanted.program = std::move(*program);
    }
    return programs;
}

Accumulation::Accumulation(const Studio& studio, const scene::CameraView& view,
                           const CropRect& crop, const LensSamples& samples,
                           const PartChoice& choice)
    : studio_{studio}, crop_{crop}, uniforms_{studio.gl, view, crop, samples},
      triangles_{crop_triangles(studio.gl, studio.stage, studio.lighting, view, crop, choice)},
      first_fine_{samples.first_fine}, fine_share_{static_cast<float>(samples.fine_share())},
      wanted_{static_cast<int>(samples.coarse.size())} {
    const Gl& gl = studio.gl;
    const int width = crop.width_texels;
    const int height = crop.height_texels;
    pass_colour_ = make_pass_colour(gl, crop);
    depth_ = make_pass_depth(gl, crop);
    sharp_ = make_texture(gl, GL_RGBA32F, width, height, GL_NEAREST, "sharp sum");
    blurred_ = make_texture(gl, GL_RGBA32F, width, height, GL_NEAREST, "blurred sum");
    picture_ = make_texture(gl, GL_RGBA8, width, height, GL_NEAREST, "picture");
    pass_target_ = make_framebuffer(gl, pass_colour_.name(), depth_.name(), "pass");
    sum_target_ = make_framebuffer(gl, sharp_.name(), 0, "sums", blurred_.name());
    // Without small lights one black texel stands for theirs.
    const bool has_lights = triangles_.highlights.index_count > 0;
    lights_ = make_texture(gl, GL_RGBA32F, has_lights ? width : 1, has_lights ? height : 1,
                           GL_NEAREST, "lights");
    lights_target_ = make_framebuffer(gl, lights_.name(), has_lights ? depth_.name() : 0, "lights");
    mean_target_ = make_framebuffer(gl, pass_colour_.name(), 0, "mean");
    picture_target_ = make_framebuffer(gl, picture_.name(), 0, "picture");
    no_vertices_ = make_vertex_array(gl, "no vertices");
    restart();
}

void Accumulation::restart() {
    constexpr std::array<float, 4> nothing{};
    glClearNamedFramebufferfv(sum_target_.name(), GL_COLOR, 0, nothing.data());
    glClearNamedFramebufferfv(sum_target_.name(), GL_COLOR, 1, nothing.data());
    glClearNamedFramebufferfv(lights_target_.name(), GL_COLOR, 0, nothing.data());
    done_ = 0;
}

void Accumulation::add(int passes) {
    const int last = std::min(done_ + passes, wanted_);
    for (; done_ < last; ++done_) {
        begin_pass();
        glClear(GL_COLOR_BUFFER_BIT | GL_DEPTH_BUFFER_BIT);
        finish_pass();
    }
}

void Accumulation::finish_pass() {
    draw_surfaces(done_);
    add_to_sum(done_);
    if (triangles_.highlights.index_count > 0)
        add_highlights(done_);
}

void Accumulation::copy_pass(const Texture& colour, const Texture& depth, const Texture& to_colour,
                             const Texture& to_depth) const {
    const auto copy = [&](const Texture& from, const Texture& to) {
        glCopyImageSubData(from.name(), GL_TEXTURE_2D, 0, 0, 0, 0, to.name(), GL_TEXTURE_2D, 0, 0,
                           0, 0, crop_.width_texels, crop_.height_texels, 1);
    };
    copy(colour, to_colour);
    copy(depth, to_depth);
}

KeptPass Accumulation::keep_next() {
    assert(done_ < wanted_);
    begin_pass();
    glClear(GL_COLOR_BUFFER_BIT | GL_DEPTH_BUFFER_BIT);
    draw_surfaces(done_++);
    KeptPass kept{.colour = make_pass_colour(studio_.gl, crop_),
                  .depth = make_pass_depth(studio_.gl, crop_)};
    copy_pass(pass_colour_, depth_, kept.colour, kept.depth);
    return kept;
}

void Accumulation::add_over(const KeptPass& kept) {
    assert(done_ < wanted_);
    begin_pass();
    copy_pass(kept.colour, kept.depth, pass_colour_, depth_);
    finish_pass();
    ++done_;
}

// Depth is nearest/d, so that floating-point steps are even in 1/d: the greater, the nearer.
void Accumulation::begin_pass() {
    glClipControl(GL_UPPER_LEFT, GL_ZERO_TO_ONE);
    glViewport(0, 0, crop_.width_texels, crop_.height_texels);
    glBindFramebuffer(GL_FRAMEBUFFER, pass_target_.name());
    glDisable(GL_BLEND);
    glDisable(GL_CULL_FACE);
    glEnable(GL_DEPTH_TEST);
    glDepthMask(GL_TRUE);
    glDepthFunc(GL_GREATER);
    glClearDepth(0.0);
    glClearColor(0.0f, 0.0f, 0.0f, 1.0f);
}

void Accumulation::draw_surfaces(int pass) {
    uniforms_.bind();
    studio_.lighting.bind();
    glBindBuffer(GL_ELEMENT_ARRAY_BUFFER, triangles_.indices.name());
    const PicturePrograms& programs = studio_.programs;
    auto use = [pass, current = GLuint{0}](const Program& program) mutable {
        if (std::exchange(current, program.name()) == program.name())
            return;
        glUseProgram(program.name());
        glUniform1i(first_sample_uniform, pass);
    };
    const auto draw_plain_or_detailed = [&](const std::vector<Run>& runs) {
        for (const Run& run : runs) {
            use(run.texture < 0 ? programs.by_vertex
                : run.by_mean   ? programs.by_vertex_mean_detailed
                                : programs.by_vertex_detailed);
            studio_.stage.draw(run);
        }
    };
    draw_plain_or_detailed(triangles_.people);
    if (!triangles_.textured.empty()) {
        use(programs.by_vertex_textured);
        const glm::vec3& highlight = studio_.lighting.highlight_colour();
        glUniform3f(highlight_colour_uniform, highlight.r, highlight.g, highlight.b);
        studio_.stage.bind_materials();
        studio_.stage.draw(triangles_.textured);
    }
    draw_plain_or_detailed(triangles_.surroundings);
}

void Accumulation::add_to_sum(int pass) {
    glBindFramebuffer(GL_FRAMEBUFFER, sum_target_.name());
    glDisable(GL_DEPTH_TEST);
    glEnable(GL_BLEND);
    glBlendFunc(GL_ONE, GL_ONE);
    glUseProgram(studio_.programs.add.name());
    glUniform1i(first_sample_uniform, pass);
    glBindTextureUnit(0, pass_colour_.name());
    glBindTextureUnit(1, depth_.name());
    glBindVertexArray(no_vertices_.name());
    glDrawArrays(GL_TRIANGLES, 0, 3);
}

// Against this pass's depth: the fine samples of this pass's cell of the lens see round an edge as
// this pass does.
void Accumulation::add_highlights(int pass) {
    const int first = first_fine_[static_cast<std::size_t>(pass)];
    const int count = first_fine_[static_cast<std::size_t>(pass) + 1] - first;
    if (count == 0)
        return;
    glBindFramebuffer(GL_FRAMEBUFFER, lights_target_.name());
    glEnable(GL_DEPTH_TEST);
    glDepthMask(GL_FALSE);
    glEnable(GL_CULL_FACE);  // closed and convex: each texel of a source is met once
    glUseProgram(studio_.programs.highlight.name());
    glUniform1i(first_sample_uniform, wanted_ + first);
    glUniform1f(share_uniform, fine_share_);
    studio_.stage.bind();
    glBindBuffer(GL_ELEMENT_ARRAY_BUFFER, triangles_.indices.name());
    draw_instances(triangles_.highlights, count);
}

// The first half of the spreading, into the pass that is done with: it is made anew by the next.
void Accumulation::spread_across() const {
    assert(done_ > 0);
    glViewport(0, 0, crop_.width_texels, crop_.height_texels);
    glDisable(GL_DEPTH_TEST);
    glDisable(GL_BLEND);
    glDisable(GL_CULL_FACE);
    glBindVertexArray(no_vertices_.name());
    glBindFramebuffer(GL_FRAMEBUFFER, mean_target_.name());
    glUseProgram(studio_.programs.spread_across.name());
    glUniform1f(cell_radius_uniform, static_cast<float>(cell_radius_of(done_)));
    glBindTextureUnit(0, sharp_.name());
    glBindTextureUnit(1, blurred_.name());
    glDrawArrays(GL_TRIANGLES, 0, 3);
}

// The gain comes last: passes keep their eleven bits however far the setting is off.
void Accumulation::spread_up(const Program& program, const Framebuffer& target) const {
    glBindFramebuffer(GL_FRAMEBUFFER, target.name());
    glUseProgram(program.name());
    glUniform1f(share_of_sum_uniform, 1.0f / static_cast<float>(done_));
    glUniform1f(gain_uniform, studio_.light_gain);
    glBindTextureUnit(0, sharp_.name());
    glBindTextureUnit(1, blurred_.name());
    glBindTextureUnit(2, pass_colour_.name());
    glBindTextureUnit(3, lights_.name());
    glDrawArrays(GL_TRIANGLES, 0, 3);
}

Image<Rgb> Accumulation::linear() const {
    const Texture light = make_texture(studio_.gl, GL_RGBA32F, crop_.width_texels,
                                       crop_.height_texels, GL_NEAREST, "linear picture");
    const Framebuffer target = make_framebuffer(studio_.gl, light.name(), 0, "linear picture");
    spread_across();
    spread_up(studio_.programs.linear, target);
    Image<Rgb> picture{crop_.width_texels, crop_.height_texels};
    glPixelStorei(GL_PACK_ALIGNMENT, 1);
    glReadPixels(0, 0, crop_.width_texels, crop_.height_texels, GL_RGB, GL_FLOAT,
                 picture.pixels().data());
    require_no_gl_error();
    return picture;
}

Image<Rgb8> Accumulation::developed() const {
    spread_across();
    spread_up(studio_.programs.develop, picture_target_);
    Image<Rgb8> picture{crop_.width_texels, crop_.height_texels};
    glPixelStorei(GL_PACK_ALIGNMENT, 1);
    glReadPixels(0, 0, crop_.width_texels, crop_.height_texels, GL_RGB, GL_UNSIGNED_BYTE,
                 picture.pixels().data());
    require_no_gl_error();
    return picture;
}

}  // namespace backrow::render
