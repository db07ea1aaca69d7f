#pragma once

// Counting whose pixels are whose in a picture of identities.

#include "base/image.h"

#include <cstdint>

namespace backrow::measure {

/// How many pixels carry this identity.
[[nodiscard]] long count_identity(const Image<std::uint32_t>& identities,
                                  std::uint32_t identity) noexcept;

/// First and one-past-last row that carries it; both 0 where none does.
struct RowSpan {
    int first = 0;
    int end = 0;
};
[[nodiscard]] RowSpan rows_of_identity(const Image<std::uint32_t>& identities,
                                       std::uint32_t identity) noexcept;

}  // namespace backrow::measure
