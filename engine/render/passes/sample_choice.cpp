#include "render/passes/sample_choice.h"

#include "render/driver/view_uniforms.h"

#include "optics/blur/blur_circle.h"
#include "shapes/connected_components.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <utility>

namespace backrow::render {
namespace {

// Edges of leaves and lamps ask for more passes, blur does not: its cells are spread. What is
// looked at only while it changes may be rough; the reference is for those who doubt the others.
SampleChoice passes_for(Quality quality) {
    switch (quality) {
    case Quality::draft:
        return {.passes = 8, .most_passes = 64, .enough_db = 36, .enough_in_worst_square_db = 18};
    case Quality::fine:
        return {
            .passes = 8, .most_passes = 256, .enough_db = 43.6, .enough_in_worst_square_db = 25.6};
    case Quality::reference:
        return {.passes = 1024, .most_passes = 1024};
    }
    return {};
}
// A fine picture with small lights in view is not looked at sooner; nor one where cells would
// soften the edges of blurred highlights, by which photographers know a lens, by more than so much.
constexpr int fewest_with_lights = 16;
constexpr double soft_edges_texels = 4.0;

// A source of diameter d spread over a disc of D shows a ripple of a tenth where there are ten
// times (D/d)² samples (measured on a Vogel spiral).
constexpr double fine_samples_per_cell = 12.0;
constexpr double most_fine_samples = 32768.0;

double spot_texels(const optics::Lens& lens, const scene::CameraView& view, const CropRect& crop,
                   const scene::Seen& seen) {
    const double spot_mm = optics::blur_diameter_mm(lens, seen.axial_m, seen.image_height);
    return texels_from_camera(CameraPixels{spot_mm * view.px_per_mm()}, crop).value;
}

bool inside(const CropRect& crop, const scene::Seen& seen) {
    return seen.axial_m > nearest_drawn_m && seen.at_px.x >= crop.left_px &&
           seen.at_px.x <= crop.left_px + crop.width_px && seen.at_px.y >= crop.top_px &&
           seen.at_px.y <= crop.top_px + crop.height_px;
}

}  // namespace

SampleChoice choose_samples(const stage::Stage& stage, const StageOnGpu& on_gpu,
                            const scene::CameraView& view, const CropRect& crop, Quality quality) {
    double largest_texels = 0.0;
    bool has_lights = false;
    double most_spread = 1.0;  // (D/d)² of the small source that is spread furthest
    std::size_t last = stage.parts.size();
    const optics::Lens lens = view.focused();
    const scene::Projection project{view};
    for (const DrawnPart* drawn : parts_in_crop(on_gpu, view, crop)) {
        if (std::exchange(last, drawn->stage_part) == drawn->stage_part)
            continue;
        const stage::Part& part = stage.parts[drawn->stage_part];
        for (const shapes::Vertex& vertex : part.mesh.vertices) {
            const glm::dvec3 at{part.world_from_part * glm::dvec4{vertex.position_m, 1.0}};
            const scene::Seen seen = project(at);
            if (inside(crop, seen))
                largest_texels = std::max(largest_texels, spot_texels(lens, view, crop, seen));
        }
        if (part.role != stage::Role::highlight)
            continue;
        has_lights = true;
        for (const shapes::Island& island : shapes::connected_components(part.mesh)) {
            const glm::dvec3 at{part.world_from_part * glm::dvec4{island.centre_m, 1.0}};
            const scene::Seen seen = project(at);
            if (!inside(crop, seen))
                continue;
            const double size_px =
                island.diameter_m / seen.axial_m * view.image_distance_mm() * view.px_per_mm();
            const double size_texels =
                std::max(1.0, texels_from_camera(CameraPixels{size_px}, crop).value);
            const double spread = spot_texels(lens, view, crop, seen) / size_texels;
            most_spread = std::max(most_spread, spread * spread);
        }
    }

    SampleChoice choice = passes_for(quality);
    const bool has_soft_edges = cells_reach(choice.passes) * largest_texels / 2 > soft_edges_texels;
    if (quality == Quality::fine && (has_lights || has_soft_edges))
        choice.passes = std::max(choice.passes, fewest_with_lights);
    choice.fine_samples =
        static_cast<int>(std::min(fine_samples_per_cell * most_spread, most_fine_samples));
    choice.spread_texels = cells_reach(choice.passes) * largest_texels / 2;
    return with_passes(choice, choice.passes);
}

SampleChoice with_passes(const SampleChoice& choice, int passes) {
    // Even a lamp that is hardly blurred has an edge of forty times white: it is worth a few
    // copies.
    constexpr int copies_a_pass = 16;
    SampleChoice with = choice;
    with.spread_texels *= cells_reach(passes) / cells_reach(choice.passes);
    with.passes = passes;
    with.most_passes = std::max(choice.most_passes, passes);
    with.fine_samples = std::max(choice.fine_samples, copies_a_pass * passes);
    return with;
}

LensSamples lens_samples_for(const stage::Stage& stage, const StageOnGpu& on_gpu,
                             const scene::CameraView& view, const CropRect& crop, Quality quality,
                             int passes) {
    SampleChoice choice = choose_samples(stage, on_gpu, view, crop, quality);
    if (passes > 0) {
        choice = with_passes(choice, passes);
        choice.most_passes = passes;
    }
    const optics::Opening opening = optics::opening_of(view.lens);
    LensSamples samples = make_lens_samples(choice.passes, choice.fine_samples, opening);
    samples.spread_texels = choice.spread_texels;
    if (choice.most_passes == choice.passes)
        return samples;
    double_up_to(samples, choice.most_passes, opening);
    for (int look = choice.passes; look <= choice.most_passes; look *= 2)
        samples.looks.push_back(look);
    samples.enough_db = choice.enough_db;
    samples.enough_in_worst_square_db = choice.enough_in_worst_square_db;
    return samples;
}

}  // namespace backrow::render
