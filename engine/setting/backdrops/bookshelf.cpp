#include "setting/backdrops/backdrops.h"

#include "setting/backdrops/panels.h"
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

constexpr float depth_m = 0.30F;
constexpr float board_m = 0.024F;
constexpr float plinth_m = 0.09F;
constexpr float bay_m = 0.92F;     // From upright to upright.
constexpr float shelf_m = 0.335F;  // From board to board.
constexpr int most_books = 3300;
constexpr int most_shelves = 12;

constexpr glm::vec3 oak{0.150F, 0.092F, 0.050F};
constexpr glm::vec3 wash{0.360F, 0.345F, 0.300F};
// Cloth and paper as they stand in any study: browns, greens, reds, blues, and pale jackets.
constexpr std::array<glm::vec3, 12> cloths{{{0.210F, 0.060F, 0.042F},
                                            {0.095F, 0.034F, 0.030F},
                                            {0.052F, 0.092F, 0.058F},
                                            {0.030F, 0.055F, 0.040F},
                                            {0.045F, 0.075F, 0.150F},
                                            {0.026F, 0.036F, 0.078F},
                                            {0.260F, 0.165F, 0.062F},
                                            {0.165F, 0.105F, 0.058F},
                                            {0.430F, 0.385F, 0.290F},
                                            {0.520F, 0.490F, 0.420F},
                                            {0.085F, 0.110F, 0.115F},
                                            {0.030F, 0.027F, 0.026F}}};

// One compartment between two uprights and two boards; z counts forward from the back.
struct Bay {
    float left_m, right_m, floor_m, ceiling_m, back_z;
    int column, shelf;
};

Paint inside(const glm::vec3& colour, float up_share) {
    return {colour, 0.62F - 0.34F * up_share};
}

// A spine is rounded, so its edges face aside.
void append_spine(shapes::Mesh& mesh, const glm::vec3& low_m, const glm::vec3& high_m,
                  const glm::vec3& cloth, float height_share) {
    const auto corner = [&](float x, float y, float aside) {
        const float up = y > low_m.y ? height_share : 0.0F;
        return shapes::Vertex{.position_m = {x, y, high_m.z},
                              .normal = glm::normalize(glm::vec3{aside, 0, 1}),
                              .colour = cloth,
                              .ambient_visibility = inside(cloth, up).ambient_visibility + 0.2F};
    };
    const float bulge = 0.55F;
    shapes::append_quad(mesh,
                        {corner(low_m.x, low_m.y, -bulge), corner(high_m.x, low_m.y, bulge),
                         corner(high_m.x, high_m.y, bulge), corner(low_m.x, high_m.y, -bulge)});
}

struct Book {
    float width_m, height_m, forward_m;  // forward: how far its spine stands from the back.
    glm::vec3 cloth;
};

Book next_book(Chance& chance, float room_m, float scale, const glm::vec3& of_this_run) {
    const bool is_large = chance.unit() < 0.16F;
    const float width_m =
        scale * (is_large ? chance.between(0.030F, 0.052F) : chance.between(0.016F, 0.036F));
    const float height_m =
        room_m * (is_large ? chance.between(0.80F, 0.94F) : chance.between(0.56F, 0.82F));
    // Series stand together; the rest is mixed.
    const auto pick = static_cast<std::size_t>(chance.unit() * static_cast<float>(cloths.size()));
    const glm::vec3 cloth = chance.unit() < 0.35F ? of_this_run : cloths[pick];
    return {width_m, height_m, depth_m - 0.035F - 0.03F * chance.unit(),
            glm::clamp(cloth * chance.between(0.75F, 1.3F), 0.0F, 1.0F)};
}

