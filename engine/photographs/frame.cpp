#include "photographs/frame.h"

#include "photographs/decode_picture.h"
#include "photographs/exif_orientation.h"
#include "photographs/exif_segment.h"

#include "base/colour.h"
#include "base/file_endings.h"
#include "base/luminance.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <span>
#include <utility>
#include <vector>

namespace backrow::photographs {
namespace {

constexpr std::uint16_t full = std::numeric_limits<std::uint16_t>::max();

constexpr Rgb luminance{static_cast<float>(luminance_shares[0]),
                        static_cast<float>(luminance_shares[1]),
                        static_cast<float>(luminance_shares[2])};
constexpr Rgb green_alone{0, 1, 0};

std::vector<float> light_by_number(Encoding encoding) {
    std::vector<float> light(full + 1u);
    for (std::size_t number = 0; number < light.size(); ++number) {
        const float share = static_cast<float>(number) / full;
        light[number] = encoding == Encoding::linear ? share : linear_from_srgb(share);
    }
    return light;
}

Image<float> light_of(const Image<Rgb16>& picture, Encoding encoding, const Rgb& shares) {
    const std::vector<float> light = light_by_number(encoding);
    Image<float> sums(picture.width_px(), picture.height_px());
    std::ranges::transform(picture.pixels(), sums.pixels().begin(), [&](const Rgb16& pixel) {
        if (std::max({pixel.r, pixel.g, pixel.b}) == full)
            return 1.0f;
        return shares.r * light[pixel.r] + shares.g * light[pixel.g] + shares.b * light[pixel.b];
    });
    return sums;
}

Image<Rgb8> shown(const Image<Rgb16>& picture, Encoding encoding) {
    std::vector<std::uint8_t> eight(full + 1u);
    for (std::size_t number = 0; number < eight.size(); ++number) {
        const float share = static_cast<float>(number) / full;
        eight[number] = static_cast<std::uint8_t>(
            std::lround(255 * (encoding == Encoding::linear ? srgb_from_linear(share) : share)));
    }
    Image<Rgb8> shown(picture.width_px(), picture.height_px());
    std::ranges::transform(picture.pixels(), shown.pixels().begin(), [&](const Rgb16& pixel) {
        return Rgb8{eight[pixel.r], eight[pixel.g], eight[pixel.b]};
    });
    return shown;
}

/// A noted fraction above 0; nothing where it is missing, damaged or of another kind.
std::optional<double> noted(const ExifData& exif, ExifTag tag) {
    const ExifEntry* entry = exif_content_get_entry(exif.ifd[EXIF_IFD_EXIF], tag);
    if (entry == nullptr || entry->format != EXIF_FORMAT_RATIONAL || entry->components != 1 ||
        entry->size < 8)
        return std::nullopt;
    const ExifRational fraction =
        exif_get_rational(entry->data, exif_data_get_byte_order(const_cast<ExifData*>(&exif)));
    if (fraction.numerator == 0 || fraction.denominator == 0)
        return std::nullopt;
    return static_cast<double>(fraction.numerator) / fraction.denominator;
}

}  // namespace

bool is_frame_name(const std::string& file) {
    return ends_in(file, ".png") || ends_in(file, ".jpg") || ends_in(file, ".jpeg");
}

Checked<Frame> read_frame(const std::string& file, Encoding encoding, Light light) {
    const auto refuse = [&](std::string what, std::string mend) {
        return tl::unexpected(std::vector{
            Problem{.where = {.file = file}, .what = std::move(what), .mend = std::move(mend)}});
    };
    const auto bytes = bytes_of(file, most_frame_bytes);
    if (!bytes)
        return refuse("cannot be read",
                      fmt::format("check that it is there, is a file of at most {} megabytes, and "
                                  "may be read",
                                  most_frame_bytes >> 20));
    auto picture = decode_deep_picture(*bytes, most_frame_megapixels * 1e6);
    if (!picture)
        return refuse(picture.error(),
                      fmt::format("export it as PNG or JPEG of at most {:g} megapixels",
                                  most_frame_megapixels));
    const ExifOrientation orientation = exif_orientation(*bytes);
    *picture = turned_upright(*picture, orientation);
    Frame frame{.file = file,
                .light =
                    light_of(*picture, encoding, light == Light::green ? green_alone : luminance),
                .shown = shown(*picture, encoding)};
    if (const Exif exif = exif_of(*bytes)) {
        frame.f_number = noted(*exif, EXIF_TAG_FNUMBER);
        frame.focal_length_mm = noted(*exif, EXIF_TAG_FOCAL_LENGTH);
    }
    return frame;
}

}  // namespace backrow::photographs
