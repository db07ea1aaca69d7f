#pragma once

// A group as it is put together and written down: rows of people with what is known about each, and
// the camera in front of them. A scene file says exactly this; a Scene has it worked out.

#include "scene/scene.h"
#include "scene/words.h"

#include <optional>
#include <string>
#include <vector>

namespace backrow::scene {

/// What is known about somebody, before they have a place.
struct Guest {
    std::string name;
    std::optional<double> stature_m{};
    std::optional<double> age_years{};
    figures::Sex sex = figures::Sex::neutral;
    std::optional<figures::Posture> posture{};  ///< None: that of the row.
    std::string family{};                       ///< Empty for none.
    Company company{};
    std::string carried_by{};  ///< Who carries this child; empty for nobody.
};

struct PlannedRow {
    double back_m = 0;
    double up_m = 0;
    bool stagger = false;
    figures::Posture posture = figures::Posture::standing;
    double lean_m = 0;
    std::vector<Guest> people;  ///< From picture left to right.
};

struct GroupPlan {
    std::string title;
    Camera camera;  ///< Aimed at the group, as its default is.
    scene::Use use = scene::Use::album;
    double spacing_m = 0.55;
    std::vector<PlannedRow> rows;  ///< From front to back.
    std::vector<Guest> carried{};  ///< Each by somebody who stands in a row.
    setting::Ground ground = setting::Ground::grass;
    setting::Backdrop backdrop;
};

/// As the plan has them: their own, or else that of the row.
[[nodiscard]] figures::Posture posture_of(const Guest& guest, const PlannedRow& row);

/// The scene that the plan's file reads back as: everybody in place, balanced focus.
[[nodiscard]] Scene scene_of(const GroupPlan& plan);

}  // namespace backrow::scene
