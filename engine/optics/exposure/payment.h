#pragma once

// Light that is lacking is paid for with a slower shutter or a higher ISO alone.
//
// Stops are counted from the shutter and the ISO that are set: whatever pays for k of them has
// shutter · ISO larger by 2^k. Negative stops, light too much, are paid back.

namespace backrow::optics {

struct ShutterAndIso {
    double shutter_s;
    double iso;
};

/// A setting to pay with, exact and on the marks of a camera (stops.h).
struct Payment {
    ShutterAndIso exact;
    ShutterAndIso marked;
};

[[nodiscard]] Payment pay_by_shutter(const ShutterAndIso& set, double stops) noexcept;
[[nodiscard]] Payment pay_by_iso(const ShutterAndIso& set, double stops) noexcept;

}  // namespace backrow::optics
