#pragma once

// The scene seen from above, as shapes to draw to scale: who stands where, what the frame takes in,
// where the focus lies and how deep it is sharp.
//
// Everything of the camera is drawn as it cuts one level, the mean height of the eyes: a camera
// that looks down from upstairs has a plane of focus that leans, and at the height of the feet it
// would lie elsewhere. Faces well above or below that level are judged by their own colour, which
// comes from the face table, and by the steps that are left to them; or the drawing is asked for at
// the level of one of them.

#include "plan/drawings/drawing.h"
#include "plan/drawings/model_outlines.h"

#include "plan/faces/face_table.h"
#include "plan/faces/verdict.h"
#include "scene/camera_view.h"
#include "scene/scene.h"

#include "setting/surroundings.h"

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace backrow::plan {

struct PersonFromAbove {
    DrawingPoint place;       ///< Of the feet, where the scene puts the person.
    DrawingPoint shoulders;   ///< Half way between them.
    double half_breadth_m;    ///< From the middle to the outside of an upper arm.
    double half_depth_m;      ///< Of the chest.
    DrawingPoint body_faces;  ///< Unit.
    DrawingPoint head;        ///< Half way between the ears.
    double head_half_breadth_m;
    double head_half_length_m;
    DrawingPoint head_faces;  ///< Unit.
    DrawingPoint nearer_eye;
    int row;  ///< As Person::row.
    Verdict verdict;
    double predicted_blur_px;  ///< Camera pixels; infinite beside or behind the lens.
    double visible_fraction;   ///< Share of the face not hidden behind others.
    /// How far the person may step along the ground and stay fine: towards the camera side and
    /// away from it, at this height. 0 for whoever is not; may be infinite.
    double forward_m;
    double back_m;
};

/// The line on which a row stands before anybody steps out of it.
struct RowFromAbove {
    int row;    ///< As Person::row.
    Line line;  ///< From the place at picture left to that at picture right.
    double up_m;
};

struct BackdropFromAbove {
    setting::BackdropKind kind;
    Line line;  ///< As far as the frame can show it; a photograph as wide as it is.
};

/// The sun on a ring round everybody: it shines from there towards the middle.
struct SunFromAbove {
    DrawingPoint middle;
    double radius_m = 0;
    DrawingPoint at;    ///< On the ring.
    bool is_up = true;  ///< Above the horizon.
    bool casts = true;  ///< Shadows: it is up, and no cloud before it.
};

struct FromAbove {
    double level_m = 0;  ///< Above the ground at the mark; at which the camera's shapes are drawn.
    DrawingPoint lens;
    DrawingPoint looks;  ///< Unit, along the ground.
    /// What the frame takes in at this level, nearest left and right, farthest right and left;
    /// nothing where it takes in none of it. Where it would not end, it ends behind the farthest
    /// backdrop, or half as far again as the farthest face.
    std::optional<std::array<DrawingPoint, 4>> frame;
    std::optional<Line> plane_of_focus;  ///< Within the frame; nothing where it lies outside.
    DrawnZone crisp;                     ///< Within the frame, from left to right.
    DrawnZone fine;
    std::vector<PersonFromAbove> people;  ///< In the order of Scene::people.
    std::vector<RowFromAbove> rows;
    std::vector<setting::Block> risers;
    std::vector<setting::Block> seats;
    std::vector<BackdropFromAbove> backdrops;  ///< In the order of the scene's.
    /// In the order of the scene's; nothing where an outline is not known.
    std::vector<std::optional<std::array<DrawingPoint, 4>>> models;
    std::optional<SunFromAbove> sun;  ///< Under the open sky …
    std::optional<Line> window;       ///< … or the window of a room.
};

/// Quick enough to ask at every change of the scene: under a millisecond for forty people.
///
/// view     camera_view() of this scene
/// table    face_table() of both
/// models   outlines_of() the files that the scene names, read once; those left out are not drawn
/// level_m  above the ground at the mark, as of the eyes of somebody who is being led; none: the
///          mean height of all eyes
[[nodiscard]] FromAbove from_above(const scene::Scene& scene, const scene::CameraView& view,
                                   const FaceTable& table, const ModelOutlines& models = {},
                                   std::optional<double> level_m = {});

/// The lens, the people and what they stand on, sun and window: what has to be seen. Backdrops and
/// models may lie far away.
[[nodiscard]] Extent extent_of(const FromAbove& drawing);

}  // namespace backrow::plan