// The spine, what shows of its sides over a lower neighbour, the paper on top, and a title.
void append_book(shapes::Mesh& mesh, const Bay& bay, float x, const Book& book, Chance& chance) {
    const float room_m = bay.ceiling_m - bay.floor_m;
    const glm::vec3 low_m{x, bay.floor_m, bay.back_z};
    const glm::vec3 high_m{x + book.width_m * 0.97F, bay.floor_m + book.height_m,
                           bay.back_z + book.forward_m};
    const float share = book.height_m / room_m;
    append_spine(mesh, low_m, high_m, book.cloth, share);
    const Paint low = inside(0.75F * book.cloth, 0);
    const Paint high = inside(0.75F * book.cloth, share);
    const glm::vec3 up{0, book.height_m, 0};
    const glm::vec3 forward{0, 0, book.forward_m};
    append_panel(mesh, {low_m, forward, up}, low, high);
    append_panel(mesh, {{high_m.x, low_m.y, high_m.z}, -forward, up}, low, high);
    append_panel(mesh, {{low_m.x, high_m.y, high_m.z}, {high_m.x - low_m.x, 0, 0}, -forward},
                 {{0.42F, 0.38F, 0.30F}, 0.35F});
    if (chance.unit() < 0.62F) {
        const bool is_dark = book.cloth.g < 0.2F;
        const float from = chance.between(0.60F, 0.74F) * book.height_m;
        const float tall = chance.between(0.05F, 0.16F) * book.height_m;
        append_panel(
            mesh,
            {{low_m.x + 0.12F * book.width_m, low_m.y + from, high_m.z + 0.0012F},
             {0.73F * book.width_m, 0, 0},
             {0, tall, 0}},
            {is_dark ? glm::vec3{0.42F, 0.33F, 0.16F} : glm::vec3{0.10F, 0.07F, 0.06F}, 0.55F});
    }
}

// Books lying flat, for the eye to rest on.
float append_stack(shapes::Mesh& mesh, const Bay& bay, float x, Chance& chance) {
    const float width_m = std::min(0.20F, bay.right_m - x - 0.01F);
    float y = bay.floor_m;
    for (int i = 0; i < 4; ++i) {
        const float thick_m = chance.between(0.018F, 0.038F);
        const float narrower_m = 0.012F * static_cast<float>(i);
        const auto pick =
            static_cast<std::size_t>(chance.unit() * static_cast<float>(cloths.size()));
        append_box(mesh, {x + narrower_m, y, bay.back_z + 0.02F},
                   {x + width_m - narrower_m * chance.unit(), y + thick_m,
                    bay.back_z + depth_m - 0.04F - narrower_m},
                   {cloths[pick], 0.6F});
        y += thick_m + 0.001F;
    }
    return width_m;
}

// A turned vase with a narrow neck.
float append_vase(shapes::Mesh& mesh, const Bay& bay, float x, Chance& chance) {
    const float room_m = bay.ceiling_m - bay.floor_m;
    const float height_m = room_m * chance.between(0.5F, 0.78F);
    const float radius_m = std::min(0.055F, 0.4F * (bay.right_m - x));
    const glm::vec3 glaze =
        chance.unit() < 0.5F ? glm::vec3{0.44F, 0.42F, 0.38F} : glm::vec3{0.09F, 0.17F, 0.20F};
    const auto ring = [&](float share, float wide) {
        return shapes::Ring{{x + radius_m, bay.floor_m + share * height_m, bay.back_z + 0.17F},
                            wide * radius_m};
    };
    const std::array rings{ring(0.002F, 0.55F), ring(0.12F, 0.8F),  ring(0.42F, 1.0F),
                           ring(0.70F, 0.62F),  ring(0.86F, 0.36F), ring(1.0F, 0.50F)};
    shapes::append(mesh, shapes::tube(rings, 9, glaze));
    return 2 * radius_m;
}

