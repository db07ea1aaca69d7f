#pragma once

// How bright a colour is.

#include <array>

namespace backrow {

/// Shares of red, green and blue, linear. Source: [IEC61966].
inline constexpr std::array<double, 3> luminance_shares{0.2126, 0.7152, 0.0722};

}  // namespace backrow
