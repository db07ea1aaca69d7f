#pragma once

// A camera and simple stages for the renderer's tests.

#include "render/driver/headless_context.h"
#include "render/passes/picture.h"
#include "stage/stage.h"

#include <catch2/catch.hpp>

#include <vector>

namespace backrow::render {

/// 50 mm on 36 × 24 mm, 6000 × 4000 pixels, at the origin, looking along −z.
inline scene::CameraView straight_camera(double f_number, double focus_m) {
    scene::CameraView view;
    view.lens.f_number = f_number;
    view.lens.focus_m = focus_m;
    view.lens.profile.widest_f_number = f_number;
    return view;
}

/// A rectangle facing the camera at depth_m, corners given in metres across and up.
inline stage::Part board(double left_m, double bottom_m, double right_m, double top_m,
                         double depth_m, const glm::vec3& colour) {
    stage::Part part;
    const auto z = static_cast<float>(-depth_m);
    for (const auto& [x, y] : {std::pair{left_m, bottom_m}, std::pair{right_m, bottom_m},
                               std::pair{right_m, top_m}, std::pair{left_m, top_m}}) {
        shapes::Vertex vertex;
        vertex.position_m = {static_cast<float>(x), static_cast<float>(y), z};
        vertex.normal = {0, 0, 1};
        vertex.colour = colour;
        part.mesh.vertices.push_back(vertex);
    }
    part.mesh.indices = {0, 1, 2, 0, 2, 3};
    return part;
}

/// A closed convex lamp: an octahedron.
inline stage::Part lamp(const glm::vec3& centre_m, float radius_m, float emission) {
    stage::Part part;
    part.role = stage::Role::highlight;
    part.material.base_colour = glm::vec3{0};
    part.material.emission = glm::vec3{emission};
    for (const glm::vec3& way : {glm::vec3{1, 0, 0}, glm::vec3{-1, 0, 0}, glm::vec3{0, 1, 0},
                                 glm::vec3{0, -1, 0}, glm::vec3{0, 0, 1}, glm::vec3{0, 0, -1}}) {
        shapes::Vertex vertex;
        vertex.position_m = centre_m + way * radius_m;
        vertex.normal = way;
        part.mesh.vertices.push_back(vertex);
    }
    part.mesh.indices = {0, 2, 4, 2, 1, 4, 1, 3, 4, 3, 0, 4, 2, 0, 5, 1, 2, 5, 3, 1, 5, 0, 3, 5};
    return part;
}

/// For work that nobody stops.
inline bool carry_on(double) {
    return true;
}

inline Lighting light_of(const Gl& gl, StageOnGpu& stage, Look look,
                         const scene::CameraView& view) {
    auto lighting = Lighting::make(gl, stage, look, view.position_m, carry_on);
    REQUIRE(lighting);
    return std::move(*lighting);
}

/// A context, and flat pictures of stages.
class Bench {
public:
    Bench() : context_{make_context()}, programs_{make_programs(context_.gl())} {}

    [[nodiscard]] const Gl& gl() const { return context_.gl(); }
    [[nodiscard]] const PicturePrograms& programs() const { return programs_; }

    [[nodiscard]] Picture flat(const stage::Stage& stage, const scene::CameraView& view,
                               const CropRect& crop, const LensSamples& samples) const {
        StageOnGpu on_gpu{gl(), stage};
        const Lighting lighting = light_of(gl(), on_gpu, Look::flat, view);
        auto picture = make_picture({gl(), programs_, on_gpu, lighting}, view, crop, samples,
                                    KeepLinear::yes, carry_on);
        REQUIRE(picture);
        CHECK_NOTHROW(require_no_gl_error());
        return std::move(*picture);
    }

private:
    static HeadlessContext make_context() {
        auto context = HeadlessContext::make();
        REQUIRE(context);
        return std::move(*context);
    }
    static PicturePrograms make_programs(const Gl& gl) {
        auto programs = PicturePrograms::make(gl, Look::flat);
        REQUIRE(programs);
        return std::move(*programs);
    }
    HeadlessContext context_;
    PicturePrograms programs_;
};

}  // namespace backrow::render
