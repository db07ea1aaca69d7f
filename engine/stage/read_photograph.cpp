#include "stage/read_photograph.h"

#include "scene/limits.h"

#include "photographs/decode_picture.h"
#include "photographs/exif_orientation.h"

#define STB_IMAGE_RESIZE_IMPLEMENTATION
#define STB_IMAGE_RESIZE_STATIC
#if defined(__GNUC__)
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wunused-function"
#pragma GCC diagnostic ignored "-Wold-style-cast"
#pragma GCC diagnostic ignored "-Wshadow"
#endif
#include <stb/stb_image_resize.h>
#if defined(__GNUC__)
#pragma GCC diagnostic pop
#endif

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <new>
#include <span>
#include <vector>

namespace backrow::stage {
namespace {

bool has_shape(const Image<Rgba8>& picture, PhotographShape shape) {
    return shape == PhotographShape::any ||
           std::abs(picture.width_px() - 2 * picture.height_px()) * 100 <= picture.width_px();
}

}  // namespace

// At a whole ratio the library's box is a plain mean of the pixels under it. Colours are said to be
// premultiplied so that alpha does not weigh them: photographs are shown as if it were not there.
Image<Rgba8> halved(const Image<Rgba8>& picture) {
    constexpr int channels = 4;
    constexpr int alpha_channel = 3;
    constexpr int row_by_row = 0;  // rows of the half lie one behind the other
    Image<Rgba8> half{picture.width_px() / 2, picture.height_px() / 2};
    const auto* from = reinterpret_cast<const unsigned char*>(picture.pixels().data());
    auto* into = reinterpret_cast<unsigned char*>(half.pixels().data());
    const int from_row_bytes = channels * picture.width_px();
    // It fails for want of memory alone.
    if (stbir_resize_uint8_generic(from, 2 * half.width_px(), 2 * half.height_px(), from_row_bytes,
                                   into, half.width_px(), half.height_px(), row_by_row, channels,
                                   alpha_channel, STBIR_FLAG_ALPHA_PREMULTIPLIED, STBIR_EDGE_CLAMP,
                                   STBIR_FILTER_BOX, STBIR_COLORSPACE_SRGB, nullptr) == 0)
        throw std::bad_alloc{};
    return half;
}

Checked<Image<Rgba8>> read_photograph(const std::string& file, const Place& named_at,
                                      PhotographShape shape) {
    const auto refuse = [&](std::string_view what, std::string mend) {
        return tl::unexpected(
            std::vector{Problem{.where = named_at,
                                .what = fmt::format("picture file {} {}", file, what),
                                .mend = std::move(mend)}});
    };
    const auto bytes = photographs::bytes_of(file, scene::most_photograph_bytes);
    if (!bytes)
        return refuse("cannot be read", "check that it is there and may be read");
    auto picture = photographs::decode_picture(*bytes, most_photograph_megapixels * 1e6);
    if (!picture)
        return refuse(picture.error(),
                      fmt::format("save it as PNG or JPEG of at most {:g} megapixels",
                                  most_photograph_megapixels));
    *picture = photographs::turned_upright(*picture, photographs::exif_orientation(*bytes));
    if (!has_shape(*picture, shape))
        return refuse(fmt::format("has {} × {} pixels", picture->width_px(), picture->height_px()),
                      "a panorama all round (equirectangular) is twice as wide as high");
    while (std::max(picture->width_px(), picture->height_px()) > longest_photograph_px &&
           std::min(picture->width_px(), picture->height_px()) > 1)
        *picture = halved(*picture);
    return std::move(*picture);
}

}  // namespace backrow::stage
