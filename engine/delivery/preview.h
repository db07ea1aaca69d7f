#pragma once

// A preview: the picture of a scene, what is measured in it of every face, and each face at 100 %.

#include "delivery/step.h"

#include "plan/faces/face_table.h"
#include "render/driver/progress.h"
#include "render/passes/picture.h"
#include "render/passes/sample_choice.h"
#include "report/faces/face_report.h"
#include "report/faces/faces_sheet.h"
#include "scene/camera_view.h"
#include "scene/scene.h"
#include "stage/stage.h"

#include <vector>

namespace backrow::delivery {

/// What is wanted of the faces, each with what stands before it.
enum class FacesWanted { none, measured, pictured };

struct PreviewWanted {
    int width_texels = 1920;  ///< Of the picture; its height follows.
    int samples = 0;          ///< Points of the lens; 0: until the picture is good.
    render::Quality quality = render::Quality::fine;
    render::Look look = render::Look::lit;
    render::KeepLinear keep_linear = render::KeepLinear::no;
    FacesWanted faces = FacesWanted::measured;
};

struct Preview {
    render::Picture picture;
    report::Rendered numbers;                ///< One measured blur for each face, where wanted.
    std::vector<report::FacePicture> faces;  ///< Where they were to be pictured.
};

/// stage   build_stage() of this scene and view
/// table   face_table() of them; what is measured of how much of a face can be seen goes into it
[[nodiscard]] render::Finished<Preview>
make_preview(const scene::Scene& scene, const scene::CameraView& view, const stage::Stage& stage,
             const PreviewWanted& wanted, plan::FaceTable& table, const StepProgress& progress);

}  // namespace backrow::delivery
