#pragma once

// Chance that falls the same way on every machine: whole-number hashing of a key and a counter, and
// smooth noise made of it. (Library distributions differ between compilers.)

#include <glm/geometric.hpp>
#include <glm/vec2.hpp>
#include <glm/vec3.hpp>

#include <cmath>
#include <cstdint>
#include <initializer_list>
#include <numbers>

namespace backrow::setting {

/// The finaliser of SplitMix64: every bit of the result depends on every bit of the key.
/// Source: [STEELE2014] fig. 16.
[[nodiscard]] constexpr std::uint64_t mixed(std::uint64_t key) noexcept {
    key = (key ^ key >> 30) * 0xbf58476d1ce4e5b9U;
    key = (key ^ key >> 27) * 0x94d049bb133111ebU;
    return key ^ key >> 31;
}

/// How far the counter goes for each number: the odd number nearest 2⁶⁴ over the golden ratio.
/// Source: [STEELE2014].
inline constexpr std::uint64_t counter_step = 0x9e3779b97f4a7c15U;

/// A run of numbers that belongs to a key, such as a kind and a place. The same key gives the same
/// run, so what grows in one place does not change with how much is built beside it.
class Chance {
public:
    explicit Chance(std::initializer_list<int> key) noexcept {
        for (const int part : key) {
            counter_ = mixed(counter_ + counter_step + static_cast<std::uint64_t>(part));
        }
    }

    /// 0 ≤ x < 1, on a grid of 2⁻²⁴.
    [[nodiscard]] float unit() noexcept {
        counter_ += counter_step;
        return static_cast<float>(mixed(counter_) >> 40) * 0x1p-24F;
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
