#pragma once

// Work for the driver, one piece ahead of what it has finished: it sorts the triangles of one
// while those of the one before are filled in, and no more, since a driver without a card would put
// everything off to the end.

#include "render/driver/gl.h"

#include <memory>
#include <type_traits>

namespace backrow::render {

/// The context must be current whenever it is used or destroyed.
class ShortQueue {
public:
    /// After each piece of work: waits until the one before is finished.
    void one_more() {
        constexpr GLuint64 as_long_as_it_takes_ns = ~GLuint64{0};
        if (before_)
            glClientWaitSync(before_.get(), GL_SYNC_FLUSH_COMMANDS_BIT, as_long_as_it_takes_ns);
        before_.reset(glFenceSync(GL_SYNC_GPU_COMMANDS_COMPLETE, 0));
        glFlush();
    }

private:
    struct Delete {
        void operator()(GLsync fence) const noexcept { glDeleteSync(fence); }
    };
    std::unique_ptr<std::remove_pointer_t<GLsync>, Delete> before_;
};

}  // namespace backrow::render
