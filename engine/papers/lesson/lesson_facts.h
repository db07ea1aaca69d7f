#pragma once

// The numbers of a lesson on distance and aperture: what faces and odds say of the scene, from
// several distances and at several apertures.

#include "plan/comparing/strip.h"
#include "plan/faces/face_table.h"
#include "plan/odds/odds.h"
#include "scene/scene.h"

#include "optics/blur/viewing.h"
#include "optics/exposure/right_exposure.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace backrow::papers {

/// Which aperture keeps everybody as good as this, when all are fine already: crisp.
struct ApertureExercise {
    optics::Grade grade = optics::Grade::fine;
    std::size_t most_blurred = 0;        ///< Index in Scene::people.
    double times_limit = 0;              ///< That blur against the largest that earns the grade.
    std::optional<double> f_number{};    ///< plan::f_number_for_margin() of no margin.
    double stops_lost = 0;               ///< There, against the scene's own opening.
    optics::ExposureSetting exposure{};  ///< What suits the light there.
};

/// On what to focus for the nearest eye and the farthest to be equally sharp.
struct FocusExercise {
    double nearest_m = 0;  ///< Axial, of everybody's nearer eye.
    double farthest_m = 0;
    double focus_m = 0;
    double blur_px = 0;  ///< Of both, focused so; camera pixels.
};

/// How many frames it takes with the answer to the first exercise, or as the scene is set.
struct FramesExercise {
    double f_number = 0;
    double eyes_open_each = 0;  ///< Chance that one person's eyes are open in a frame.
    plan::Odds odds{};          ///< That every face is fine and every eye open.
};

struct LessonFacts {
    scene::Scene scene{};
    std::size_t rows = 0;  ///< scene::as_they_stand()
    plan::FaceTable table{};
    plan::Strip strip{};           ///< The nearest place and the widest aperture first.
    std::size_t own_place = 0;     ///< Index of the scene's own distance …
    std::size_t own_aperture = 0;  ///< … and aperture.
    ApertureExercise aperture{};
    FocusExercise focus{};
    FramesExercise frames{};
};

/// Up to three distances and apertures: the scene's own, and those that halve its blur and double
/// it. A distance is √2 times the next, to the centimetre, an aperture two stops wider. Nobody
/// whose head is whole in the picture now is cut from nearer, else both other distances are
/// farther; no aperture is narrower than f/16 or than the lens closes, else another is wider.
[[nodiscard]] LessonFacts lesson_facts(const scene::Scene& scene);

}  // namespace backrow::papers
