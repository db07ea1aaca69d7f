#pragma once

// How a colour channel becomes sixteen bits, wherever triangles leave the program.

#include <cstdint>

namespace backrow::shapes {

/// A normalised unsigned integer, as OpenGL and glTF read them: value / 65535. The renderer and the
/// glTF export share this one rounding, so that picture and export agree to the bit.
///
/// unit      0 … 1; values outside go to the nearer end, NaN to 0
/// returns   the nearest of the 65536 steps
/// source    [GLTF2] §3.11 (animations): int = round(f · 65535)
[[nodiscard]] constexpr std::uint16_t unorm16_from_unit(float unit) noexcept {
    if (!(unit > 0.0f))
        return 0;
    if (unit >= 1.0f)
        return 65535;
    return static_cast<std::uint16_t>(unit * 65535.0f + 0.5f);
}

}  // namespace backrow::shapes
