#include "optics/payment.h"

#include "optics/stops.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace backrow::optics {
namespace {

Payment rounded(const ShutterAndIso& exact) noexcept {
    return {
        .exact = exact,
        .marked = {.shutter_s = marked_shutter_s(exact.shutter_s), .iso = marked_iso(exact.iso)}};
}

/// Without its unit, which the words say once.
std::string bare(const std::string& shutter) {
    return shutter.substr(0, shutter.find(' '));
}

}  // namespace

Payment pay_by_shutter(const ShutterAndIso& set, double stops) noexcept {
    return rounded({.shutter_s = set.shutter_s * std::exp2(stops), .iso = set.iso});
}

Payment pay_by_iso(const ShutterAndIso& set, double stops) noexcept {
    return rounded({.shutter_s = set.shutter_s, .iso = set.iso * std::exp2(stops)});
}

Payment pay_by_both(const ShutterAndIso& set, double stops, double longest_shutter_s) noexcept {
    const double light = set.shutter_s * set.iso * std::exp2(stops);
    const auto with_shutter = [&](double shutter_s) {
        return ShutterAndIso{.shutter_s = shutter_s, .iso = light / shutter_s};
    };
    const double limit_s = std::max(longest_shutter_s, set.shutter_s);
    const double wanted_s = set.shutter_s * std::exp2(stops);
    Payment payment = rounded(with_shutter(std::min(wanted_s, limit_s)));
    if (wanted_s > limit_s || payment.marked.shutter_s > limit_s) {
        payment.marked.shutter_s = marked_shutter_within_s(limit_s);
        payment.marked.iso = marked_iso(with_shutter(payment.marked.shutter_s).iso);
    }
    return payment;
}

std::string payment_words(const ShutterAndIso& set, double stops) {
    const double shutter_s = pay_by_shutter(set, stops).marked.shutter_s;
    const double iso = pay_by_iso(set, stops).marked.iso;
    return fmt::format("{}: {} → {} or ISO {:.0f} → {:.0f}", stops_words(stops),
                       bare(shutter_words(set.shutter_s)), shutter_words(shutter_s), set.iso, iso);
}

}  // namespace backrow::optics
