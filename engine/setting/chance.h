#pragma once

// Chance that falls the same way on every machine, by base/splitmix64.h, and smooth noise made of
// it.

#include "base/splitmix64.h"

#include <glm/geometric.hpp>
#include <glm/vec2.hpp>
#include <glm/vec3.hpp>

#include <cmath>
#include <cstdint>
#include <initializer_list>
#include <numbers>

namespace backrow::setting {

/// A run of numbers that belongs to a key, such as a kind and a place. The same key gives the same
/// run, so what grows in one place does not change with how much is built beside it.
class Chance {
public:
    explicit Chance(std::initializer_list<int> key) noexcept {
        for (const int part : key) {
            counter_ = splitmix64(counter_ + counter_step + static_cast<std::uint64_t>(part));
        }
    }

    /// 0 ≤ x < 1, on a grid of 2⁻²⁴.
    [[nodiscard]] float unit() noexcept {
        counter_ += counter_step;
        return static_cast<float>(splitmix64(counter_) >> 40) * 0x1p-24F;
    }

    [[nodiscard]] float between(float low, float high) noexcept {
        return low + (high - low) * unit();
    }

    /// Bell-shaped about 0 with a standard deviation of 1, never beyond ±2√3: the sum of four
    /// uniform numbers has a variance of 4/12.
    [[nodiscard]] float bell() noexcept {
        const float sum = unit() + unit() + unit() + unit() - 2.0F;
        return sum * std::numbers::sqrt3_v<float>;
    }

    /// Unit vector, every direction alike.
    [[nodiscard]] glm::vec3 direction() noexcept;

private:
    std::uint64_t counter_ = 0;
};

/// Smooth noise 0 … 1 that wanders over about one unit of length; layer picks one of many.
[[nodiscard]] float noise(const glm::vec3& at, int layer) noexcept;
[[nodiscard]] float noise(const glm::vec2& at, int layer) noexcept;

/// Three octaves of it, each half as large and half as strong; 0 … 1.
[[nodiscard]] float rough_noise(const glm::vec2& at, int layer) noexcept;

/// 0 below from, 1 above to, smooth between.
[[nodiscard]] float smooth_step(float from, float to, float x) noexcept;

}  // namespace backrow::setting
