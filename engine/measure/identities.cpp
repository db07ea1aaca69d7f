#include "measure/identities.h"

#include <algorithm>

namespace backrow::measure {

long count_identity(const Image<std::uint32_t>& identities, std::uint32_t identity) noexcept {
    return std::count(identities.pixels().begin(), identities.pixels().end(), identity);
}

RowSpan rows_of_identity(const Image<std::uint32_t>& identities, std::uint32_t identity) noexcept {
    const auto& pixels = identities.pixels();
    const auto first = std::find(pixels.begin(), pixels.end(), identity);
    if (first == pixels.end())
        return {};
    const auto last = std::find(pixels.rbegin(), pixels.rend(), identity);
    return {.first = static_cast<int>((first - pixels.begin()) / identities.width_px()),
            .end =
                static_cast<int>((last.base() - 1 - pixels.begin()) / identities.width_px()) + 1};
}

}  // namespace backrow::measure
