#include "render/passes/crop_triangles.h"

#include "render/driver/view_uniforms.h"

#include <glm/geometric.hpp>

#include <algorithm>
#include <cstdint>
#include <set>
#include <span>
#include <utility>

namespace backrow::render {
namespace {

// From here on, 0.8 texels in a millimetre and heads some 190 high, skin detail is looked up at
// every pixel. The flat picture, which is for checking, always does so.
constexpr double fine_texels_in_m = 800;

// How large the cells of a quick picture are: faces must be known again, shadows on the ground need
// not have their edges.
double coarse_texels(const DrawnPart& part) {
    return part.person >= 0 ? 1.0 : 4.0;
}

// Where a vertex can land: a box round its blur disc, camera pixels.
struct Landing {
    bool in_front = false;
    double left_px = 0, right_px = 0, top_px = 0, bottom_px = 0;
};

std::vector<Landing> landings(const StageOnGpu& stage, const DrawnPart& part,
                              const scene::CameraView& view) {
    const BlurReach reach{view};
    const scene::Projection project{view};
    std::vector<Landing> found(static_cast<std::size_t>(part.vertex_count));
    for (std::size_t i = 0; i < found.size(); ++i) {
        const glm::vec3& at = stage.positions()[static_cast<std::size_t>(part.first_vertex) + i];
        const scene::Seen seen = project.place(glm::dvec3{at});
        if (seen.axial_m <= nearest_drawn_m)
            continue;
        const double radius_px = reach.radius_px(seen.axial_m);
        found[i] = {true, seen.at_px.x - radius_px, seen.at_px.x + radius_px,
                    seen.at_px.y - radius_px, seen.at_px.y + radius_px};
    }
    return found;
}

bool may_touch(const CropRect& crop, const Landing& a, const Landing& b, const Landing& c) {
    if (!a.in_front || !b.in_front || !c.in_front)
        return a.in_front || b.in_front || c.in_front;
    return std::max({a.right_px, b.right_px, c.right_px}) >= crop.left_px &&
           std::min({a.left_px, b.left_px, c.left_px}) <= crop.left_px + crop.width_px &&
           std::max({a.bottom_px, b.bottom_px, c.bottom_px}) >= crop.top_px &&
           std::min({a.top_px, b.top_px, c.top_px}) <= crop.top_px + crop.height_px;
}

/// How large a metre of a part is drawn, across the axis.
double texels_in_m(const scene::CameraView& view, const CropRect& crop, const DrawnPart& part) {
    const double axial_m =
        std::max(nearest_drawn_m, glm::dot(part.centre_m - view.position_m, view.forward));
    const double px_in_m = view.image_distance_mm() * view.px_per_mm() / axial_m;
    return px_in_m * crop.width_texels / crop.width_px;
}

/// Whether all of it, drawn sharp, would lie in the crop.
bool lies_within(const CropRect& crop, const scene::CameraView& view, const DrawnPart& part) {
    const scene::Projection project{view};
    const double nearest_m = axial_m(view, part.centre_m) - part.radius_m;
    if (nearest_m <= nearest_drawn_m)
        return false;
    const glm::dvec2 at_px = project.place(part.centre_m).at_px;
    // The ball's own perspective moves its outline outwards, by no more than as if it stood as near
    // as its nearest point.
    const glm::dvec2 from_middle_px = at_px - glm::dvec2{view.width_px, view.height_px} / 2.0;
    const double nearer = axial_m(view, part.centre_m) / nearest_m;
    const glm::dvec2 room_px = glm::abs(from_middle_px) * (nearer - 1.0) +
                               part.radius_m / nearest_m * view.image_distance_mm() *
                                   glm::dvec2{view.width_px / view.sensor_width_mm,
                                              view.height_px / view.sensor_height_mm};
    return at_px.x - room_px.x >= crop.left_px && at_px.y - room_px.y >= crop.top_px &&
           at_px.x + room_px.x <= crop.left_px + crop.width_px &&
           at_px.y + room_px.y <= crop.top_px + crop.height_px;
}

void upload(const Gl& gl, std::vector<std::uint32_t> corners, CropTriangles& triangles) {
    triangles.corners = std::move(corners);
    triangles.indices =
        make_buffer(gl, triangles.corners.data(), triangles.corners.size() * sizeof(std::uint32_t),
                    "crop indices");
}

}  // namespace

CropTriangles crop_triangles(const Gl& gl, const StageOnGpu& stage, const Lighting& lighting,
                             const scene::CameraView& view, const CropRect& crop,
                             const PartChoice& choice, CoarseTriangles* coarse) {
    std::vector<std::uint32_t> chosen;
    chosen.reserve(stage.indices().size());
    const auto triangles_of = [&](const DrawnPart& part) {
        if (coarse != nullptr && part.role != stage::Role::highlight)
            return coarse->of(stage, static_cast<std::size_t>(&part - stage.parts().data()),
                              coarse_texels(part) / texels_in_m(view, crop, part));
        return std::span{stage.indices()}.subspan(static_cast<std::size_t>(part.first_index),
                                                  static_cast<std::size_t>(part.index_count));
    };
    const auto append = [&](const DrawnPart& part) {
        Run run{.first_index = static_cast<int>(chosen.size()),
                .index_count = 0,
                .texture = part.texture,
                .by_mean = lighting.look() == Look::lit &&
                           texels_in_m(view, crop, part) < fine_texels_in_m};
        const std::span<const std::uint32_t> corners = triangles_of(part);
        // Coarse ones are drawn sooner than looked at, and are of other vertices than the part's.
        if (coarse != nullptr || lies_within(crop, view, part)) {
            chosen.insert(chosen.end(), corners.begin(), corners.end());
            run.index_count = static_cast<int>(corners.size());
            return run;
        }
        const std::vector<Landing> land = landings(stage, part, view);
        const auto base = static_cast<std::uint32_t>(part.first_vertex);
        for (std::size_t i = 0; i + 2 < corners.size(); i += 3) {
            const auto corner = corners.subspan(i, 3);
            if (may_touch(crop, land[corner[0] - base], land[corner[1] - base],
                          land[corner[2] - base]))
                chosen.insert(chosen.end(), corner.begin(), corner.end());
        }
        run.index_count = static_cast<int>(chosen.size()) - run.first_index;
        return run;
    };

    CropTriangles triangles;
    const auto parts = parts_in_crop(stage, view, crop);
    const auto append_all = [&](const auto& belongs) {
        std::vector<Run> runs;
        for (const DrawnPart* part : parts)
            if (belongs(*part) && (!choice || choice(*part)))
                add_run(append(*part), runs);
        return runs;
    };
    const auto is_highlight = [](const DrawnPart& part) {
        return part.role == stage::Role::highlight;
    };
    // What looks alike lies together, to be drawn at one go: cloth first, it hides most.
    std::set<int> textures;
    for (const DrawnPart* part : parts)
        if (part->person >= 0)
            textures.insert(part->texture);
    for (const int texture : textures) {
        const std::vector<Run> alike = append_all(
            [&](const DrawnPart& part) { return part.person >= 0 && part.texture == texture; });
        triangles.people.insert(triangles.people.end(), alike.begin(), alike.end());
    }
    triangles.textured = append_all([&](const DrawnPart& part) {
        return part.person < 0 && !is_highlight(part) && part.texture >= 0;
    });
    triangles.surroundings = append_all([&](const DrawnPart& part) {
        return part.person < 0 && !is_highlight(part) && part.texture < 0;
    });
    const auto highlights = append_all(is_highlight);
    if (!highlights.empty())
        triangles.highlights = highlights.front();
    upload(gl, std::move(chosen), triangles);
    return triangles;
}

CropTriangles without_unseen(const Gl& gl, const CropTriangles& all,
                             const std::vector<std::uint8_t>& seen) {
    CropTriangles left;
    std::vector<std::uint32_t> corners;
    const auto copy = [&](const Run& run, const auto& is_kept) {
        Run copied = run;
        copied.first_index = static_cast<int>(corners.size());
        for (int i = 0; i < run.index_count; i += 3 * triangles_together) {
            const auto first = all.corners.begin() + run.first_index + i;
            const int count = std::min(3 * triangles_together, run.index_count - i);
            if (is_kept((run.first_index + i) / 3, count / 3))
                corners.insert(corners.end(), first, first + count);
        }
        copied.index_count = static_cast<int>(corners.size()) - copied.first_index;
        return copied;
    };
    const auto was_seen = [&](int first, int count) {
        return std::any_of(seen.begin() + first, seen.begin() + first + count,
                           [](std::uint8_t it) { return it != 0; });
    };
    for (const auto runs :
         {&CropTriangles::people, &CropTriangles::surroundings, &CropTriangles::textured})
        for (const Run& run : all.*runs)
            if (const Run copied = copy(run, was_seen); copied.index_count > 0)
                (left.*runs).push_back(copied);
    left.highlights = copy(all.highlights, [](int, int) { return true; });
    upload(gl, std::move(corners), left);
    return left;
}

}  // namespace backrow::render
