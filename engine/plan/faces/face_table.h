#pragma once

// The face table: for everybody, how blurred the nearer eye is predicted to be and what that means
// for the way the picture will be seen. Closed forms and solids; no pixels.

#include "plan/faces/cropping.h"
#include "plan/faces/face_light.h"
#include "plan/faces/margin.h"
#include "plan/faces/metering.h"
#include "plan/faces/stretch.h"
#include "scene/camera_view.h"
#include "scene/scene.h"

#include "optics/blur/sharp_zone.h"
#include "optics/blur/viewing.h"

#include <optional>
#include <string>
#include <vector>

namespace backrow::plan {

/// One person's row. Whoever is beside or behind the lens has no image: no head in it, infinitely
/// blurred, lost.
struct Face {
    std::string name;
    scene::FromMark eye;  ///< The nearer eye.
    double axial_m = 0;
    double offset_mm = 0;           ///< + behind the plane of focus.
    double from_best_focus_mm = 0;  ///< + behind FaceTable::best_focus_m.
    Cropping cropping{};
    double predicted_blur_um = 0;
    double predicted_blur_px = 0;      ///< Camera pixels.
    double blur_defocus_px = 0;        ///< What of it another focus would take away, …
    double blur_lens_px = 0;           ///< … and what the lens leaves; they add as squares.
    optics::JudgedBlur judged_blur{};  ///< With diffraction, as are margin and grade.
    double visible_fraction = 0;       ///< Share of the face not hidden behind others.
    /// Who and what hides a fifth of it or more, or else whoever hides most; the most first. Models
    /// go by their file's name.
    std::vector<std::string> hiders{};
    double stretch = 1;  ///< stretch_of() the head.
    FaceLight light{};
    std::vector<std::string> shaders{};  ///< Whose shadow lies on it; named as hiders are.
    double face_height_px = 0;           ///< Chin to crown, camera pixels.
    Margin margin{};                     ///< Within "fine".
    double head_near_mm = 0;             ///< Of nose tip, eyes and ears what is nearest to the
    double head_far_mm = 0;              ///< camera and what is farthest; + behind the plane.
    bool whole_head_fine = false;        ///< Both within "fine" where this face is.
    optics::Grade grade = optics::Grade::crisp;
};

struct FaceTable {
    std::string title;
    double focus_m = 0;
    optics::AxialRange zone;  ///< For the "fine" limit, axial, by defocus alone.
    double best_focus_m =
        0;  ///< Where the lens is sharpest in the middle of the picture; as focus_m
            ///< where it is perfect. Infinite where it is so beyond infinity.
    optics::AxialRange best_zone{};  ///< As zone, round best_focus_m.
    double hyperfocal_m = 0;         ///< Likewise.
    double diffraction_mm =
        0;  ///< The blur that it counts for, on the sensor; 0 where it does not.
    Metering metering;
    std::vector<Face> faces;  ///< In the order of Scene::people.
    std::optional<StretchMend> stretch_mend{};
};

/// view  camera_view() of this scene, or the same with another focus or f-number to compare
[[nodiscard]] FaceTable face_table(const scene::Scene& scene, const scene::CameraView& view);

}  // namespace backrow::plan
