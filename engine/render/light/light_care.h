#pragma once

// How much trouble light is worth.

namespace backrow::render {

/// Rough: a few shadow maps, in a fifth of the time or less. Unshadowed: none, at once.
enum class LightCare { full, rough, unshadowed };

}  // namespace backrow::render
