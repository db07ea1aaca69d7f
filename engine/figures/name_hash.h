#pragma once

// A stream of choices that depends on a name alone, the same on every machine and in every run.

#include "base/splitmix64.h"

#include <cstdint>
#include <string_view>

namespace backrow::figures {

/// FNV-1a over the bytes of the name, 64 bits. Source: [FNV].
[[nodiscard]] constexpr std::uint64_t hash_of_name(std::string_view name) noexcept {
    std::uint64_t hash = 0xcbf29ce484222325ULL;
    for (const char c : name) {
        hash ^= static_cast<unsigned char>(c);
        hash *= 0x100000001b3ULL;
    }
    return hash;
}

/// Draws after one another; two streams of one name, told apart by `purpose`, are unrelated, so
/// that a new choice in one place changes nothing elsewhere.
class Draws {
public:
    constexpr Draws(std::string_view name, std::string_view purpose) noexcept
        : state_{hash_of_name(name) ^ (hash_of_name(purpose) * counter_step)} {}

    /// Uniform in 0 … 1.
    [[nodiscard]] constexpr double share() noexcept {
        state_ += counter_step;
        return static_cast<double>(splitmix64(state_) >> 11) * 0x1.0p-53;
    }

    [[nodiscard]] constexpr double between(double least, double most) noexcept {
        return least + (most - least) * share();
    }

    /// 0 … count − 1.
    [[nodiscard]] constexpr int one_of(int count) noexcept {
        return static_cast<int>(share() * count);
    }

private:
    std::uint64_t state_;
};

}  // namespace backrow::figures
