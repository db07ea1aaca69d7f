#pragma once

// OpenGL without any window system: EGL on a graphics card if there is one, else on Mesa's software
// rasteriser.

#include "render/driver/gl.h"

#include "base/problem.h"

#include <memory>

namespace backrow::render {

/// A context current on this thread for as long as it lives. Threads may have one each.
class HeadlessContext {
public:
    /// Fails where the machine has no OpenGL 4.5, saying what to install.
    [[nodiscard]] static Made<HeadlessContext> make();

    HeadlessContext(HeadlessContext&&) noexcept;
    HeadlessContext& operator=(HeadlessContext&&) noexcept;
    ~HeadlessContext();

    [[nodiscard]] const Gl& gl() const noexcept;

private:
    struct State;
    explicit HeadlessContext(std::unique_ptr<State> state) noexcept;
    std::unique_ptr<State> state_;
};

}  // namespace backrow::render
