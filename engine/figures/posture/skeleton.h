#pragma once

// Joints of a posed person: what reference points, solids and meshes are all hung upon.
//
// Figure space, metres. "Left" and "right" are the person's own; sides are indexed 0 = left
// (towards +x when unturned), 1 = right.

#include "figures/figure.h"

#include <glm/mat3x3.hpp>
#include <glm/vec3.hpp>

#include <array>

namespace backrow::figures {

/// What is left of the body when its joints are taken away: lengths and thicknesses.
struct Build {
    double hip_height_m = 0;     ///< Standing.
    double seat_to_hip_m = 0;    ///< Seat to hip joint.
    double trunk_m = 0;          ///< Hip axis to the ears' axis, straight.
    double shoulder_up_m = 0;    ///< Hip axis to the shoulder joints, straight.
    double shoulder_half_m = 0;  ///< Mid-line to shoulder joint.
    double hip_half_m = 0;       ///< Mid-line to hip joint.
    double thigh_m = 0, shank_m = 0, ankle_height_m = 0;
    double upper_arm_m = 0, forearm_m = 0, hand_m = 0, foot_m = 0;
    double flesh = 1;      ///< Thickness of limbs against a median adult's.
    double childhood = 0;  ///< 1 at two years … 0 grown up.
};

/// Orthonormal; columns are the person's left, up and forward.
using Axes = glm::dmat3;

struct Arm {
    glm::dvec3 shoulder_m, elbow_m, wrist_m;
    glm::dvec3 fingers;  ///< Unit, wrist to knuckles.
    glm::dvec3 palm;     ///< Unit, out of the palm.
};

struct Leg {
    glm::dvec3 hip_m, knee_m, ankle_m;
    glm::dvec3 toes;  ///< Unit, heel to toes.
    glm::dvec3 sole;  ///< Unit, out of the sole.
};

struct Skeleton {
    Build build;
    glm::dvec3 hips_m;  ///< Middle of the hip axis.
    Axes pelvis;
    Axes trunk;
    glm::dvec3 head_m;  ///< Middle of the ears' axis.
    Axes head;
    std::array<Arm, 2> arms;
    std::array<Leg, 2> legs;
    double seat_m = 0;  ///< How high the seat is; 0 where there is none.

    /// A point given in the trunk's own axes from the middle of the hips, metres.
    [[nodiscard]] glm::dvec3 on_trunk(const glm::dvec3& local_m) const {
        return hips_m + trunk * local_m;
    }
};

[[nodiscard]] Build build_of(const BodyMeasures& measures);

/// The leans are tilts of the trunk about the hips, along and across the line of sight; the head
/// stays level, hips and feet stay where they are. A short trunk cannot carry its head further than
/// its own length: the tilt ends at 65°, the lean sideways giving way to the other.
[[nodiscard]] Skeleton skeleton(const Person& person);

}  // namespace backrow::figures
