#include "setting/backdrops/light_spots.h"

#include "setting/chance.h"

#include "base/colour.h"

#include <glm/geometric.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <functional>
#include <utility>

namespace backrow::setting {
namespace {

constexpr float at_white = 0.95F;

class Decoded {
public:
    Decoded() {
        for (std::size_t step = 0; step < linear_.size(); ++step)
            linear_[step] = linear_from_srgb(static_cast<float>(step) / 255);
    }
    [[nodiscard]] glm::vec3 operator()(const Rgba8& pixel) const noexcept {
        return {linear_[pixel.r], linear_[pixel.g], linear_[pixel.b]};
    }

private:
    std::array<float, 256> linear_{};
};

float brightest(const glm::vec3& colour) noexcept {
    return std::max({colour.r, colour.g, colour.b});
}

/// What is added up over the pixels of one spot.
struct Sums {
    double pixels = 0;
    glm::dvec2 at{0};
    glm::dvec2 squares{0};
    double product = 0;
    glm::dvec3 light{0};
    float peak = 0;

    void add(int x, int y, const glm::vec3& colour, float gain) {
        const glm::dvec2 p{x + 0.5, y + 0.5};
        const float v = brightest(colour);
        pixels += 1;
        at += p;
        squares += p * p;
        product += p.x * p.y;
        light += glm::dvec3{colour * times_brighter(v, gain)};
        peak = std::max(peak, v);
    }
};

// The ellipse with the spot's second moments (a uniform ellipse has a variance of a quarter of its
// half axis squared; a pixel one of 1/12 of its own), then as large as its pixels.
LightSpot spot_from(const Sums& sums) {
    const glm::dvec2 middle = sums.at / sums.pixels;
    const glm::dvec2 variance = sums.squares / sums.pixels - middle * middle + 1.0 / 12;
    const double shared = sums.product / sums.pixels - middle.x * middle.y;
    const double mean = (variance.x + variance.y) / 2;
    const double apart = std::hypot((variance.x - variance.y) / 2, shared);
    const double slant = 0.5 * std::atan2(2 * shared, variance.x - variance.y);
    const double longer = 2 * std::sqrt(mean + apart);
    const double shorter = 2 * std::sqrt(std::max(mean - apart, 1.0 / 12));
    const double grown =
        std::sqrt(sums.pixels / (static_cast<double>(octagon_area) * longer * shorter));
    const glm::dvec2 along{std::cos(slant), std::sin(slant)};
    return {.middle_px = glm::vec2{middle},
            .long_axis_px = glm::vec2{along * (longer * grown)},
            .short_axis_px = glm::vec2{glm::dvec2{-along.y, along.x} * (shorter * grown)},
            .light = glm::vec3{sums.light / sums.pixels}};
}

double light_of(const Sums& sums) {
    return sums.light.r + sums.light.g + sums.light.b;
}

}  // namespace

float times_brighter(float v, float gain) noexcept {
    return 1 + (gain - 1) * smooth_step(nearly_white, 1, v);
}

std::vector<LightSpot> light_spots(const Image<Rgba8>& picture, float gain) {
    const int width = picture.width_px();
    const int height = picture.height_px();
    const Decoded decoded;
    const auto is_bright = [&](int x, int y) {
        return brightest(decoded(picture.at(x, y))) >= nearly_white;
    };
    const auto index = [&](int x, int y) {
        return static_cast<std::size_t>(y) * static_cast<std::size_t>(width) +
               static_cast<std::size_t>(x);
    };
    const int widest_px = std::min(width, height) / widest_light_part;

    std::vector<bool> is_met(picture.pixels().size(), false);
    std::vector<Sums> found;
    std::vector<std::pair<int, int>> pending;
    for (int top = 0; top < height; ++top) {
        for (int left = 0; left < width; ++left) {
            if (is_met[index(left, top)] || !is_bright(left, top))
                continue;
            Sums sums;
            std::pair<int, int> across{left, left};
            int bottom = top;
            pending.assign(1, {left, top});
            is_met[index(left, top)] = true;
            while (!pending.empty()) {
                const auto [x, y] = pending.back();
                pending.pop_back();
                sums.add(x, y, decoded(picture.at(x, y)), gain);
                across = {std::min(across.first, x), std::max(across.second, x)};
                bottom = std::max(bottom, y);
                for (const auto& [dx, dy] : {std::pair{1, 0}, {-1, 0}, {0, 1}, {0, -1}}) {
                    const int to_x = x + dx;
                    const int to_y = y + dy;
                    if (to_x < 0 || to_y < 0 || to_x >= width || to_y >= height ||
                        is_met[index(to_x, to_y)] || !is_bright(to_x, to_y))
                        continue;
                    is_met[index(to_x, to_y)] = true;
                    pending.emplace_back(to_x, to_y);
                }
            }
            const int widest = std::max(across.second - across.first, bottom - top) + 1;
            if (widest <= widest_px && sums.peak >= at_white)
                found.push_back(sums);
        }
    }

    std::ranges::stable_sort(found, std::greater{}, light_of);
    if (found.size() > most_lights)
        found.resize(most_lights);
    std::vector<LightSpot> spots;
    for (const Sums& sums : found)
        spots.push_back(spot_from(sums));
    return spots;
}

}  // namespace backrow::setting
