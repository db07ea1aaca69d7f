#include "report/tradeoff/tradeoff_scales.h"

#include <cmath>
#include <cstddef>

namespace backrow::report {

double TradeoffScales::x_from_m(double lens_to_mark_m) const {
    const plan::TradeoffRange& range = answer_.range;
    return x_from_share((lens_to_mark_m - range.nearest_m) / (range.farthest_m - range.nearest_m));
}

double TradeoffScales::y_from_f_number(double f_number) const {
    const plan::TradeoffRange& range = answer_.range;
    return y_from_share(std::log(f_number / range.widest_f_number) /
                        std::log(range.narrowest_f_number / range.widest_f_number));
}

Point2 TradeoffScales::page_from_samples(const Point2& place) const {
    return {x_from_share(place.x / static_cast<double>(answer_.samples.distances - 1)),
            y_from_share(place.y / static_cast<double>(answer_.samples.f_numbers - 1))};
}

std::optional<double> TradeoffScales::x_framing_alike(double focal_length_mm) const {
    const auto& framing_mm = answer_.samples.framing_focal_length_mm;
    for (std::size_t i = 0; i + 1 < framing_mm.size(); ++i)
        if (framing_mm[i] <= focal_length_mm && focal_length_mm <= framing_mm[i + 1]) {
            const double share =
                (focal_length_mm - framing_mm[i]) / (framing_mm[i + 1] - framing_mm[i]);
            return page_from_samples({static_cast<double>(i) + share, 0}).x;
        }
    return std::nullopt;
}

double TradeoffScales::x_from_share(double share) const {
    return frame_.left + share * (frame_.right - frame_.left);
}

double TradeoffScales::y_from_share(double share) const {
    return frame_.bottom - share * (frame_.bottom - frame_.top);
}

}  // namespace backrow::report
