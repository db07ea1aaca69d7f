#include "setting/backdrops/backdrops.h"
#include "setting/backdrops/leaves.h"

#include "setting/chance.h"
#include "setting/piece_lists.h"

#include "shapes/assemble.h"
#include "shapes/primitives.h"

#include <glm/common.hpp>

#include <algorithm>
#include <array>
#include <cmath>

namespace backrow::setting {
namespace {

constexpr float least_span_m = 8.4F;  // From post to post.
constexpr float bulb_pitch_m = 0.5F;
constexpr int most_bulbs = 145;
constexpr float fence_behind_m = 3.2F;
constexpr float fence_height_m = 1.9F;
constexpr int shrub_leaves = 5600;

constexpr glm::vec3 black{0.012F, 0.012F, 0.012F};
constexpr glm::vec3 timber{0.050F, 0.036F, 0.025F};
constexpr glm::vec3 warm{1.0F, 0.60F, 0.24F};
// A lamp of a few watts beside a white shirt in the evening: some tens of times as bright.
constexpr std::array<float, 3> strengths{18, 28, 42};

struct Strand {
    float behind_m, hook_m, sag_m;
    int swags;  // From post to post; more than one where it hangs on the fence between them.
};
// The one on the fence comes first, for it is behind the faces in every framing.
constexpr std::array<Strand, 5> strands{{{fence_behind_m - 0.06F, 1.80F, 0.20F, 4},
                                         {0.0F, 3.05F, 0.70F, 1},
                                         {0.7F, 3.30F, 0.95F, 1},
                                         {1.7F, 2.80F, 0.48F, 1},
                                         {2.4F, 4.2F, 1.30F, 1}}};

// A hanging chain between two hooks at the same height, u −1 … 1: 0 at the hooks, 1 at the bottom.
float sag_share(float u) noexcept {
    constexpr float slack = 1.1F;
    return 1 - (std::cosh(slack * u) - 1) / (std::cosh(slack) - 1);
}

struct Lights {
    shapes::Mesh rigging;
    std::array<shapes::Mesh, strengths.size()> bulbs;
};

void append_post(shapes::Mesh& mesh, float x, float z, float height_m) {
    const std::array<shapes::Ring, 2> post{{{{x, 0, z}, 0.030F}, {{x, height_m, z}, 0.024F}}};
    shapes::append(mesh, shapes::tube(post, 6, timber));
}

// How the strands are hung to fill a view. Far wider views get longer spans and fewer lamps.
struct Hanging {
    Window window;
    float span_m, pitch_m;
    std::size_t strands;
};

Hanging hang(const Reach& reach) {
    const Window window = window_behind(reach, fence_behind_m);
    const float width_m = window.right_m - window.left_m;
    const auto bulbs_on = [&](std::size_t count) {
        return static_cast<float>(count) * width_m / bulb_pitch_m;
    };
    std::size_t count = strands.size();
    while (count > 3 && bulbs_on(count) > most_bulbs)
        --count;
    return {window, std::max(least_span_m, width_m / 9),
            bulb_pitch_m * std::max(1.0F, bulbs_on(count) / most_bulbs), count};
}

// Every other strand is shifted by half a span, so that posts stand in few places.
float shift_m(const Hanging& hanging, int number) {
    return 1.1F + (number % 2 == 0 ? 0.0F : hanging.span_m / 2);
}

void append_span(Lights& lights, const Strand& strand, int number, int span, const Hanging& hanging,
                 float back_m) {
    Chance chance{91, number, span};
    const float span_m = hanging.span_m / static_cast<float>(strand.swags);
    const int bulbs = std::max(2, static_cast<int>(span_m / hanging.pitch_m));
    const float z = -back_m - strand.behind_m;
    const float sag_m = strand.sag_m * chance.between(0.85F, 1.15F);
    const auto cable_at = [&](float share) {
        return glm::vec3{(static_cast<float>(span) + share) * span_m + shift_m(hanging, number),
                         strand.hook_m - sag_m * sag_share(2 * share - 1), z};
    };
    std::vector<shapes::Ring> cable;
    for (int i = 0; i <= bulbs; ++i) {
        cable.push_back({cable_at(static_cast<float>(i) / static_cast<float>(bulbs)), 0.004F});
    }
    shapes::append(lights.rigging, shapes::tube(cable, 3, black));
    if (strand.swags == 1)
        append_post(lights.rigging, cable_at(0).x, z, strand.hook_m + 0.05F);

    for (int i = 0; i < bulbs; ++i) {
        const glm::vec3 hook_m =
            cable_at((static_cast<float>(i) + 0.5F) / static_cast<float>(bulbs));
        const float radius_m = chance.between(0.016F, 0.024F);
        const glm::vec3 swing{0.012F * chance.bell(), 0, 0.012F * chance.bell()};
        const auto strength = static_cast<std::size_t>(3 * chance.unit());
        if (hook_m.x < hanging.window.left_m || hook_m.x > hanging.window.right_m)
            continue;
        shapes::append(lights.rigging, shapes::octahedron(hook_m - glm::vec3{0, 0.022F, 0},
                                                          {0.014F, 0.024F, 0.014F}, black));
        shapes::append(lights.bulbs[strength],
                       shapes::icosahedron(hook_m + swing - glm::vec3{0, 0.046F + radius_m, 0},
                                           radius_m, glm::vec3{1}));
    }
}

// A plain dark fence, so that the lamps stand before something darker than the sky.
void append_fence(shapes::Mesh& mesh, const Window& window, float back_m) {
    const float left = window.left_m;
    const float right = window.right_m;
    const float pitch_m = std::max(0.14F, (right - left) / 190);
    const int first = static_cast<int>(std::floor(left / pitch_m));
    const int last = static_cast<int>(std::ceil(right / pitch_m));
    for (int i = first; i < last; ++i) {
        Chance chance{93, i};
        const float x = static_cast<float>(i) * pitch_m;
        const float z = -back_m - fence_behind_m - (i % 2 == 0 ? 0.0F : 0.016F);
        constexpr float lap_m = 0.02F;  // Every other plank lies behind its neighbours.
        const glm::vec3 wood = timber * chance.between(0.6F, 1.5F);
        const float top_m = fence_height_m + 0.01F * chance.bell();
        const auto corner = [&](float across_m, float y) {
            return shapes::Vertex{.position_m = {across_m, y, z},
                                  .normal = {0, 0, 1},
                                  .colour = wood * (0.7F + 0.3F * y / fence_height_m),
                                  .ambient_visibility = 0.5F + 0.4F * y / fence_height_m};
        };
        shapes::append_quad(mesh, {corner(x - lap_m, 0), corner(x + pitch_m + lap_m, 0),
                                   corner(x + pitch_m + lap_m, top_m), corner(x - lap_m, top_m)});
    }
}

// Tall shrubs behind the fence, dark as foliage is in the evening.
void append_shrubs(shapes::Mesh& mesh, const Window& window, float back_m) {
    const float left = window.left_m;
    const float right = window.right_m;
    const float pitch_m = std::max(0.9F, (right - left) / 18);
    const int first = static_cast<int>(std::floor(left / pitch_m));
    const int last = static_cast<int>(std::ceil(right / pitch_m));
    const int leaves = shrub_leaves / (last - first + 1);
    for (int i = first; i <= last; ++i) {
        Chance chance{95, i};
        const float radius_m = std::min(pitch_m, 1.8F) * chance.between(0.9F, 1.3F);
        const glm::vec3 centre_m{
            (static_cast<float>(i) + 0.25F * chance.bell()) * pitch_m,
            1.7F + 1.4F * noise(glm::vec2{static_cast<float>(i) * pitch_m / 3.1F, 0}, 96),
            -back_m - fence_behind_m - 1.2F * radius_m};
        append_clump(mesh,
                     {.centre_m = centre_m,
                      .radius_m = radius_m,
                      .crown_m = centre_m - glm::vec3{0, 0.4F * radius_m, 0},
                      .crown_radius_m = 1.4F * radius_m,
                      .lit = {0.034F, 0.052F, 0.016F},
                      .deep = {0.009F, 0.015F, 0.006F},
                      .key = 1900001 + i},
                     leaves, 0.15F * radius_m);
    }
}

}  // namespace

std::vector<Piece> build_lights(double back_m, const Reach& reach) {
    const auto back = static_cast<float>(back_m);
    const Hanging hanging = hang(reach);
    Lights lights;
    for (int number = 0; number < static_cast<int>(hanging.strands); ++number) {
        const float from_m = hanging.window.left_m - shift_m(hanging, number);
        const float to_m = hanging.window.right_m - shift_m(hanging, number);
        const Strand& strand = strands[static_cast<std::size_t>(number)];
        const float span_m = hanging.span_m / static_cast<float>(strand.swags);
        const int first = static_cast<int>(std::floor(from_m / span_m));
        const int last = static_cast<int>(std::ceil(to_m / span_m));
        for (int span = first; span < last; ++span)
            append_span(lights, strand, number, span, hanging, back);
    }
    append_fence(lights.rigging, hanging.window, back);
    Piece shrubs;
    append_shrubs(shrubs.mesh, hanging.window, back);

    std::vector<Piece> pieces = one(std::move(shrubs));
    pieces.push_back({.mesh = std::move(lights.rigging)});
    for (std::size_t i = 0; i < strengths.size(); ++i) {
        if (lights.bulbs[i].indices.empty())
            continue;
        pieces.push_back(
            {.mesh = std::move(lights.bulbs[i]),
             .material = {.base_colour = glm::vec3{0}, .emission = strengths[i] * warm},
             .is_highlight = true});
    }
    return pieces;
}

}  // namespace backrow::setting
