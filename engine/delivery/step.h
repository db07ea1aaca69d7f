#pragma once

// How far the making of pictures has come, step by step.

#include <functional>

namespace backrow::delivery {

enum class Step { light, picture, faces, frames };

/// Told the share of the step done, 0 … 1, often; returns false to stop.
using StepProgress = std::function<bool(Step step, double done)>;

/// "Light and shadow".
[[nodiscard]] constexpr const char* to_words(Step step) noexcept {
    switch (step) {
    case Step::light:
        return "Light and shadow";
    case Step::picture:
        return "Picture";
    case Step::faces:
        return "Faces";
    case Step::frames:
        break;
    }
    return "Frames and their faces";
}

}  // namespace backrow::delivery
