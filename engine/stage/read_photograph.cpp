#include "stage/read_photograph.h"

#include "scene/limits.h"
#include "stage/exif_orientation.h"
#include "stage/read_texture.h"

#include "base/colour.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <span>
#include <vector>

namespace backrow::stage {
namespace {

float linear(std::uint8_t step) {
    return linear_from_srgb(static_cast<float>(step) / 255);
}

std::uint8_t step_from_linear(float light) {
    return static_cast<std::uint8_t>(std::lround(255 * srgb_from_linear(light)));
}

bool has_shape(const Image<Rgba8>& picture, PhotographShape shape) {
    return shape == PhotographShape::any ||
           std::abs(picture.width_px() - 2 * picture.height_px()) * 100 <= picture.width_px();
}

}  // namespace

Image<Rgba8> halved(const Image<Rgba8>& picture) {
    Image<Rgba8> half{picture.width_px() / 2, picture.height_px() / 2};
    for (int y = 0; y < half.height_px(); ++y) {
        for (int x = 0; x < half.width_px(); ++x) {
            const auto mean = [&](std::uint8_t Rgba8::*channel) {
                float sum = 0;
                for (const int dy : {0, 1})
                    for (const int dx : {0, 1})
                        sum += linear(picture.at(2 * x + dx, 2 * y + dy).*channel);
                return step_from_linear(sum / 4);
            };
            half.at(x, y) = {mean(&Rgba8::r), mean(&Rgba8::g), mean(&Rgba8::b)};
        }
    }
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
    const auto bytes = bytes_of(file, scene::most_photograph_bytes);
    if (!bytes)
        return refuse("cannot be read", "check that it is there and may be read");
    auto picture = decode_texture(*bytes, most_photograph_megapixels * 1e6);
    if (!picture)
        return refuse(picture.error(),
                      fmt::format("save it as PNG or JPEG of at most {:g} megapixels",
                                  most_photograph_megapixels));
    *picture = turned_upright(*picture, exif_orientation(*bytes));
    if (!has_shape(*picture, shape))
        return refuse(fmt::format("has {} × {} pixels", picture->width_px(), picture->height_px()),
                      "a panorama all round (equirectangular) is twice as wide as high");
    while (std::max(picture->width_px(), picture->height_px()) > longest_photograph_px &&
           std::min(picture->width_px(), picture->height_px()) > 1)
        *picture = halved(*picture);
    return std::move(*picture);
}

}  // namespace backrow::stage
