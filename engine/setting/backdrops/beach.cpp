#include "setting/backdrops/backdrops.h"

#include "setting/backdrops/lattice.h"
#include "setting/chance.h"
#include "setting/ground/grounds.h"
#include "setting/piece_lists.h"
#include "setting/place/glints.h"

#include "shapes/assemble.h"
#include "shapes/primitives.h"

#include <glm/common.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>

namespace backrow::setting {
namespace {

// From the backdrop's line backwards: dry sand, wet sand, the edge of the water, breakers, the sea.
constexpr float wet_behind_m = 2.2F;
constexpr float film_behind_m = wet_behind_m + 0.6F;  // From here on water stands on it.
constexpr float edge_behind_m = 4.6F;  // Where the water ends on the sand, give or take a wave.
constexpr float headland_behind_m = 400;
constexpr float farthest_headland_m = 560;  // Behind the mark; beyond it the sky ends.
constexpr float sea_up_m = 0.03F;
constexpr float sand_up_m = 0.012F;

constexpr glm::vec3 dry{0.345F, 0.275F, 0.190F};
constexpr glm::vec3 wet{0.150F, 0.125F, 0.098F};
constexpr glm::vec3 mirrored{0.260F, 0.275F, 0.290F};  // The sky in the film of water on the sand.
constexpr glm::vec3 foam{0.760F, 0.780F, 0.780F};
constexpr glm::vec3 shallow{0.165F, 0.215F, 0.205F};
constexpr glm::vec3 deep{0.040F, 0.085F, 0.105F};
constexpr glm::vec3 offing{0.190F, 0.255F, 0.310F};  // Far out, seen flat, the sea is mostly sky.
constexpr glm::vec3 driftwood{0.085F, 0.070F, 0.055F};

// The edge of the last wave runs up the sand in tongues.
float edge_m(float x) {
    return edge_behind_m + 1.1F * (noise(glm::vec2{x / 3.1F, 0.5F}, 221) - 0.5F) +
           0.5F * (noise(glm::vec2{x / 0.9F, 0.5F}, 222) - 0.5F);
}

shapes::Vertex sand_at(float x, float behind_m, float back_m) {
    const float grain = rough_noise(glm::vec2{x / 1.4F, behind_m / 0.5F}, 223);
    const float wetness =
        smooth_step(wet_behind_m - 0.8F, wet_behind_m + 0.5F, behind_m + 0.9F * (grain - 0.5F));
    const float film =
        smooth_step(film_behind_m, edge_behind_m, behind_m) * (0.35F + 0.65F * grain);
    const glm::vec3 colour =
        glm::mix(dry * (0.88F + 0.24F * grain), glm::mix(wet, mirrored, film), wetness);
    return {
        .position_m = {x, sand_up_m, -back_m - behind_m}, .normal = {0, 1, 0}, .colour = colour};
}

shapes::Vertex sea_at(float x, float behind_m, float back_m, float lens_to_line_m) {
    const float from_lens_m = lens_to_line_m + behind_m;
    const float wavelet = noise(glm::vec2{x / 1.6F, behind_m / 0.45F}, 225);
    const float swell = noise(glm::vec2{x / 9.0F, behind_m / 2.2F}, 226);
    const float gust = rough_noise(glm::vec2{x / 40.0F, behind_m / 60.0F}, 227);
    const float fine = smooth_step(34, 12, from_lens_m);
    const float middling = smooth_step(110, 30, from_lens_m);
    const float ripple =
        0.5F * fine * (wavelet - 0.5F) + 0.6F * middling * (swell - 0.5F) + 0.3F * (gust - 0.5F);
    const glm::vec3 water = glm::mix(shallow, deep, smooth_step(5, 40, behind_m));
    const float sky_share =
        std::clamp(0.18F + 0.72F * smooth_step(10, 160, from_lens_m) + 0.7F * ripple, 0.0F, 1.0F);
    return {.position_m = {x, sea_up_m, -back_m - behind_m},
            .normal = glm::normalize(glm::vec3{0.1F * fine * (swell - 0.5F), 1, 0.2F * ripple}),
            .colour = glm::mix(water, offing, sky_share)};
}

// Ragged lace: cells of a strip are white where noise says so. from_m and to_m give its edges.
template <class Edge>
void append_foam(shapes::Mesh& mesh, const Window& window, float back_m, float up_m,
                 const Edge& edge, float wide_m, float thickness, int layer) {
    constexpr int across = 6;  // Cells from its near edge to its far one.
    const float pitch_m = std::max(0.16F, (window.right_m - window.left_m) / 150);
    const int first = static_cast<int>(std::floor(window.left_m / pitch_m));
    const int last = static_cast<int>(std::ceil(window.right_m / pitch_m));
    const auto at = [&](int column, float share) {
        const float x = static_cast<float>(column) * pitch_m;
        return glm::vec3{x, up_m, -back_m - edge(x) - share * wide_m};
    };
    for (int column = first; column < last; ++column) {
        for (int cell = 0; cell < across; ++cell) {
            const float near_by = static_cast<float>(cell) / across;
            const float far_off = static_cast<float>(cell + 1) / across;
            const glm::vec3 middle = (at(column, near_by) + at(column + 1, far_off)) / 2.0F;
            const float lace = noise(glm::vec2{middle.x / 0.42F, middle.z / 0.22F}, layer);
            if (lace > thickness * (1.15F - 0.9F * near_by))
                continue;
            const auto corner = [&](int c, float share) {
                return shapes::Vertex{.position_m = at(c, share),
                                      .normal = glm::normalize(glm::vec3{0, 1, 0.25F}),
                                      .colour = foam * (0.86F + 0.28F * lace)};
            };
            shapes::append_quad(mesh, {corner(column, near_by), corner(column + 1, near_by),
                                       corner(column + 1, far_off), corner(column, far_off)});
        }
    }
}

// A wave that is about to break: a green face with a white crest, here and there.
void append_breaker(shapes::Mesh& mesh, const Window& window, float back_m, float behind_m,
                    float tall_m, int layer) {
    const float pitch_m = std::max(0.3F, (window.right_m - window.left_m) / 90);
    const int first = static_cast<int>(std::floor(window.left_m / pitch_m));
    const int last = static_cast<int>(std::ceil(window.right_m / pitch_m));
    struct Profile {
        glm::vec3 foot, crest, tail;
        float white;
    };
    const auto at = [&](int column) {
        const float x = static_cast<float>(column) * pitch_m;
        const float strength = smooth_step(0.25F, 0.75F, noise(glm::vec2{x / 6.5F, 0.5F}, layer));
        const float z = -back_m - behind_m - 1.6F * noise(glm::vec2{x / 8.0F, 0.5F}, layer + 1);
        const float rise =
            sea_up_m + 0.03F +
            tall_m * strength * (0.8F + 0.4F * noise(glm::vec2{x / 0.7F, 0.5F}, layer + 2));
        return Profile{{x, sea_up_m + 0.004F, z + 0.25F},
                       {x, rise, z},
                       {x, sea_up_m + 0.004F, z - 1.4F},
                       strength};
    };
    const auto corner = [](const glm::vec3& place, const glm::vec3& normal,
                           const glm::vec3& colour) {
        return shapes::Vertex{
            .position_m = place, .normal = glm::normalize(normal), .colour = colour};
    };
    const glm::vec3 face{0.075F, 0.135F, 0.130F};
    for (int column = first; column < last; ++column) {
        const Profile a = at(column);
        const Profile b = at(column + 1);
        const auto lip = [&](const Profile& p) { return glm::mix(p.foot, p.crest, 0.55F); };
        const auto white = [&](const Profile& p) {
            return glm::mix(face, foam, smooth_step(0.3F, 0.6F, p.white));
        };
        const glm::vec3 out{0, 0.5F, 1};
        shapes::append_quad(mesh, {corner(a.foot, out, face), corner(b.foot, out, face),
                                   corner(lip(b), out, face), corner(lip(a), out, face)});
        shapes::append_quad(mesh, {corner(lip(a), out, white(a)), corner(lip(b), out, white(b)),
                                   corner(b.crest, out, white(b)), corner(a.crest, out, white(a))});
        const glm::vec3 over{0, 1, -0.2F};
        shapes::append_quad(mesh, {corner(a.crest, over, white(a)), corner(b.crest, over, white(b)),
                                   corner(b.tail, over, deep), corner(a.tail, over, deep)});
    }
}

// Two rows of posts out into the sea, a groyne each: the same thing at growing distances.
void append_groynes(shapes::Mesh& mesh, const Window& window, float back_m) {
    const float middle = (window.left_m + window.right_m) / 2;
    const float half = (window.right_m - window.left_m) / 2;
    for (const float share : {-0.74F, 0.62F}) {
        const float x = middle + share * half;
        float behind_m = 1.0F;
        for (int i = 0; behind_m < 62; ++i, behind_m += 1.15F) {
            Chance chance{231, share < 0 ? 0 : 1, i};
            const glm::vec3 foot{x + 0.06F * behind_m * share + 0.05F * chance.bell(), -0.1F,
                                 -back_m - behind_m + 0.1F * chance.bell()};
            const float top_m = 1.15F + 0.16F * chance.bell() - 0.004F * behind_m;
            const glm::vec3 lean{0.03F * chance.bell(), 0, 0.03F * chance.bell()};
            const glm::vec3 wood = driftwood * chance.between(0.75F, 1.35F);
            const std::array post{shapes::Ring{foot, 0.105F},
                                  shapes::Ring{foot + glm::vec3{0, top_m, 0} + lean, 0.09F}};
            shapes::Mesh tube = shapes::tube(post, 6, wood);
            for (shapes::Vertex& vertex : tube.vertices) {
                // Weed and water line below, bleached above.
                if (vertex.position_m.y < 0.2F)
                    vertex.colour = 0.5F * wood + glm::vec3{0.0F, 0.010F, 0.003F};
            }
            shapes::append(mesh, tube);
        }
    }
}

// A low headland in the haze, left of the middle, where the sea meets the sky.
void append_headland(shapes::Mesh& mesh, const Window& window, float back_m) {
    const float z = -back_m - headland_behind_m;
    const float half = (window.right_m - window.left_m) / 2;
    // Within the dome of the sky.
    const float farthest_m = std::sqrt(dome_radius_m * dome_radius_m - z * z) - 10;
    const float left = std::max(window.left_m - 0.2F * half, -farthest_m);
    const float right = std::min(window.left_m + 0.75F * half, farthest_m);
    constexpr int steps = 60;
    const auto at = [&](int step, bool is_crest) {
        const float share = static_cast<float>(step) / steps;
        const float x = left + (right - left) * share;
        const float rise = (0.35F + 0.65F * rough_noise(glm::vec2{x / 55.0F, 0.5F}, 233)) *
                           smooth_step(1.0F, 0.55F, share) * smooth_step(0.0F, 0.1F, share);
        return shapes::Vertex{.position_m = {x, is_crest ? 0.3F + 21.0F * rise : 0, z},
                              .normal = glm::normalize(glm::vec3{0, 0.8F, 0.6F}),
                              .colour = is_crest ? glm::vec3{0.25F, 0.31F, 0.355F}
                                                 : glm::vec3{0.30F, 0.36F, 0.40F}};
    };
    for (int step = 0; step < steps; ++step)
        shapes::append_quad(
            mesh, {at(step, false), at(step + 1, false), at(step + 1, true), at(step, true)});
}

std::vector<float> lines_behind(float from_m, float to_m, float first_step_m, float growth) {
    std::vector<float> lines{from_m};
    for (float step = first_step_m; lines.back() < to_m; step *= growth)
        lines.push_back(std::min(lines.back() + step, to_m));
    return lines;
}

template <class VertexAt>
void append_strip(shapes::Mesh& mesh, const std::vector<float>& xs, std::vector<float> behind_m,
                  float back_m, const VertexAt& vertex_at) {
    // The lattice wants ascending z, from far to near.
    std::ranges::reverse(behind_m);
    for (float& line : behind_m)
        line = -back_m - line;
    append_sheet(mesh, xs, behind_m, [&](float x, float z) { return vertex_at(x, -z - back_m); });
}

}  // namespace

std::vector<Piece> build_beach(double back_m, const Reach& reach) {
    const auto back = static_cast<float>(back_m);
    const auto lens_m = static_cast<float>(reach.lens_to_backdrop_m);
    const Window shore = window_behind(reach, edge_behind_m + 6);
    const float middle = (shore.left_m + shore.right_m) / 2;
    const float half = (shore.right_m - shore.left_m) / 2;
    std::vector<float> xs = graded_lines(-half, half, half / 14, 1.7F, ground_half_side_m);
    for (float& x : xs)
        x += middle;

    // Only the wet part mirrors the sun.
    const auto sand_of = [&](float from_m, float to_m, float gloss) {
        Piece sand{.material = {.gloss = gloss}};
        append_strip(sand.mesh, xs, lines_behind(from_m, to_m, 0.2F, 1.0F), back,
                     [&](float x, float behind) { return sand_at(x, behind, back); });
        return sand;
    };
    Piece dry_sand = sand_of(0, film_behind_m, 0);
    Piece wet_sand = sand_of(film_behind_m, edge_behind_m + 1.2F, 0.1F);
    Piece sea{.material = {.gloss = 0.35F}};
    append_strip(sea.mesh, xs, lines_behind(edge_behind_m + 0.5F, 590, 0.22F, 1.065F), back,
                 [&](float x, float behind) { return sea_at(x, behind, back, lens_m); });

    Piece surf;
    append_foam(surf.mesh, shore, back, sea_up_m + 0.006F, edge_m, 0.75F, 0.62F, 241);
    append_foam(
        surf.mesh, shore, back, sea_up_m + 0.006F,
        [](float x) { return edge_m(x * 0.93F + 4) + 1.7F; }, 0.8F, 0.46F, 242);
    append_breaker(surf.mesh, window_behind(reach, 10), back, 8.6F, 0.34F, 245);
    append_breaker(surf.mesh, window_behind(reach, 22), back, 19.0F, 0.42F, 251);
    append_groynes(surf.mesh, shore, back);
    if (back + headland_behind_m < farthest_headland_m)
        append_headland(surf.mesh, window_behind(reach, headland_behind_m), back);

    std::vector<Piece> pieces = one(std::move(dry_sand));
    pieces.push_back(std::move(wet_sand));
    pieces.push_back(std::move(sea));
    pieces.push_back(std::move(surf));
    constexpr float glints_behind_m = edge_behind_m + 2;
    const Window sparkling = window_behind(reach, glints_behind_m);
    Reach at_sea = reach;
    at_sea.left_m = static_cast<double>(sparkling.left_m);
    at_sea.right_m = static_cast<double>(sparkling.right_m);
    at_sea.lens_to_backdrop_m += static_cast<double>(glints_behind_m);
    std::ranges::move(build_glints(back_m + static_cast<double>(glints_behind_m), sea_up_m, at_sea),
                      std::back_inserter(pieces));
    return pieces;
}

}  // namespace backrow::setting
