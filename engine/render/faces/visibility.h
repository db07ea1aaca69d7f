#pragma once

// How much of each face can be seen, counted in pixels: the face alone, then with everybody and
// everything in front of it.

#include "render/driver/gl.h"
#include "render/studio/stage_on_gpu.h"

#include "scene/camera_view.h"

#include "base/problem.h"

namespace backrow::render {

class Visibility {
public:
    [[nodiscard]] static Made<Visibility> make(const Gl& gl);

    /// Share of the pixels of this person's face, through the middle of the lens, that nobody and
    /// nothing else hides; hair and hat of their own do not count as hiding. 0 … 1.
    /// The frame's edge hides nothing: see plan::Cropping.
    [[nodiscard]] double measured_visible_fraction(const Gl& gl, const StageOnGpu& stage,
                                                   const scene::CameraView& view,
                                                   const scene::Person& person,
                                                   int person_index) const;

private:
    explicit Visibility(Program program) : program_{std::move(program)} {}
    Program program_;
};

}  // namespace backrow::render
