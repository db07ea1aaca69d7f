#pragma once

// The heads of a group in profile, to scale, as a photographer sees them who walks round to picture
// right to check a line-up: away from the camera is to the right.
//
// Everything is seen across the camera's own axis, along the ground, so that the plane of focus,
// however far the camera is tilted, is a straight line, and a head lies as far from it on the paper
// as it does along the axis. How deep a lens with a curved field is sharp is drawn as it is in the
// middle of the picture; at the sides the grade of each head tells.

#include "plan/drawings/drawing.h"

#include "plan/faces/face_table.h"
#include "plan/faces/verdict.h"
#include "scene/camera_view.h"
#include "scene/scene.h"

#include <optional>
#include <vector>

namespace backrow::plan {

struct HeadFromTheSide {
    DrawingPoint nearer_eye;
    DrawingPoint nose_tip;
    DrawingPoint farther_ear;
    DrawingPoint chin;
    DrawingPoint crown;
    double height_m;  ///< Chin to crown, as it was measured.
    int row;          ///< As Person::row.
    Verdict verdict;
};

struct FromTheSide {
    DrawingPoint lens;                   ///< x is 0: distances are counted from here.
    Line axis;                           ///< From the lens to behind the farthest head.
    std::optional<Line> plane_of_focus;  ///< As high as the frame; nothing if behind the axis' end.
    DrawnZone crisp;                     ///< From the bottom of the frame to the top, no farther
    DrawnZone fine;                      ///< than the axis goes.
    std::vector<HeadFromTheSide> heads;  ///< In the order of Scene::people.
    Extent heads_extent;                 ///< All of them, hair and hats as far as a hand's breadth.
};

/// view   camera_view() of this scene
/// table  face_table() of both
[[nodiscard]] FromTheSide from_the_side(const scene::Scene& scene, const scene::CameraView& view,
                                        const FaceTable& table);

}  // namespace backrow::plan
