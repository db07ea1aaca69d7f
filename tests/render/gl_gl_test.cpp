#include "render/driver/gl.h"
#include "render/passes/lens_samples.h"

#include "test_stage.h"

#include <catch2/catch.hpp>

#include <new>
#include <stdexcept>

using namespace backrow;
using namespace backrow::render;

TEST_CASE("graphics memory that runs out is memory that runs out", "[render][property]") {
    const Bench bench;
    // Four floats for each of 16384 × 16384 texels and all that lies behind them are 4 GB and more;
    // a software rasteriser takes a part of that, a graphics card may have it.
    const int texels = bench.gl().largest_texture_texels;
    if (bench.gl().on_processor)
        CHECK_THROWS_AS(make_texture(bench.gl(), GL_RGBA32F, texels, texels, GL_NEAREST, "large"),
                        std::bad_alloc);
    CHECK_NOTHROW(require_no_gl_error());
}

TEST_CASE("what cannot be drawn into is refused when it is made", "[render][property]") {
    const Bench bench;
    // Shared exponents can be read, never written.
    const Texture colour =
        make_texture(bench.gl(), GL_RGB9_E5, 16, 16, GL_NEAREST, "shared exponents");
    CHECK_THROWS_AS(make_framebuffer(bench.gl(), colour.name(), 0, "of shared exponents"),
                    std::runtime_error);
    CHECK_NOTHROW(require_no_gl_error());
}

TEST_CASE("a picture after an error of the driver is none", "[render][property]") {
    const Bench bench;
    constexpr GLenum no_such_thing = 0xFFFF;
    stage::Stage stage;
    stage.parts.push_back(board(-1, -1, 1, 1, 3, {0.5F, 0.5F, 0.5F}));
    const scene::CameraView view = straight_camera(2, 3);
    const auto picture = [&] {
        return bench.flat(stage, view, whole_frame(view, 30, 20), make_lens_samples(4, 4, {}));
    };
    CHECK_NOTHROW(picture());
    glEnable(no_such_thing);
    CHECK_THROWS_AS(picture(), std::runtime_error);
    CHECK_NOTHROW(picture());
}
