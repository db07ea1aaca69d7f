#include "render/passes/picture.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace backrow::render {
namespace {

// Buffers of 60 bytes a texel: up to 90 MB a tile where they lie in the memory of the machine, 250
// MB on a graphics card, which likes to draw much at once.
constexpr int largest_tile_on_processor_texels = 1200;
constexpr int largest_tile_on_card_texels = 2048;
// What is blurred is spread over the edge of a tile; no further than this, or margins cost too
// much.
constexpr double widest_margin_texels = 160;
// Passes between two looks at the clock: a software rasteriser is slow enough for one.
constexpr int passes_at_once = 8;

struct Tile {
    int left, top, width, height;
};

// Equal shares rather than full tiles and a sliver.
std::vector<int> cuts(int length, int longest) {
    const int pieces = (length + longest - 1) / longest;
    std::vector<int> at;
    for (int i = 0; i <= pieces; ++i)
        at.push_back(static_cast<int>(static_cast<long long>(length) * i / pieces));
    return at;
}

std::vector<Tile> tiles_of(const CropRect& crop, int longest) {
    const std::vector<int> columns = cuts(crop.width_texels, longest);
    const std::vector<int> rows = cuts(crop.height_texels, longest);
    std::vector<Tile> tiles;
    for (std::size_t y = 0; y + 1 < rows.size(); ++y)
        for (std::size_t x = 0; x + 1 < columns.size(); ++x)
            tiles.push_back(
                {columns[x], rows[y], columns[x + 1] - columns[x], rows[y + 1] - rows[y]});
    return tiles;
}

}  // namespace

Finished<Picture> make_picture(const Studio& studio, const scene::CameraView& view,
                               const CropRect& crop, const LensSamples& samples,
                               KeepLinear keep_linear, const Progress& progress) {
    const bool linear = keep_linear == KeepLinear::yes;
    Picture picture;
    picture.developed = Image<Rgb8>{crop.width_texels, crop.height_texels};
    if (linear)
        picture.linear = Image<Rgb>{crop.width_texels, crop.height_texels};

    const int margin =
        static_cast<int>(std::ceil(std::min(samples.spread_texels, widest_margin_texels)));
    const int parted = static_cast<int>(
        std::ceil(std::min(colours_reach_texels(view, crop), widest_margin_texels)));
    const int largest_tile =
        studio.gl.on_processor ? largest_tile_on_processor_texels : largest_tile_on_card_texels;
    const std::vector<Tile> tiles = tiles_of(
        crop, std::min(largest_tile, studio.gl.largest_texture_texels - 2 * (margin + parted)));
    for (std::size_t i = 0; i < tiles.size(); ++i) {
        const Tile& tile = tiles[i];
        // With as much round it as cells spread, where the picture goes on, and everywhere as
        // colours are parted.
        const int left = std::max(0, tile.left - margin) - parted;
        const int top = std::max(0, tile.top - margin) - parted;
        const int right = std::min(crop.width_texels, tile.left + tile.width + margin) + parted;
        const int bottom = std::min(crop.height_texels, tile.top + tile.height + margin) + parted;
        // The whole picture is to be good: half of what it may be off, one tile may have alone.
        LensSamples of_tile = samples;
        const double share = static_cast<double>(tile.width) * tile.height /
                             (static_cast<double>(crop.width_texels) * crop.height_texels);
        of_tile.enough_db -= std::max(0.0, 10.0 * std::log10(0.5 / share));
        Accumulation passes{studio, view, part_of(crop, left, top, right - left, bottom - top),
                            of_tile};
        while (!passes.complete()) {
            passes.add(passes_at_once);
            glFinish();
            const double in_tile = static_cast<double>(passes.samples()) / passes.samples_wanted();
            if (!progress((static_cast<double>(i) + in_tile) / static_cast<double>(tiles.size())))
                return tl::make_unexpected(Stopped{});
        }
        picture.passes = std::max(picture.passes, passes.samples());
        const auto paste = [&](const auto& from, auto& into) {
            for (int y = 0; y < tile.height; ++y)
                std::copy_n(&from.at(tile.left - left, tile.top - top + y), tile.width,
                            &into.at(tile.left, tile.top + y));
        };
        paste(passes.developed(), picture.developed);
        if (linear)
            paste(passes.linear(), picture.linear);
    }
    return picture;
}

}  // namespace backrow::render
