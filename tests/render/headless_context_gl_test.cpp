#include "render/driver/headless_context.h"

#include <catch2/catch.hpp>
#include <glad/egl.h>

#include <array>
#include <future>
#include <thread>
#include <vector>

using namespace backrow::render;

namespace {

bool is_open(EGLDisplay display) {
    return eglQueryString(display, EGL_VERSION) != nullptr;
}

/// Opens a context on another thread and shuts it there; whether it could be opened.
bool open_and_shut_elsewhere() {
    return std::async(std::launch::async, [] { return HeadlessContext::make().has_value(); }).get();
}

}  // namespace

TEST_CASE("a display stays open for whoever still uses it, and no longer", "[render][property]") {
    EGLDisplay display = EGL_NO_DISPLAY;
    {
        const auto context = HeadlessContext::make();
        REQUIRE(context);
        display = eglGetCurrentDisplay();
        REQUIRE(is_open(display));
        for (int i = 0; i < 3; ++i) {
            REQUIRE(open_and_shut_elsewhere());
            REQUIRE(is_open(display));
        }
        // What was made before is still there, and more can be made.
        const std::array<float, 4> numbers{1, 2, 3, 4};
        const Buffer buffer = make_buffer(context->gl(), numbers.data(), sizeof numbers, "numbers");
        std::array<float, 4> back{};
        glGetNamedBufferSubData(buffer.name(), 0, sizeof back, back.data());
        CHECK(back == numbers);
    }
    CHECK_FALSE(is_open(display));
    CHECK_NOTHROW(require_no_gl_error());
}

TEST_CASE("no thread that opens or shuts a context spoils another's", "[render][property]") {
    std::vector<std::future<int>> opened;
    for (int thread = 0; thread < 4; ++thread)
        opened.push_back(std::async(std::launch::async, [] {
            int count = 0;
            for (int i = 0; i < 8; ++i)
                if (const auto context = HeadlessContext::make()) {
                    const Texture texture =
                        make_texture(context->gl(), GL_R32F, 16, 16, GL_NEAREST, "a little work");
                    glFinish();
                    count += glGetError() == GL_NO_ERROR ? 1 : 0;
                }
            return count;
        }));
    for (auto& count : opened)
        CHECK(count.get() == 8);
    CHECK_NOTHROW(require_no_gl_error());
}
