#include "optics/exposure/payment.h"

#include "optics/exposure/stops.h"

#include <cmath>

namespace backrow::optics {
namespace {

Payment rounded(const ShutterAndIso& exact) noexcept {
    return {
        .exact = exact,
        .marked = {.shutter_s = marked_shutter_s(exact.shutter_s), .iso = marked_iso(exact.iso)}};
}

}  // namespace

Payment pay_by_shutter(const ShutterAndIso& set, double stops) noexcept {
    return rounded({.shutter_s = set.shutter_s * std::exp2(stops), .iso = set.iso});
}

Payment pay_by_iso(const ShutterAndIso& set, double stops) noexcept {
    return rounded({.shutter_s = set.shutter_s, .iso = set.iso * std::exp2(stops)});
}

}  // namespace backrow::optics
