#pragma once

// A person: measures and a pose in, reference points, solids and triangles out.
//
// Figure space: engine axes, metres, origin on the ground (or riser) under the person's place,
// which is where the ankle line, seat bones' plumb line and ears meet when standing straight.
// An unturned figure faces +z (the camera side). On a step the ground is what the feet stand on;
// whoever is carried is in the figure space of the one who carries.

#include "figures/head/face_motion.h"
#include "figures/measures/body_measures.h"
#include "figures/styling.h"

#include "shapes/mesh.h"

#include <glm/vec3.hpp>

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace backrow::figures {

/// Kneeling is on one knee; on the ground, with legs crossed; on a step, with the feet lower or as
/// high. The last two are children in somebody's arms or over their neck (carry.h).
enum class Posture {
    standing,
    seated,
    kneeling,
    crouching,
    kneeling_both,
    on_ground,
    on_step,
    on_hip,
    on_shoulders
};

[[nodiscard]] constexpr bool is_carried(Posture posture) noexcept {
    return posture == Posture::on_hip || posture == Posture::on_shoulders;
}

/// Where the arms are: hanging, hands folded low in front, behind the back, or crossed on the
/// chest. With the last two each hand lies where Pose::holds says, and does without what the
/// posture does.
enum class Arms { down, folded, behind, crossed, round_neighbours, hand_on_shoulder };

/// Where a hand goes and how it lies there. Figure space; the vectors need not be unit.
struct Hold {
    glm::dvec3 wrist_m;
    glm::dvec3 elbow;  ///< The side to which the elbow bends.
    glm::dvec3 fingers, palm;

    bool operator==(const Hold&) const = default;
};

/// How a child sits on somebody whose figure space it shares.
struct Seating {
    glm::dvec3 hips_m{0};  ///< Middle of the child's hip axis.
    double side = 1;       ///< On the hip: +1 on the left one, −1 on the right one.
    double chest_m = 0;    ///< On the shoulders: from the hips forward to what shins hang before.

    bool operator==(const Seating&) const = default;
};

struct Pose {
    Posture posture = Posture::standing;
    double turn_deg = 0;         ///< Whole body; + turns towards picture right. −180 … 180.
    double head_turn_deg = 0;    ///< Head on the body; + towards picture right. −80 … 80.
    double lean_m = 0;           ///< + carries the head away from the camera. −0.6 … 0.6.
    double lean_sideways_m = 0;  ///< + carries the head towards picture right. −0.6 … 0.6.
    std::optional<Arms> arms{};  ///< None: as goes with the posture, standing by name.
    std::optional<Expression> expression{};  ///< None: by name, between none and a light smile.
    std::optional<glm::dvec3> looks_at_m{};  ///< In figure space; none: straight ahead.
    /// Hands that lie on somebody, left and right; they go before whatever else the arms do.
    std::array<std::optional<Hold>, 2> holds{};
    double step_m = 0;  ///< On a step: its height over the feet. 0 … highest_step_m().
    Seating seating{};  ///< For whoever is carried.

    bool operator==(const Pose&) const = default;
};

/// Whether cloth of a skirt would have to lie on the ground, which this program cannot make.
[[nodiscard]] constexpr bool wears_trousers(Posture posture) noexcept {
    return posture != Posture::standing && posture != Posture::seated;
}

/// Somebody to be built. The name decides what the styling leaves open, the same in every run.
struct Person {
    std::string name;
    BodyMeasures measures;
    Pose pose;
    Styling styling{};

    bool operator==(const Person&) const = default;
};

/// Points a photographer focuses on. "Left" and "right" are the person's own.
struct ReferencePoints {
    glm::dvec3 left_eye_m;  ///< Front of the cornea.
    glm::dvec3 right_eye_m;
    glm::dvec3 nose_tip_m;
    glm::dvec3 left_ear_m;  ///< Tragus.
    glm::dvec3 right_ear_m;
    glm::dvec3 chin_m;
    glm::dvec3 crown_m;
};

/// Places of the body by which photographers say where a frame cuts somebody.
struct BodyMarks {
    glm::dvec3 chest_m;  ///< Between the arm pits.
    glm::dvec3 waist_m;
    std::array<glm::dvec3, 2> knees_m;
    std::array<glm::dvec3, 2> soles_m;  ///< Under the ankles.
};

/// A ball stretched between two points: what stands in for a body when asking who hides whom.
struct Capsule {
    glm::dvec3 from_m;
    glm::dvec3 to_m;
    double radius_m = 0;
};

/// A body as it stands, without triangles.
struct PosedBody {
    ReferencePoints points;
    BodyMarks marks;
    std::vector<Capsule> solids;  ///< As solids() gives them.
    /// What of the hair stands out from the head: it hides others, and is in nobody's way.
    std::vector<Capsule> hair;
};

/// What eyes meet and mirror, and from where that is seen; for every eye of a figure the same.
/// Figure space.
struct EyeLight {
    glm::dvec3 towards_sun{-0.4, 0.6, 0.7};
    bool sun_is_up = true;
    glm::dvec3 towards_lens{0, 0, 1};
    double dazzle = 0;  ///< 0 … 1, how bright the sun is: faces turned to it narrow their eyes.

    bool operator==(const EyeLight&) const = default;
};

/// How fine to build, by what the camera can resolve.
enum class Detail { close, near, middle, far };

/// Whether eyes, hands and hair are built at their finest: close and near differ in their clothes.
[[nodiscard]] constexpr bool is_fine(Detail detail) noexcept {
    return detail == Detail::close || detail == Detail::near;
}

/// Whether the sheet of skin_detail.h is laid over somebody; if not, all texture coordinates are
/// zero.
enum class HasSkinDetail { no, yes };

/// The triangles of one figure. The face is apart, so that its pixels can be counted.
struct FigureMesh {
    shapes::Mesh body;  ///< Clothes, hands, legs, shoes, hair, ears, neck.
    shapes::Mesh face;  ///< Skin from chin to hair line and ear to ear, eyes, brows, beard.
};

/// Cheap: no triangles are made.
[[nodiscard]] ReferencePoints reference_points(const Person& person);

/// Cheap solids that cover the figure; the last one is the head.
[[nodiscard]] std::vector<Capsule> solids(const Person& person);

/// All of it, for whoever needs more than one: the joints are then worked out once.
[[nodiscard]] PosedBody posed_body(const Person& person);

/// Those of trunk, neck and head alone, and those of one arm and its hand.
[[nodiscard]] std::vector<Capsule> trunk_solids(const Person& person);
[[nodiscard]] std::vector<Capsule> arm_solids(const Person& person, int side);

/// How high above the ground the seat is that the person needs, metres; 0 for postures that need
/// none.
[[nodiscard]] double seat_height_m(const Person& person);

/// The step on which this person sits with level thighs; over a higher edge the feet hang.
[[nodiscard]] double highest_step_m(const BodyMeasures& measures);

/// Triangles in figure space whose cornea, nose tip, chin and crown lie at reference_points().
[[nodiscard]] FigureMesh build_figure(const Person& person, Detail detail,
                                      const EyeLight& light = {},
                                      HasSkinDetail skin_detail = HasSkinDetail::no);

}  // namespace backrow::figures
