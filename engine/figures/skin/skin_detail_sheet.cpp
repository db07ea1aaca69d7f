#include "figures/head/head_form.h"
#include "figures/skin/noise.h"
#include "figures/skin/skin_detail.h"
#include "figures/skin/skin_relief.h"

#include "base/colour.h"
#include "base/side_by_side.h"

#include <glm/common.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <mutex>
#include <numbers>
#include <numeric>
#include <utility>

namespace backrow::figures {
namespace {

double noise(double x, double y, int k, int across) {
    return static_cast<double>(cell_noise(static_cast<float>(x), static_cast<float>(y), k, across));
}

/// Strands that lie beside each other, some on top, some in shade, and wander a little, or in curls
/// far.
void paint_hair(bool curled, Image<Rgb>& onto) {
    struct Wander {
        double by, long_mm;
        int count;
    };
    static constexpr std::array<Wander, 2> curls{{{0.024, 7.5, 20}, {0.008, 3.4, 44}}};
    static constexpr std::array<Wander, 2> straight{{{0.0045, 26, 24}, {0.0012, 9, 90}}};
    const Wander& wide = (curled ? curls : straight)[0];
    const Wander& fine = (curled ? curls : straight)[1];
    std::array<double, sheet::hair_rows> sums{};
    side_by_side(sheet::hair_rows, [&](std::size_t row) {
        const double down = static_cast<double>(row) / sheet::per_mm;
        std::array<double, sheet::width> at;  // Once round the sheet.
        for (std::size_t c = 0; c < sheet::width; ++c)
            at[c] = static_cast<double>(c) / sheet::width;
        const auto strands = [&](int count, double long_mm, int k) {
            SheetRow x, y;
            for (std::size_t c = 0; c < sheet::width; ++c)
                x[c] = static_cast<float>(at[c] * count);
            y.fill(static_cast<float>(down / long_mm));
            return cell_noise(x, y, 1, k, count);
        };
        const SheetRow wander = strands(wide.count, wide.long_mm, 61),
                       finer_wander = strands(fine.count, fine.long_mm, 62);
        for (std::size_t c = 0; c < sheet::width; ++c)
            at[c] += wide.by * static_cast<double>(wander[c]) +
                     fine.by * static_cast<double>(finer_wander[c]);
        const SheetRow locks = strands(48, 60, 63), tufts = strands(130, 34, 64),
                       hairs = strands(330, 26, 65), finest = strands(640, 18, 66);
        Rgb* texel = &onto.at(0, static_cast<int>(row));
        for (std::size_t c = 0; c < sheet::width; ++c) {
            const double value =
                1 + 0.20 * static_cast<double>(locks[c]) + 0.24 * static_cast<double>(tufts[c]) +
                0.30 * static_cast<double>(hairs[c]) + 0.22 * static_cast<double>(finest[c]);
            const auto v = static_cast<float>(std::max(0.18, value));
            texel[c] = {v, v, v};
            sums[row] += static_cast<double>(v);
        }
    });
    const auto gain = static_cast<float>(hair_detail_mean * sheet::hair_rows * sheet::width /
                                         std::accumulate(sums.begin(), sums.end(), 0.0));
    for (std::size_t i = 0; i < std::size_t{sheet::hair_rows} * sheet::width; ++i) {
        Rgb& texel = onto.pixels()[i];
        texel = {texel.r * gain, texel.g * gain, texel.b * gain};
    }
}

/// Fibres between pupil and limbus, the collar between them, the dark rim; on the white, veins.
void paint_eye(int first_row, Image<Rgb>& onto) {
    side_by_side(sheet::eye_rows, [&](std::size_t row) {
        const int r = static_cast<int>(row);
        for (int c = 0; c < sheet::eye_columns; ++c) {
            const double x = (c + 0.5 - sheet::eye_columns / 2.0) / sheet::iris_texels;
            const double y = (sheet::eye_rows / 2.0 - r - 0.5) / sheet::iris_texels;
            const double off = std::hypot(x, y);
            const double turn = std::atan2(y, x) / (2 * std::numbers::pi) + 0.5;
            Rgb& texel = onto.at(c, first_row + r);
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
    });
}

std::uint8_t byte_of(float linear) {
    return static_cast<std::uint8_t>(
        std::lround(255.0f * srgb_from_linear(std::clamp(linear, 0.0f, 1.0f))));
}

/// A table of the encoding: a power for each of millions of values would take longer than all the
/// rest.
class Encoding {
public:
    Encoding() {
        for (std::size_t i = 0; i < bytes_.size(); ++i)
            bytes_[i] = byte_of(static_cast<float>(i) / last);
    }
    [[nodiscard]] Rgba8 operator()(const Rgb& linear) const {
        return {coded(linear.r), coded(linear.g), coded(linear.b), 255};
    }

private:
    [[nodiscard]] std::uint8_t coded(float linear) const {
        // Rounded in doubles, where nothing just below a half becomes one.
        const auto step = static_cast<double>(std::clamp(linear, 0.0f, 1.0f) * last) + 0.5;
        return bytes_[static_cast<std::size_t>(static_cast<int>(step))];
    }
    static constexpr float last = 4095;
    std::array<std::uint8_t, 4096> bytes_{};
};

/// The plain mean of four, in a layer that needs no library for pictures.
Rgb mean_of_four(const Rgb* upper, const Rgb* lower) {
    Rgb sum;
    for (const Rgb& v : {upper[0], lower[0], upper[1], lower[1]})
        sum = {sum.r + v.r, sum.g + v.g, sum.b + v.b};
    return {sum.r / 4, sum.g / 4, sum.b / 4};
}

Image<Rgba8> sheet_of(int rows, SheetSize size) {
    const int texels = size == SheetSize::half ? 2 : 1;
    return {sheet::width / texels, rows / texels};
}

/// Encodes rows of a whole sheet onto the first rows of one, which may be half.
void encode(const Image<Rgb>& light, Image<Rgba8>& onto) {
    static const Encoding code;
    const int texels = light.width_px() / onto.width_px();
    side_by_side(static_cast<std::size_t>(light.height_px() / texels), [&](std::size_t row) {
        const int y = static_cast<int>(row);
        for (int x = 0; x < onto.width_px(); ++x) {
            const Rgb* from = &light.at(x * texels, y * texels);
            onto.at(x, y) = code(texels == 2 ? mean_of_four(from, from + light.width_px()) : *from);
        }
    });
}

/// Something painted when first asked for, and kept, by what it was painted for. Any thread may
/// ask.
template <class Key>
class Painted {
public:
    template <class Paint>
    const Image<Rgba8>& at(const Key& key, const Paint& paint) {
        Kept& kept = [&]() -> Kept& {
            const std::lock_guard lock{guard_};
            return all_[key];
        }();
        std::call_once(kept.painted, [&] { kept.picture = paint(); });
        return kept.picture;
    }

private:
    struct Kept {
        std::once_flag painted;
        Image<Rgba8> picture;
    };
    std::mutex guard_;
    std::map<Key, Kept> all_;
};

/// The rows that do not depend on the skin.
const Image<Rgba8>& hair_and_eye(bool curled, SheetSize size) {
    static Painted<std::pair<bool, SheetSize>> all;
    return all.at({curled, size}, [&] {
        Image<Rgb> light{sheet::width, sheet::hair_rows + sheet::eye_rows, {1, 1, 1}};
        paint_hair(curled, light);
        paint_eye(sheet::hair_rows, light);
        Image<Rgba8> made = sheet_of(light.height_px(), size);
        encode(light, made);
        return made;
    });
}

/// The corner in which all that has no skin detail lies: the sheet repeats, so it is four corners.
void whiten_corners(Image<Rgba8>& painted) {
    for (const int c : {0, painted.width_px() - 1})
        for (const int r : {0, painted.height_px() - 1})
            painted.at(c, r) = {255, 255, 255, 255};
}

Image<Rgba8> painted_sheet(const SkinDetailKind& kind, SheetSize size) {
    Image<Rgba8> made = sheet_of(sheet::height, size);
    encode(painted_skin(kind), made);
    const std::vector<Rgba8>& below = hair_and_eye(kind.curled, size).pixels();
    std::copy_backward(below.begin(), below.end(), made.pixels().end());
    whiten_corners(made);
    return made;
}

}  // namespace

const Image<Rgba8>& skin_detail_sheet(const SkinDetailKind& kind, SheetSize size) {
    static Painted<std::pair<SkinDetailKind, SheetSize>> all;
    return all.at({kind, size}, [&] { return painted_sheet(kind, size); });
}

}  // namespace backrow::figures
