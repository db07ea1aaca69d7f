#pragma once

// What a test leaves to chance, the same on every machine.

#include "base/splitmix64.h"

#include <array>
#include <cstddef>
#include <cstdint>

namespace backrow {

class Lot {
public:
    explicit Lot(std::uint64_t seed) : key_{splitmix64(seed + 1)} {}

    double between(double least, double most) {
        constexpr double steps = 1 << 30;
        return least + (most - least) * static_cast<double>(next() % (1 << 30)) / steps;
    }
    bool in(double share) { return between(0, 1) < share; }
    /// 0 … count − 1.
    std::size_t below(std::size_t count) { return next() % count; }
    template <class List>
    auto one_of(const List& all) {
        return all[below(all.size())];
    }

private:
    std::uint64_t next() { return splitmix64(key_ += counter_step); }
    std::uint64_t key_;
};

}  // namespace backrow
