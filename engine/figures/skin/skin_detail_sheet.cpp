#include "figures/head/head_form.h"
#include "figures/skin/noise.h"
#include "figures/skin/skin_detail.h"
#include "figures/skin/skin_relief.h"

#include "base/colour.h"

#include <glm/common.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <mutex>
#include <numbers>
#include <utility>

namespace backrow::figures {
namespace {

double noise(double x, double y, int k, int across) {
    return static_cast<double>(cell_noise(static_cast<float>(x), static_cast<float>(y), k, across));
}

/// Strands that lie beside each other, some on top, some in shade, and wander a little, or in curls
/// far.
Image<float> made_strands(bool curled) {
    Image<float> made{sheet::width, sheet::hair_rows};
    double sum = 0;
    for (int r = 0; r < sheet::hair_rows; ++r)
        for (int c = 0; c < sheet::width; ++c) {
            const double turn = c / static_cast<double>(sheet::width);  // Once round the sheet.
            const double down = r / sheet::per_mm;
            const double wander = curled ? 0.024 * noise(turn * 20, down / 7.5, 61, 20) +
                                               0.008 * noise(turn * 44, down / 3.4, 62, 44)
                                         : 0.0045 * noise(turn * 24, down / 26, 61, 24) +
                                               0.0012 * noise(turn * 90, down / 9, 62, 90);
            const double at = turn + wander;
            const auto strands = [&](int count, double long_mm, int k) {
                return noise(at * count, down / long_mm, k, count);
            };
            const double locks = strands(48, 60, 63), tufts = strands(130, 34, 64),
                         hairs = strands(330, 26, 65), fine = strands(640, 18, 66);
            const double value = 1 + 0.20 * locks + 0.24 * tufts + 0.30 * hairs + 0.22 * fine;
            made.at(c, r) = static_cast<float>(std::max(0.18, value));
            sum += static_cast<double>(made.at(c, r));
        }
    const auto gain = static_cast<float>(hair_detail_mean * sheet::hair_rows * sheet::width / sum);
    for (float& v : made.pixels())
        v *= gain;
    return made;
}

void paint_hair(bool curled, Image<Rgb>& onto) {
    static const std::array<Image<float>, 2> both{made_strands(false), made_strands(true)};
    const Image<float>& strands = both[curled ? 1 : 0];
    for (int r = 0; r < sheet::hair_rows; ++r)
        for (int c = 0; c < sheet::width; ++c) {
            const float v = strands.at(c, r);
            onto.at(c, sheet::hair_row + r) = {v, v, v};
        }
}

/// Fibres between pupil and limbus, the collar between them, the dark rim; on the white, veins.
void paint_eye(Image<Rgb>& onto) {
    for (int r = 0; r < sheet::eye_rows; ++r)
        for (int c = 0; c < sheet::eye_columns; ++c) {
            const double x = (c + 0.5 - sheet::eye_columns / 2.0) / sheet::iris_texels;
            const double y = (sheet::eye_rows / 2.0 - r - 0.5) / sheet::iris_texels;
            const double off = std::hypot(x, y);
            const double turn = std::atan2(y, x) / (2 * std::numbers::pi) + 0.5;
            Rgb& texel = onto.at(c, sheet::eye_row + r);
            if (off < 1.12) {
                const double sway = 0.006 * noise(turn * 17, off * 6, 71, 17);
                const auto fibres = [&](int count, double length, int k) {
                    return noise((turn + sway) * count, off / length, k, count);
                };
                const double radial = 0.30 * fibres(34, 0.8, 72) + 0.34 * fibres(75, 0.45, 73) +
                                      0.22 * fibres(120, 0.25, 74);
                const double collar_at = 0.50 + 0.03 * noise(turn * 23, 0, 75, 23);
                const double collar = hill((off - collar_at) / 0.07);
                const double crypt = std::max(0.0, noise(turn * 13, off * 3.3, 76, 13) - 0.25);
                double v = 0.62 * (1 + radial) + 0.22 * collar - 0.35 * crypt;
                v *= 1 - 0.25 * glm::smoothstep(0.46, 0.34, off);
                v *= 1 - 0.72 * glm::smoothstep(0.84, 0.99, off);
                const auto dark = static_cast<float>(std::clamp(v, 0.10, 1.0));
                // A warmer ring about the pupil.
                const double warm = 0.5 * hill((off - 0.42) / 0.13);
                const glm::dvec3 iris =
                    static_cast<double>(dark) * glm::dvec3{1, 1 - 0.12 * warm, 1 - 0.35 * warm};
                const double white = glm::smoothstep(0.98, 1.12, off);
                texel = {static_cast<float>(glm::mix(iris.r, 0.96, white)),
                         static_cast<float>(glm::mix(iris.g, 0.94, white)),
                         static_cast<float>(glm::mix(iris.b, 0.94, white))};
                continue;
            }
            // Thin, branching, most towards the corners.
            const double towards_corner = glm::smoothstep(1.2, 2.5, std::abs(x));
            const double branch = y * 5.5 + 1.6 * noise(x * 2.2 + 40, y * 2.0 + 9, 81, 4096) +
                                  0.5 * noise(x * 7 + 40, y * 3, 82, 4096);
            const double vein =
                std::pow(1 - std::abs(noise(branch + 60, x * 0.5 + 7, 83, 4096)), 9);
            const double red = (0.10 + 0.50 * towards_corner) * vein +
                               0.06 * noise(x * 3 + 20, y * 3 + 20, 84, 4096);
            texel = {static_cast<float>(std::min(1.0, 0.96 - 0.10 * red)),
                     static_cast<float>(std::clamp(0.94 - 0.52 * red, 0.0, 1.0)),
                     static_cast<float>(std::clamp(0.94 - 0.56 * red, 0.0, 1.0))};
        }
}

std::uint8_t byte_of(float linear) {
    return static_cast<std::uint8_t>(
        std::lround(255.0f * srgb_from_linear(std::clamp(linear, 0.0f, 1.0f))));
}

/// The corner in which all that has no skin detail lies: the sheet repeats, so it is four corners.
void whiten_corners(Image<Rgb>& light) {
    for (const int c : {0, light.width_px() - 1})
        for (const int r : {0, light.height_px() - 1})
            light.at(c, r) = {1, 1, 1};
}

// The plain mean of four, in a layer that needs no library for pictures.
Image<Rgb> halved(const Image<Rgb>& light) {
    Image<Rgb> half{light.width_px() / 2, light.height_px() / 2};
    for (int y = 0; y < half.height_px(); ++y)
        for (int x = 0; x < half.width_px(); ++x) {
            Rgb sum;
            for (const int c : {2 * x, 2 * x + 1})
                for (const int r : {2 * y, 2 * y + 1}) {
                    const Rgb& v = light.at(c, r);
                    sum = {sum.r + v.r, sum.g + v.g, sum.b + v.b};
                }
            half.at(x, y) = {sum.r / 4, sum.g / 4, sum.b / 4};
        }
    return half;
}

Image<Rgba8> painted_sheet(const SkinDetailKind& kind, SheetSize size) {
    Image<Rgb> light{sheet::width, sheet::height, {1, 1, 1}};
    paint_skin(kind, light);
    paint_hair(kind.curled, light);
    paint_eye(light);
    if (size == SheetSize::half)
        light = halved(light);
    whiten_corners(light);

    // A table of the encoding: a power for each of millions of values would take longer than all
    // the rest.
    std::array<std::uint8_t, 4096> encoded{};
    for (std::size_t i = 0; i < encoded.size(); ++i)
        encoded[i] = byte_of(static_cast<float>(i) / 4095.0f);
    const auto coded = [&](float linear) {
        return encoded[static_cast<std::size_t>(
            std::lround(std::clamp(linear, 0.0f, 1.0f) * 4095.0f))];
    };
    Image<Rgba8> made{light.width_px(), light.height_px()};
    for (std::size_t i = 0; i < made.pixels().size(); ++i) {
        const Rgb& v = light.pixels()[i];
        made.pixels()[i] = {coded(v.r), coded(v.g), coded(v.b), 255};
    }
    return made;
}

}  // namespace

const Image<Rgba8>& skin_detail_sheet(const SkinDetailKind& kind, SheetSize size) {
    struct Kept {
        std::once_flag painted;
        Image<Rgba8> sheet;
    };
    static std::mutex guard;
    static std::map<std::pair<SkinDetailKind, SheetSize>, Kept> all;
    Kept& kept = [&]() -> Kept& {
        const std::lock_guard lock{guard};
        return all[{kind, size}];
    }();
    std::call_once(kept.painted, [&] { kept.sheet = painted_sheet(kind, size); });
    return kept.sheet;
}

}  // namespace backrow::figures
