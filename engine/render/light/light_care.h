#pragma once

// How much trouble light is worth.

namespace backrow::render {

/// Rough: a few shadow maps, in a fifth of the time or less.
enum class LightCare { full, rough };

}  // namespace backrow::render
