#pragma once

// What a hand does with a pointer on a drawing: what it grips where the button is pressed, and the
// change of the scene for wherever it is dragged. The one place where dragging becomes a change:
// whoever has a pointer, a window or a test, keeps the Drag until the button is let go.

#include "plan/drawings/drawing.h"
#include "rehearsal/hands/handling.h"
#include "rehearsal/sitting/edited_scene.h"
#include "rehearsal/sitting/facts.h"

#include "scene/scene.h"

#include <cstddef>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace backrow::rehearsal {

/// Where a pointer is on a drawing, and what is pressed with it.
struct Pointer {
    plan::DrawingPoint at{};
    double reach_m = 0;  ///< How near to a thing it grips it.
    bool with_ctrl = false;
    bool with_shift = false;
};

// What can be gripped. What lies beside the pointer then stays as far beside it, so that nothing
// jumps under the hand.

/// From above: somebody, who is led. People go by their names: whoever changes rows has another
/// index from then on.
struct PersonGrip {
    std::string person;
    plan::DrawingPoint beside;          ///< From the pointer to the person's place.
    std::vector<std::string> others{};  ///< Who go by the same steps.
};
/// From above: the lens, with the camera behind it.
struct LensGrip {
    plan::DrawingPoint beside;
};
/// From above: the plane of focus, which goes where the pointer is.
struct FocusGrip {};
/// From the side: a head with its body under it, which is led forward and back.
struct ProfileGrip {
    std::string person;
    double back_beside_m;
};
/// From the side: a head that is leant.
struct LeanGrip {
    std::string person;
    double lean_beside_m;
};
/// In the picture: somebody by the face. Counted in camera pixels.
struct FaceGrip {
    std::string person;
    plan::DrawingPoint beside_px;       ///< From the pointer to the nearer eye.
    std::vector<std::string> others{};  ///< Who go by the same steps.
};
/// From above: the sun, which is led round the group.
struct SunGrip {
    double beside_deg;  ///< From the pointer's azimuth to the sun's.
};
/// From above: the window of a room, which always faces the mark.
struct WindowGrip {
    plan::DrawingPoint beside;  ///< From the pointer to the window's middle.
};
/// From above: a model.
struct ModelGrip {
    std::size_t number;
    plan::DrawingPoint beside;
};
/// From above: a backdrop, which goes forward and back.
struct BackdropGrip {
    std::size_t number;
    double back_beside_m;
};
using Grip = std::variant<PersonGrip, LensGrip, FocusGrip, ProfileGrip, LeanGrip, FaceGrip, SunGrip,
                          WindowGrip, ModelGrip, BackdropGrip>;

/// Where a pointer that drags it is counted: metres, but in the picture camera pixels.
enum class Drawing { from_above, from_the_side, picture };
[[nodiscard]] Drawing drawing_of(const Grip& grip);

/// From the button's press until it is let go.
struct Drag {
    Grip grip;
    DragId id = 0;
};

/// What comes of pressing the button.
struct Press {
    std::vector<std::size_t> chosen{};  ///< Who is chosen from now on, whoever was pressed last.
    std::optional<Grip> grip{};
};

/// Grips whoever is there, else the lens, sun or window, else the plane of focus, else a model or
/// a backdrop; nobody is chosen any more where nothing is. Of several who are chosen, all are
/// gripped. With Ctrl, whoever is there is chosen as well, or no longer.
///
/// facts   facts_of() this scene
/// chosen  who is chosen so far, indices in Scene::people
[[nodiscard]] Press press_from_above(const scene::Scene& scene, const Facts& facts,
                                     const Pointer& pointer,
                                     const std::vector<std::size_t>& chosen);

/// Grips the head that is there, with Shift to lean it.
[[nodiscard]] Press press_from_the_side(const scene::Scene& scene, const Facts& facts,
                                        const Pointer& pointer);

/// Grips the face that is there, found by whoever has drawn the picture.
///
/// person   index in Scene::people
/// pointer  camera pixels from the top-left corner
[[nodiscard]] Press press_on_face(const scene::Scene& scene, const Facts& facts,
                                  const Pointer& pointer, std::size_t person,
                                  const std::vector<std::size_t>& chosen);

/// What dragging there does to the scene as it has become meanwhile; no values where that is
/// nothing new.
///
/// From above and in the picture, people keep to the line of their row. Past a neighbour they stand
/// on their other side, and nearer to the line of another row than to their own in that one. With
/// Shift they are led freely, and stay with their row: from above to where the pointer is, in the
/// picture sideways, and upwards for away from the camera.
///
/// facts    facts_of() this scene
/// pointer  on drawing_of() the grip
[[nodiscard]] Change drag_to(const scene::Scene& scene, const Facts& facts, const Grip& grip,
                             const Pointer& pointer);

}  // namespace backrow::rehearsal
