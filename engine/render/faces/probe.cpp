#include "render/faces/probe.h"

#include "render/driver/program.h"
#include "render/driver/view_uniforms.h"
#include "render/passes/arriving_light.h"
#include "render/passes/cell_sums.h"
#include "render/studio/stage_on_gpu.h"

#include "measure/spot.h"

#include "base/image.h"

#include <algorithm>
#include <array>

namespace backrow::render {
namespace {

constexpr int tile_texels = 96;
constexpr int empty_border_texels = 4;
// Room for the cells of the lens, which spread what the samples alone make.
constexpr int border_for_cells_texels = 20;
constexpr double probe_texels = 3.0;
constexpr double first_crop_px = 4.0;
constexpr double largest_crop_px = 1e6;
// A square of nine texels covers eight to ten of them, by where it falls; one lens point missed of
// the fewest that pictures use costs more.
constexpr double all_the_light = 0.95;

CropRect crop_round(const glm::dvec2& centre_px, double size_px) {
    return {.left_px = centre_px.x - size_px / 2.0,
            .top_px = centre_px.y - size_px / 2.0,
            .width_px = size_px,
            .height_px = size_px,
            .width_texels = tile_texels,
            .height_texels = tile_texels};
}

// A square that faces the sensor, its half side in the world.
stage::Part square(const scene::CameraView& view, const glm::dvec3& point_m, double half_m) {
    stage::Part part;
    part.role = stage::Role::highlight;
    constexpr std::array<std::array<double, 2>, 4> corners{{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}}};
    for (const auto& [x, y] : corners) {
        shapes::Vertex vertex;
        vertex.position_m = glm::vec3{half_m * (x * view.right + y * view.up)};
        part.mesh.vertices.push_back(vertex);
    }
    part.mesh.indices = {0, 1, 2, 0, 2, 3};
    part.world_from_part[3] = glm::dvec4{point_m, 1.0};
    return part;
}

// The probe, of the size that fills probe_texels when it is sharp, and a card that fills all the
// tile.
stage::Stage probe_stage(const scene::CameraView& view, const glm::dvec3& point_m, double axial_m,
                         const CropRect& crop) {
    const auto half_m = [&](double texels) {
        const double side_px = camera_from_texels(Texels{texels}, crop).value;
        return side_px / view.px_per_mm() / view.image_distance_mm() * axial_m / 2.0;
    };
    stage::Stage stage;
    stage.parts = {square(view, point_m, half_m(probe_texels)),
                   square(view, point_m, half_m(4.0 * tile_texels))};
    return stage;
}

Run run_of(const DrawnPart& part) {
    return {.first_index = part.first_index, .index_count = part.index_count};
}

LensSamples through_the_middle(LensSamples samples) {
    for (LensSample& sample : samples.coarse)
        sample.pupil_x = sample.pupil_y = 0.0f;
    return samples;
}

Image<float> of_one_channel(const Image<Rgb>& picture) {
    Image<float> channel{picture.width_px(), picture.height_px()};
    std::ranges::transform(picture.pixels(), channel.pixels().begin(), &Rgb::g);
    return channel;
}

}  // namespace

Made<Probe> Probe::make(const Gl& gl) {
    auto program = make_program(gl, "lens_pass.vert", "probe.frag");
    if (!program)
        return tl::make_unexpected(program.error());
    auto sums = SumPrograms::make(gl, {});
    if (!sums)
        return tl::make_unexpected(sums.error());
    return Probe{std::move(*program), std::move(*sums)};
}

std::optional<CameraPixels> Probe::measure(const Gl& gl, const scene::CameraView& view,
                                           const LensSamples& samples,
                                           const glm::dvec3& point_m) const {
    const scene::Seen seen = project(view, point_m);
    if (seen.axial_m <= nearest_drawn_m)
        return std::nullopt;

    const Texture light = make_texture(gl, GL_R32F, tile_texels, tile_texels, GL_NEAREST, "probe");
    const Framebuffer target = make_framebuffer(gl, light.name(), 0, "probe target");
    const auto draw = [&](const StageOnGpu& stage, const CropRect& crop,
                          const LensSamples& through) {
        glClipControl(GL_UPPER_LEFT, GL_ZERO_TO_ONE);
        glViewport(0, 0, tile_texels, tile_texels);
        glBindFramebuffer(GL_FRAMEBUFFER, target.name());
        glClearColor(0.0f, 0.0f, 0.0f, 0.0f);
        glClear(GL_COLOR_BUFFER_BIT);
        glDisable(GL_DEPTH_TEST);
        glDisable(GL_CULL_FACE);
        glEnable(GL_BLEND);
        glBlendFunc(GL_ONE, GL_ONE);
        glUseProgram(program_.name());
        glUniform1i(first_sample_uniform, 0);
        glUniform1f(brightness_uniform, 1.0f);
        const ViewUniforms uniforms{gl, view, crop, through};
        uniforms.bind();
        stage.bind();
        draw_instances(run_of(stage.parts().front()), static_cast<int>(through.coarse.size()));
        Image<float> picture{tile_texels, tile_texels};
        glPixelStorei(GL_PACK_ALIGNMENT, 1);
        glReadPixels(0, 0, tile_texels, tile_texels, GL_RED, GL_FLOAT, picture.pixels().data());
        require_no_gl_error();
        return picture;
    };

    // As the picture adds its passes: the spot lies on a black card at its own distance.
    const auto draw_spread = [&](const StageOnGpu& stage, const CropRect& crop) {
        const int passes = static_cast<int>(samples.coarse.size());
        const ViewUniforms uniforms{gl, view, crop, samples};
        const CellSums sums{gl, tile_texels, tile_texels, false};
        for (int pass = 0; pass < passes; ++pass) {
            sums.begin_pass();
            glDisable(GL_DEPTH_TEST);
            glUseProgram(program_.name());
            glUniform1i(first_sample_uniform, pass);
            uniforms.bind();
            stage.bind();
            glUniform1f(brightness_uniform, 0.0f);
            draw_instances(run_of(stage.parts().back()), 1);
            glUniform1f(brightness_uniform, 1.0f);
            draw_instances(run_of(stage.parts().front()), 1);
            sums.add(sum_programs_, pass);
        }
        return of_one_channel(
            sums.linear(sum_programs_, passes, cell_radius_of(passes), all_light(gl), 1.0f));
    };

    // The crop grows until all the light of the probe falls inside, before the lens takes its
    // share: as much as the probe seen through the middle of the lens has, with an empty border.
    for (double size_px = first_crop_px; size_px < largest_crop_px; size_px *= 1.5) {
        const CropRect crop = crop_round(seen.at_px, size_px);
        const StageOnGpu stage{gl, probe_stage(view, point_m, seen.axial_m, crop)};
        const Image<float> rays = draw(stage, crop, samples);
        if (measure::touches_border(rays, border_for_cells_texels))
            continue;
        const Image<float> picture = draw_spread(stage, crop);
        if (measure::touches_border(picture, empty_border_texels))
            continue;
        const auto spot = measure::measure_spot(picture);
        const auto all = measure::measure_spot(rays);
        const auto source = measure::measure_spot(draw(stage, crop, through_the_middle(samples)));
        if (spot && all && source && all->light > all_the_light * source->light)
            return camera_from_texels(Texels{measure::disc_diameter_px(*spot, *source)}, crop);
    }
    return std::nullopt;
}

}  // namespace backrow::render