void fill(shapes::Mesh& mesh, const Bay& bay, float scale) {
    Chance chance{181, bay.column, bay.shelf};
    const float room_m = bay.ceiling_m - bay.floor_m;
    glm::vec3 run = cloths[static_cast<std::size_t>(chance.unit() * cloths.size())];
    float x = bay.left_m + 0.004F;
    // Where something other than books stands, and how much air is left at the end.
    const float pause = bay.left_m + (bay.right_m - bay.left_m) * chance.between(0.1F, 2.6F);
    const float end = bay.right_m - (chance.unit() < 0.3F ? chance.between(0.03F, 0.16F) : 0.0F);
    bool has_paused = false;
    while (x < end) {
        if (!has_paused && x > pause && end - x > 0.24F) {
            has_paused = true;
            x += 0.03F;
            x += chance.unit() < 0.5F ? append_stack(mesh, bay, x, chance)
                                      : append_vase(mesh, bay, x, chance);
            x += 0.03F;
            continue;
        }
        if (chance.unit() < 0.12F)
            run = cloths[static_cast<std::size_t>(chance.unit() * cloths.size())];
        const Book book = next_book(chance, room_m, scale, run);
        if (x + book.width_m > end)
            break;
        append_book(mesh, bay, x, book, chance);
        x += book.width_m;
    }
}

}  // namespace

std::vector<Piece> build_bookshelf(double back_m, const Reach& reach) {
    const float front_z = -static_cast<float>(back_m);
    const float back_z = front_z - depth_m;
    const int shelves =
        std::clamp(static_cast<int>(std::ceil(
                       (std::min(static_cast<float>(reach.top_m), 3.4F) - plinth_m) / shelf_m)),
                   6, most_shelves);
    const float height_m = plinth_m + static_cast<float>(shelves) * shelf_m + board_m;

    // A view far wider than a room gets wider bays and thicker books, not ever more of them.
    const auto width_m = static_cast<float>(reach.right_m - reach.left_m);
    constexpr float usual_book_m = 0.028F;
    const float books = width_m / usual_book_m * static_cast<float>(shelves);
    const float scale = std::max(1.0F, books / static_cast<float>(most_books));
    const float pitch_m = bay_m * std::max(1.0F, width_m / (bay_m * 60));
    const int first = static_cast<int>(std::floor(static_cast<float>(reach.left_m) / pitch_m));
    const int last = static_cast<int>(std::ceil(static_cast<float>(reach.right_m) / pitch_m));
    const float left = static_cast<float>(first) * pitch_m;
    const float right = static_cast<float>(last) * pitch_m;

    Piece shelf;
    Piece books_piece;
    append_panel(shelf.mesh, {{left, 0, back_z}, {right - left, 0, 0}, {0, height_m, 0}},
                 {0.6F * oak, 0.3F});
    append_box(shelf.mesh, {left, 0, back_z}, {right, plinth_m, front_z - 0.02F}, {oak, 0.6F});
    for (int row = 0; row <= shelves; ++row) {
        const float y = plinth_m + static_cast<float>(row) * shelf_m;
        const float out_m = row == shelves ? 0.025F : 0.0F;
        append_box(shelf.mesh, {left, y, back_z}, {right, y + board_m, front_z + out_m},
                   {oak, 0.8F});
    }
    for (int column = first; column <= last; ++column) {
        Chance chance{183, column};
        const float x = static_cast<float>(column) * pitch_m;
        append_box(shelf.mesh, {x - board_m / 2, plinth_m, back_z},
                   {x + board_m / 2, height_m, front_z + 0.006F},
                   {oak * chance.between(0.9F, 1.15F), 0.85F});
        if (column == last)
            continue;
        for (int row = 0; row < shelves; ++row) {
            const float y = plinth_m + static_cast<float>(row) * shelf_m;
            fill(books_piece.mesh,
                 {.left_m = x + board_m / 2,
                  .right_m = x + pitch_m - board_m / 2,
                  .floor_m = y + board_m,
                  .ceiling_m = y + shelf_m,
                  .back_z = back_z,
                  .column = column,
                  .shelf = row},
                 scale);
        }
    }
    // The room's wall above, where the picture shows it.
    const float wall_m = static_cast<float>(reach.top_m) - height_m;
    if (wall_m > 0) {
        append_panel(shelf.mesh,
                     {{left, height_m, back_z - 0.005F}, {right - left, 0, 0}, {0, wall_m, 0}},
                     {wash, 0.6F}, {0.85F * wash, 0.7F});
    }
    std::vector<Piece> pieces = one(std::move(shelf));
    pieces.push_back(std::move(books_piece));
    return pieces;
}

}  // namespace backrow::setting
