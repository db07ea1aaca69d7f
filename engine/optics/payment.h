#pragma once

// A smaller opening is paid for with a slower shutter or a higher ISO.
//
// Stops are counted from the shutter and the ISO that are set: whatever pays for k of them has
// shutter · ISO larger by 2^k. Negative stops, from a wider opening, are paid back.

#include <string>

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

/// The shutter pays first, but grows no longer than longest_shutter_s (handheld_limit_s(),
/// motion_limit_s(), the lesser of them), and ISO pays the rest. A shutter that is longer already
/// stays. Marked, the shutter is within the limit too, and ISO makes up for what it lacks.
[[nodiscard]] Payment pay_by_both(const ShutterAndIso& set, double stops,
                                  double longest_shutter_s) noexcept;

/// "2⅓ stops: 1/250 → 1/50 s or ISO 100 → 500", on marked values.
[[nodiscard]] std::string payment_words(const ShutterAndIso& set, double stops);

}  // namespace backrow::optics
