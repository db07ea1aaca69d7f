#pragma once

// SplitMix64: whole-number hashing of a key and a counter, the same on every machine. (Library
// distributions differ between compilers.)

#include <cstdint>

namespace backrow {

/// The finaliser: every bit of the result depends on every bit of the key.
/// Source: [STEELE2014] fig. 16.
[[nodiscard]] constexpr std::uint64_t splitmix64(std::uint64_t key) noexcept {
    key = (key ^ key >> 30) * 0xbf58476d1ce4e5b9U;
    key = (key ^ key >> 27) * 0x94d049bb133111ebU;
    return key ^ key >> 31;
}

/// How far the counter goes for each number: the odd number nearest 2⁶⁴ over the golden ratio.
/// Source: [STEELE2014].
inline constexpr std::uint64_t counter_step = 0x9e3779b97f4a7c15U;

}  // namespace backrow
