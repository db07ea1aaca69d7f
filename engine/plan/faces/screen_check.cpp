#include "plan/faces/screen_check.h"

#include <algorithm>
#include <variant>

namespace backrow::plan {

double screen_magnification(const scene::Viewing& viewing, const scene::Camera& camera) noexcept {
    const double pixel_by_pixel =
        std::max(camera.pixels[0], camera.pixels[1]) / screen_long_side_px;
    const auto* print = std::get_if<optics::PrintViewing>(&viewing);
    const double wanted = print == nullptr ? pixel_by_pixel
                                           : print->long_side_cm / print->distance_cm /
                                                 (screen_long_side_mm / screen_seen_from_mm);
    return std::max(1.0, std::min(wanted, pixel_by_pixel));
}

}  // namespace backrow::plan
