#include "render/driver/view_uniforms.h"

#include "render/driver/open_points.h"

#include "optics/lens/lens.h"
#include "optics/lens/lens_profile.h"

#include "base/units.h"

#include <glm/geometric.hpp>
#include <glm/vec4.hpp>

#include <algorithm>
#include <cmath>

namespace backrow::render {
namespace {

struct ViewNumbers {  // std140, as lens.glsl has it
    glm::vec4 lens_position, right, up, forward, lens, crop, defects, errors, colours, rims, texel;
};

/// v times the radius of the opening: metres on the sensor for a dioptre.
double metres_a_dioptre(const scene::CameraView& view) {
    return m_from_mm(view.image_distance_mm()) *
           m_from_mm(optics::aperture_diameter_mm(view.focused())) / 2.0;
}

double coma_at_edge_dpt(const optics::LensSettings& lens) {
    return lens.profile.coma_dpt * optics::used_radius(lens.profile, lens.f_number);
}

ViewNumbers numbers_for(const scene::CameraView& view, const CropRect& crop, double cell_radius) {
    const double image_distance_m = m_from_mm(view.image_distance_mm());
    const double opening_radius_m = m_from_mm(optics::aperture_diameter_mm(view.focused())) / 2.0;
    const double px_per_m = view.width_px / m_from_mm(view.sensor_width_mm);
    const double py_per_m = view.height_px / m_from_mm(view.sensor_height_mm);
    const double half_diagonal_m =
        m_from_mm(std::hypot(view.sensor_width_mm, view.sensor_height_mm)) / 2.0;
    const optics::LensProfile& profile = view.lens.profile;
    const double texels_per_m = px_per_m * crop.width_texels / crop.width_px;
    const auto colour_texels = [&](int channel) {
        return metres_a_dioptre(view) * optics::colour_shift_dpt(profile, channel) * texels_per_m;
    };

    const glm::dvec4 clip_from_image{
        px_per_m * 2.0 / crop.width_px, py_per_m * 2.0 / crop.height_px,
        (view.width_px / 2.0 - crop.left_px) * 2.0 / crop.width_px - 1.0,
        1.0 - (view.height_px / 2.0 - crop.top_px) * 2.0 / crop.height_px};
    return {
        .lens_position = glm::vec4{glm::vec3{view.position_m}, 0.0f},
        .right = glm::vec4{glm::vec3{view.right}, 0.0f},
        .up = glm::vec4{glm::vec3{view.up}, 0.0f},
        .forward = glm::vec4{glm::vec3{view.forward}, 0.0f},
        .lens = glm::vec4{glm::dvec4{image_distance_m, 1.0 / view.lens.focus_m, opening_radius_m,
                                     nearest_drawn_m}},
        .crop = glm::vec4{clip_from_image},
        .defects = glm::vec4{glm::dvec4{optics::spherical_at_edge_dpt(profile, view.lens.f_number),
                                        profile.field_curvature_dpt, 1.0 / half_diagonal_m,
                                        optics::most_image_height_squared}},
        .errors =
            glm::vec4{glm::dvec4{profile.astigmatism_dpt / 2.0, coma_at_edge_dpt(view.lens),
                                 optics::common_dpt(profile, 0), is_simple(view.lens) ? 0.0 : 1.0}},
        .colours = glm::vec4{glm::dvec4{colour_texels(0), colour_texels(2),
                                        colours_reach_texels(view, crop) > 0 ? 1.0 : 0.0, 0.0}},
        .rims = glm::vec4{rims_cut(view.lens) ? 1.0f : 0.0f, 0.0f, 0.0f, 0.0f},
        .texel = glm::vec4{glm::dvec4{2.0 / crop.width_texels, 2.0 / crop.height_texels,
                                      texels_per_m, cell_radius}}};
}

}  // namespace

bool is_simple(const optics::LensSettings& lens) noexcept {
    return lens.profile.astigmatism_dpt == 0 && coma_at_edge_dpt(lens) == 0 &&
           optics::common_dpt(lens.profile, 0) == 0 && !rims_cut(lens);
}

ViewUniforms::ViewUniforms(const Gl& gl, const scene::CameraView& view, const CropRect& crop,
                           const LensSamples& samples) {
    const ViewNumbers numbers = numbers_for(view, crop, samples.cell_radius);
    view_ = make_buffer(gl, &numbers, sizeof numbers, "view");
    std::vector<LensSample> all = samples.coarse;
    all.insert(all.end(), samples.fine.begin(), samples.fine.end());
    samples_ = make_buffer(gl, all.data(), all.size() * sizeof(LensSample), "lens samples");
    open_points_ = make_open_points(gl, view.lens);
}

void ViewUniforms::bind() const {
    glBindBufferBase(GL_UNIFORM_BUFFER, 0, view_.name());
    glBindBufferBase(GL_SHADER_STORAGE_BUFFER, 1, samples_.name());
    constexpr GLuint open_points_unit = 7;  // lens.glsl
    glBindTextureUnit(open_points_unit, open_points_.name());
}

namespace {

/// What no ray of optics/lens/ray_error.h is off by more, of any colour: |ε| with every sign at its
/// worst.
double most_error_dpt(const optics::LensSettings& lens) {
    const optics::LensProfile& profile = lens.profile;
    const double h2 = optics::most_image_height_squared;
    const double colour_dpt = std::max(std::abs(optics::colour_shift_dpt(profile, 0)),
                                       std::abs(optics::colour_shift_dpt(profile, 2)));
    return std::abs(optics::spherical_at_edge_dpt(profile, lens.f_number)) +
           h2 * (std::abs(profile.field_curvature_dpt) + std::abs(profile.astigmatism_dpt) / 2) +
           3 * std::sqrt(h2) *
               std::abs(profile.coma_dpt * optics::used_radius(profile, lens.f_number)) +
           std::abs(optics::common_dpt(profile, 0)) + colour_dpt;
}

}  // namespace

// A disc's radius is v·(D/2)·|1/s + Δ − 1/d|.
BlurReach::BlurReach(const scene::CameraView& view)
    : px_dioptre_{view.image_distance_mm() * view.px_per_mm() *
                  m_from_mm(optics::aperture_diameter_mm(view.focused())) / 2.0},
      focus_dpt_{1.0 / view.lens.focus_m}, error_dpt_{most_error_dpt(view.lens)} {}

double BlurReach::radius_px(double axial_m) const noexcept {
    constexpr double spare_px = 1.0;
    return px_dioptre_ * (std::abs(focus_dpt_ - 1.0 / axial_m) + error_dpt_) + spare_px;
}

double blur_radius_texels(const scene::CameraView& view, const CropRect& crop, double axial_m) {
    const double radius_mm = view.image_distance_mm() *
                             m_from_mm(optics::aperture_diameter_mm(view.focused())) / 2.0 *
                             std::abs(1.0 / view.lens.focus_m - 1.0 / axial_m);
    return texels_from_camera(CameraPixels{radius_mm * view.px_per_mm()}, crop).value;
}

double colours_reach_texels(const scene::CameraView& view, const CropRect& crop) {
    const double most_dpt = std::max(std::abs(optics::colour_shift_dpt(view.lens.profile, 0)),
                                     std::abs(optics::colour_shift_dpt(view.lens.profile, 2)));
    return metres_a_dioptre(view) * most_dpt * view.width_px / m_from_mm(view.sensor_width_mm) *
           crop.width_texels / crop.width_px;
}

std::vector<const DrawnPart*> parts_in_crop(const StageOnGpu& stage, const scene::CameraView& view,
                                            const CropRect& crop) {
    const double image_distance_mm = view.image_distance_mm();
    const double px_per_mm = view.px_per_mm();
    const BlurReach blur{view};

    std::vector<const DrawnPart*> seen;
    for (const DrawnPart& part : stage.parts()) {
        const glm::dvec3 from_lens = part.centre_m - view.position_m;
        const double depth_m = glm::dot(from_lens, view.forward);
        const double nearest_m = depth_m - part.radius_m;
        if (depth_m + part.radius_m < nearest_drawn_m)
            continue;
        if (nearest_m > nearest_drawn_m) {
            // All of the ball lies in front: bound where it can land. Its outline, seen from the
            // lens, is no wider than the ball at its nearest depth, moved by its own perspective.
            const double blur_px =
                std::max(blur.radius_px(nearest_m), blur.radius_px(depth_m + part.radius_m));
            const double across_m = glm::dot(from_lens, view.right);
            const double up_m = glm::dot(from_lens, view.up);
            const auto reach = [&](double lateral_m) {
                const double edge_near = (lateral_m + part.radius_m) / nearest_m;
                const double edge_far = (lateral_m + part.radius_m) / (depth_m + part.radius_m);
                return image_distance_mm * px_per_mm * std::max(edge_near, edge_far) + blur_px;
            };
            const double centre_x = view.width_px / 2.0;
            const double centre_y = view.height_px / 2.0;
            if (centre_x + reach(across_m) < crop.left_px ||
                centre_x - reach(-across_m) > crop.left_px + crop.width_px ||
                centre_y + reach(-up_m) < crop.top_px ||
                centre_y - reach(up_m) > crop.top_px + crop.height_px)
                continue;
        }
        seen.push_back(&part);
    }
    return seen;
}

}  // namespace backrow::render
