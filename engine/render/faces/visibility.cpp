#include "render/faces/visibility.h"

#include "render/driver/program.h"
#include "render/driver/view_uniforms.h"
#include "render/faces/face_crop.h"

#include "measure/identities.h"

#include <glm/geometric.hpp>

#include <algorithm>
#include <array>
#include <cstdint>

namespace backrow::render {
namespace {

// Fine enough that a hundredth of a face is many pixels, small enough for forty faces at once.
constexpr int longest_texels = 192;
constexpr double margin = 0.25;

// What of the surroundings may stand before a face, through the middle of the lens: nearer than the
// back of the head, and over the crop. Of a lawn and a hedge nearly nothing, and they have most
// triangles.
class Before {
public:
    Before(const scene::CameraView& view, const CropRect& crop, double farthest_m)
        : view_{view}, farthest_m_{farthest_m}, px_per_tangent_{view.image_distance_mm() *
                                                                view.px_per_mm()},
          left_{(crop.left_px - view.width_px / 2.0) / px_per_tangent_},
          right_{(crop.left_px + crop.width_px - view.width_px / 2.0) / px_per_tangent_},
          top_{(view.height_px / 2.0 - crop.top_px) / px_per_tangent_},
          bottom_{(view.height_px / 2.0 - crop.top_px - crop.height_px) / px_per_tangent_} {}

    void append(const StageOnGpu& stage, const DrawnPart& part,
                std::vector<std::uint32_t>& indices) const {
        const std::uint32_t* corner =
            stage.indices().data() + static_cast<std::size_t>(part.first_index);
        for (int i = 0; i + 2 < part.index_count; i += 3, corner += 3)
            if (may_hide(stage.positions()[corner[0]], stage.positions()[corner[1]],
                         stage.positions()[corner[2]]))
                indices.insert(indices.end(), corner, corner + 3);
    }

private:
    [[nodiscard]] bool may_hide(const glm::vec3& a, const glm::vec3& b, const glm::vec3& c) const {
        const std::array<glm::dvec3, 3> from_lens{glm::dvec3{a} - view_.position_m,
                                                  glm::dvec3{b} - view_.position_m,
                                                  glm::dvec3{c} - view_.position_m};
        std::array<double, 3> depth_m{};
        for (std::size_t i = 0; i < 3; ++i)
            depth_m[i] = glm::dot(from_lens[i], view_.forward);
        const auto [nearest, farthest] = std::ranges::minmax(depth_m);
        if (nearest > farthest_m_ || farthest <= 0)
            return false;
        if (nearest <= 0)
            return true;
        // All three beyond the same side: inequalities by depth hold of everything between them.
        const auto all = [&](const auto& is_beyond) {
            return is_beyond(0) && is_beyond(1) && is_beyond(2);
        };
        const auto across = [&](std::size_t i) { return glm::dot(from_lens[i], view_.right); };
        const auto up = [&](std::size_t i) { return glm::dot(from_lens[i], view_.up); };
        return !all([&](std::size_t i) { return across(i) < left_ * depth_m[i]; }) &&
               !all([&](std::size_t i) { return across(i) > right_ * depth_m[i]; }) &&
               !all([&](std::size_t i) { return up(i) > top_ * depth_m[i]; }) &&
               !all([&](std::size_t i) { return up(i) < bottom_ * depth_m[i]; });
    }

    const scene::CameraView& view_;
    double farthest_m_;
    double px_per_tangent_;
    double left_, right_, top_, bottom_;  // tangents
};

// A head is no deeper than this.
constexpr double head_depth_m = 0.5;

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

    const Before before{view, *crop, axial_m(view, nearer_eye_m(view, person)) + head_depth_m};
    std::vector<const DrawnPart*> people;
    std::vector<const DrawnPart*> alone;
    std::vector<std::uint32_t> surroundings;
    for (const DrawnPart* part : parts_in_crop(stage, view, *crop)) {
        if (part->person < 0)
            before.append(stage, *part, surroundings);
        else
            people.push_back(part);
        if (part->person == person_index)
            alone.push_back(part);
    }
    const Buffer before_face =
        make_buffer(gl, surroundings.data(), surroundings.size() * sizeof(std::uint32_t), "before");
    const auto count = [&](const std::vector<const DrawnPart*>& parts, int more_indices) {
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
        if (more_indices > 0) {
            glBindBuffer(GL_ELEMENT_ARRAY_BUFFER, before_face.name());
            draw_instances({.first_index = 0, .index_count = more_indices}, 1);
        }
        Image<std::uint32_t> identities{crop->width_texels, crop->height_texels};
        glPixelStorei(GL_PACK_ALIGNMENT, 1);
        glReadPixels(0, 0, crop->width_texels, crop->height_texels, GL_RED_INTEGER, GL_UNSIGNED_INT,
                     identities.pixels().data());
        require_no_gl_error();
        return measure::count_identity(identities, static_cast<std::uint32_t>(person_index + 1));
    };
    const long whole = count(alone, 0);
    if (whole == 0)
        return 0.0;
    const long seen = count(people, static_cast<int>(surroundings.size()));
    return static_cast<double>(seen) / static_cast<double>(whole);
}

}  // namespace backrow::render
