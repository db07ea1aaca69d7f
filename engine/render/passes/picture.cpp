#include "render/passes/picture.h"

#include <algorithm>
#include <vector>

namespace backrow::render {
namespace {

// About 130 MB of buffers a tile at 32 bytes a texel.
constexpr int largest_tile_texels = 2048;
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

template <class Pixel>
void paste(const Image<Pixel>& tile, int left, int top, Image<Pixel>& into) {
    for (int y = 0; y < tile.height_px(); ++y)
        std::copy_n(&tile.at(0, y), tile.width_px(), &into.at(left, top + y));
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

    const std::vector<Tile> tiles =
        tiles_of(crop, std::min(largest_tile_texels, studio.gl.largest_texture_texels));
    for (std::size_t i = 0; i < tiles.size(); ++i) {
        const Tile& tile = tiles[i];
        Accumulation passes{studio, view,
                            part_of(crop, tile.left, tile.top, tile.width, tile.height), samples};
        while (!passes.complete()) {
            passes.add(passes_at_once);
            glFinish();
            const double in_tile = static_cast<double>(passes.samples()) / passes.samples_wanted();
            if (!progress((static_cast<double>(i) + in_tile) / static_cast<double>(tiles.size())))
                return tl::make_unexpected(Stopped{});
        }
        paste(passes.developed(), tile.left, tile.top, picture.developed);
        if (linear)
            paste(passes.linear(), tile.left, tile.top, picture.linear);
    }
    return picture;
}

}  // namespace backrow::render
