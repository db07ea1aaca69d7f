#pragma once

// A picture where the window's toolkit can draw it.

#include "render/driver/gl.h"

#include "base/image.h"

#include <imgui.h>

namespace backrow::window {

class ScreenPicture {
public:
    /// Takes these pixels instead of what it had. Needs the window's context, as all here does.
    void take(const Image<Rgb8>& pixels);
    [[nodiscard]] bool empty() const noexcept { return width_px_ == 0; }
    [[nodiscard]] int width_px() const noexcept { return width_px_; }
    [[nodiscard]] int height_px() const noexcept { return height_px_; }
    [[nodiscard]] ImTextureID id() const noexcept;

private:
    render::Texture texture_;
    int width_px_ = 0;
    int height_px_ = 0;
};

}  // namespace backrow::window
