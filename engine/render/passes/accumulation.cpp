#include "render/passes/accumulation.h"

#include "render/driver/program.h"
#include "render/passes/arriving_light.h"

#include "measure/difference.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <limits>
#include <utility>

namespace backrow::render {
namespace {

constexpr int passes_that_note = 4;
// Below, looking costs more than it saves.
constexpr int passes_worth_noting = 16;
constexpr std::size_t corners_worth_noting = 60'000;

}  // namespace

Made<PassPrograms> PassPrograms::make(const Gl& gl, const std::vector<std::string>& defines) {
    PassPrograms programs;
    struct Wanted {
        Program& program;
        const char* vertex;
        const char* fragment;
        const char* define = nullptr;
    };
    const std::array<Wanted, 5> all{
        Wanted{programs.plain, "vertex_lit.vert", "vertex_lit.frag"},
        Wanted{programs.detailed, "vertex_lit.vert", "vertex_lit.frag", "DETAILED"},
        Wanted{programs.mean_detailed, "vertex_lit.vert", "vertex_lit.frag", "MEAN_DETAILED"},
        Wanted{programs.textured, "vertex_lit.vert", "vertex_lit.frag", "TEXTURED"},
        Wanted{programs.highlight, "lens_pass.vert", "highlight.frag"}};
    for (const Wanted& wanted : all) {
        std::vector<std::string> defined = defines;
        if (wanted.define != nullptr)
            defined.emplace_back(wanted.define);
        auto program = make_program(gl, wanted.vertex, wanted.fragment, defined);
        if (!program)
            return tl::make_unexpected(program.error());
        wanted.program = std::move(*program);
    }
    return programs;
}

Made<PicturePrograms> PicturePrograms::make(const Gl& gl, Look look) {
    const std::vector<std::string> defines = look_defines(look);
    std::vector<std::string> of_simple_lens = defines;
    of_simple_lens.emplace_back("SIMPLE_LENS");
    auto through_simple_lens = PassPrograms::make(gl, of_simple_lens);
    if (!through_simple_lens)
        return tl::make_unexpected(through_simple_lens.error());
    auto through_any_lens = PassPrograms::make(gl, defines);
    if (!through_any_lens)
        return tl::make_unexpected(through_any_lens.error());
    auto sums = SumPrograms::make(gl, defines);
    if (!sums)
        return tl::make_unexpected(sums.error());
    return PicturePrograms{std::move(*through_simple_lens), std::move(*through_any_lens),
                           std::move(*sums)};
}

Accumulation::Accumulation(const Studio& studio, const scene::CameraView& view,
                           const CropRect& crop, const LensSamples& samples,
                           const PartChoice& choice)
    : studio_{studio}, programs_{is_simple(view.lens) ? studio.programs.through_simple_lens
                                                      : studio.programs.through_any_lens},
      crop_{crop}, samples_{samples}, uniforms_{studio.gl, view, crop, samples},
      triangles_{crop_triangles(studio.gl, studio.stage, studio.lighting, view, crop, choice,
                                studio.coarse)},
      arriving_{arriving_light(studio.gl, view, crop)}, sums_{studio.gl, crop.width_texels,
                                                              crop.height_texels,
                                                              triangles_.highlights.index_count >
                                                                  0},
      blur_of_nothing_texels_{static_cast<float>(
          blur_radius_texels(view, crop, std::numeric_limits<double>::infinity()))},
      wanted_{static_cast<int>(samples.coarse.size())}, parts_colours_{
                                                            colours_reach_texels(view, crop) > 0} {
    // A card draws what is hidden sooner than it tells what is not.
    if (!studio.gl.on_processor || choice || wanted_ < passes_worth_noting ||
        triangles_.corners.size() < corners_worth_noting)
        return;
    Seen& seen = seen_.emplace();
    seen.seen.assign(triangles_.corners.size() / 3, 0);
    seen.triangles = make_texture(studio.gl, GL_R32UI, crop.width_texels, crop.height_texels,
                                  GL_NEAREST, "triangles seen");
    seen.target = make_framebuffer(studio.gl, sums_.pass_colour().name(), sums_.pass_depth().name(),
                                   "first passes", seen.triangles.name());
}

void Accumulation::add(int passes) {
    const int last = std::min(done_ + passes, wanted_);
    while (done_ < last && !is_good_) {
        begin_pass();
        if (seen_)
            glBindFramebuffer(GL_FRAMEBUFFER, seen_->target.name());
        clear_pass();
        draw_surfaces(done_);
        if (seen_)
            note_seen();
        finish_pass();
        if (std::ranges::find(samples_.looks, done_) != samples_.looks.end())
            look();
    }
}

// Hidden for the first points of the lens, which are spread over all of it, and with all its
// neighbours, a triangle is hidden for the rest.
void Accumulation::note_seen() {
    Image<std::uint32_t> triangles{crop_.width_texels, crop_.height_texels};
    glReadBuffer(GL_COLOR_ATTACHMENT1);
    glPixelStorei(GL_PACK_ALIGNMENT, 1);
    glReadPixels(0, 0, crop_.width_texels, crop_.height_texels, GL_RED_INTEGER, GL_UNSIGNED_INT,
                 triangles.pixels().data());
    glReadBuffer(GL_COLOR_ATTACHMENT0);
    for (const std::uint32_t triangle : triangles.pixels())
        if (triangle > 0)
            seen_->seen[triangle - 1] = 1;
    if (done_ + 1 < passes_that_note)
        return;
    triangles_ = without_unseen(studio_.gl, triangles_, seen_->seen);
    seen_.reset();
}

// What half of the passes make of the picture lies as far from what all of them make as that lies
// from the truth, or further. Mean and worst place must both do.
void Accumulation::look() {
    Image<Rgb8> now = developed();
    if (!looked_at_.empty() && done_ >= 2 * samples_then_) {
        const auto apart = measure::difference(looked_at_, now);
        is_good_ = measure::decibels(apart.mean_square) >= samples_.enough_db &&
                   measure::decibels(apart.worst_mean_square) >= samples_.enough_in_worst_square_db;
    }
    looked_at_ = std::move(now);
    samples_then_ = done_;
}

void Accumulation::finish_pass() {
    sums_.add(studio_.programs.sums, done_);
    if (triangles_.highlights.index_count > 0)
        add_highlights(done_);
    ++done_;
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
    clear_pass();
    draw_surfaces(done_++);
    KeptPass kept{
        .colour = CellSums::make_colour(studio_.gl, crop_.width_texels, crop_.height_texels),
        .depth = CellSums::make_depth(studio_.gl, crop_.width_texels, crop_.height_texels)};
    copy_pass(sums_.pass_colour(), sums_.pass_depth(), kept.colour, kept.depth);
    return kept;
}

void Accumulation::add_over(const KeptPass& kept) {
    assert(done_ < wanted_);
    begin_pass();
    copy_pass(kept.colour, kept.depth, sums_.pass_colour(), sums_.pass_depth());
    draw_surfaces(done_);
    finish_pass();
}

void Accumulation::begin_pass() {
    sums_.begin_pass();
}

// Where there is nothing it is black, infinitely far, and as blurred as that.
void Accumulation::clear_pass() {
    const std::array<float, 4> nothing{0, 0, 0, blur_of_nothing_texels_};
    constexpr std::array<GLuint, 4> no_triangle{};
    constexpr float infinitely_far = 0;
    glClearBufferfv(GL_COLOR, 0, nothing.data());
    if (seen_)
        glClearBufferuiv(GL_COLOR, 1, no_triangle.data());
    glClearBufferfv(GL_DEPTH, 0, &infinitely_far);
}

void Accumulation::draw_surfaces(int pass) {
    uniforms_.bind();
    studio_.lighting.bind();
    glBindBuffer(GL_ELEMENT_ARRAY_BUFFER, triangles_.indices.name());
    auto use = [pass, current = GLuint{0}](const Program& program) mutable {
        if (std::exchange(current, program.name()) == program.name())
            return;
        glUseProgram(program.name());
        glUniform1i(first_sample_uniform, pass);
    };
    const auto draw_plain_or_detailed = [&](const std::vector<Run>& runs) {
        for (const Run& run : runs) {
            use(run.texture < 0 ? programs_.plain
                : run.by_mean   ? programs_.mean_detailed
                                : programs_.detailed);
            glUniform1ui(first_triangle_uniform, static_cast<GLuint>(run.first_index / 3));
            studio_.stage.draw(run);
        }
    };
    draw_plain_or_detailed(triangles_.people);
    if (!triangles_.textured.empty()) {
        use(programs_.textured);
        const glm::vec3& highlight = studio_.lighting.highlight_colour();
        glUniform3f(highlight_colour_uniform, highlight.r, highlight.g, highlight.b);
        studio_.stage.bind_materials();
        for (const Run& run : triangles_.textured) {
            glUniform1ui(first_triangle_uniform, static_cast<GLuint>(run.first_index / 3));
            studio_.stage.draw(run);
        }
    }
    draw_plain_or_detailed(triangles_.surroundings);
}

// Against this pass's depth: the fine samples of this pass's cell of the lens see round an edge as
// this pass does.
void Accumulation::add_highlights(int pass) {
    const int first = samples_.first_fine[static_cast<std::size_t>(pass)];
    const int count = samples_.first_fine[static_cast<std::size_t>(pass) + 1] - first;
    if (count == 0)
        return;
    sums_.begin_lights();
    glEnable(GL_CULL_FACE);  // closed and convex: each texel of a source is met once
    glUseProgram(programs_.highlight.name());
    glUniform1i(first_sample_uniform, wanted_ + first);
    glUniform1i(pass_sample_uniform, pass);
    glUniform1i(by_colour_uniform, parts_colours_ ? 1 : 0);
    glUniform1f(share_uniform, static_cast<float>(samples_.fine_share()));
    studio_.stage.bind();
    glBindBuffer(GL_ELEMENT_ARRAY_BUFFER, triangles_.indices.name());
    draw_instances(triangles_.highlights, parts_colours_ ? 3 * count : count);
}

Image<Rgb> Accumulation::linear() const {
    return sums_.linear(studio_.programs.sums, done_, cell_radius_of(done_), arriving_,
                        studio_.light_gain);
}

Image<Rgb8> Accumulation::developed() const {
    if (done_ == samples_then_)
        return looked_at_;
    return sums_.developed(studio_.programs.sums, done_, cell_radius_of(done_), arriving_,
                           studio_.light_gain);
}

}  // namespace backrow::render
