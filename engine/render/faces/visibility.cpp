#include "render/faces/visibility.h"

#include "render/driver/program.h"
#include "render/driver/view_uniforms.h"
#include "render/faces/face_crop.h"

#include "measure/identities.h"

#include <algorithm>
#include <array>
#include <cstdint>

namespace backrow::render {
namespace {

// Fine enough that a hundredth of a face is many pixels, small enough for forty faces at once.
constexpr int longest_texels = 192;
constexpr double margin = 0.25;

}  // namespace

Made<Visibility> Visibility::make(const Gl& gl) {
    auto program = make_program(gl, "lens_pass.vert", "identity.frag");
    if (!program)
        return tl::make_unexpected(program.error());
    return Visibility{std::move(*program)};
}

double Visibility::measured_visible_fraction(const Gl& gl, const StageOnGpu& stage,
                                             const scene::CameraView& view,
                                             const scene::Person& person, int person_index) const {
    auto crop = face_crop(view, person, margin);
    if (!crop)
        return 0.0;
    // A far face is magnified, a near one reduced, to the same number of texels.
    const double longest_px = std::max(crop->width_px, crop->height_px);
    crop->width_texels =
        std::max(1, static_cast<int>(crop->width_px / longest_px * longest_texels));
    crop->height_texels =
        std::max(1, static_cast<int>(crop->height_px / longest_px * longest_texels));

    LensSamples middle;
    middle.coarse = {LensSample{}};
    middle.first_fine = {0, 0};
    const ViewUniforms uniforms{gl, view, *crop, middle};
    const Texture identity =
        make_texture(gl, GL_R32UI, crop->width_texels, crop->height_texels, GL_NEAREST, "identity");
    const Texture depth = make_texture(gl, GL_DEPTH_COMPONENT32F, crop->width_texels,
                                       crop->height_texels, GL_NEAREST, "identity depth");
    const Framebuffer target =
        make_framebuffer(gl, identity.name(), depth.name(), "identity target");

    std::vector<const DrawnPart*> everything;
    std::vector<const DrawnPart*> alone;
    for (const DrawnPart* part : parts_in_crop(stage, view, *crop)) {
        everything.push_back(part);
        if (part->person == person_index)
            alone.push_back(part);
    }
    const auto count = [&](const std::vector<const DrawnPart*>& parts) {
        constexpr std::array<GLuint, 4> nobody{};
        constexpr float infinitely_far = 0.0f;
        glClipControl(GL_UPPER_LEFT, GL_ZERO_TO_ONE);
        glViewport(0, 0, crop->width_texels, crop->height_texels);
        glBindFramebuffer(GL_FRAMEBUFFER, target.name());
        glDisable(GL_BLEND);
        glDisable(GL_CULL_FACE);
        glEnable(GL_DEPTH_TEST);
        glDepthMask(GL_TRUE);
        glDepthFunc(GL_GREATER);
        glClearNamedFramebufferuiv(target.name(), GL_COLOR, 0, nobody.data());
        glClearNamedFramebufferfv(target.name(), GL_DEPTH, 0, &infinitely_far);
        glUseProgram(program_.name());
        glProgramUniform1i(program_.name(), first_sample_uniform, 0);
        uniforms.bind();
        stage.bind();
        stage.draw(runs_of(parts));
        Image<std::uint32_t> identities{crop->width_texels, crop->height_texels};
        glPixelStorei(GL_PACK_ALIGNMENT, 1);
        glReadPixels(0, 0, crop->width_texels, crop->height_texels, GL_RED_INTEGER, GL_UNSIGNED_INT,
                     identities.pixels().data());
        require_no_gl_error();
        return measure::count_identity(identities, static_cast<std::uint32_t>(person_index + 1));
    };
    const long whole = count(alone);
    return whole == 0 ? 0.0 : static_cast<double>(count(everything)) / static_cast<double>(whole);
}

}  // namespace backrow::render
