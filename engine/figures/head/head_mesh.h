#pragma once

// The head of a person: the modelled head fitted to measures and varied by name, in figure space.

#include "figures/appearance.h"
#include "figures/head/face_motion.h"
#include "figures/head/head_frame.h"
#include "figures/posture/skeleton.h"

#include "shapes/mesh.h"

#include <array>

namespace backrow::figures {

/// Where an eye looks from straight ahead, within what eyes can do.
struct EyeTurn {
    double left_deg = 0;  ///< + towards the person's left.
    double up_deg = 0;
};

/// How far eyes are turned in a photograph before the head follows; they can go further, but not
/// at ease. Common practice, no source.
inline constexpr double most_eye_turn_deg = 35.0;
inline constexpr double most_eye_rise_deg = 25.0;

class PersonHead {
public:
    /// glare   0 … 1, how much light is in the eyes
    PersonHead(const Person& person, const Skeleton& skeleton, const FaceTraits& traits,
               double glare = 0);

    /// Figure space, metres, from the modelled head, with this person's expression, nose, lips …
    [[nodiscard]] glm::dvec3 figure_from_model(const glm::dvec3& model_mm) const;

    /// Likewise for a point that has already been moved with the expression.
    [[nodiscard]] glm::dvec3 figure_from_moved_model(const glm::dvec3& moved_mm) const;

    /// Likewise without expression and variations, which stop at the eyeballs.
    [[nodiscard]] glm::dvec3 figure_from_plain_model(const glm::dvec3& model_mm) const;

    [[nodiscard]] const HeadFrame& frame() const noexcept { return frame_; }
    [[nodiscard]] double childhood() const noexcept { return childhood_; }
    [[nodiscard]] const FaceTraits& traits() const noexcept { return traits_; }
    [[nodiscard]] const FaceMotion& motion() const noexcept { return motion_; }
    [[nodiscard]] const Axes& axes() const noexcept { return axes_; }
    /// Of the left eye (0) or the right one.
    [[nodiscard]] const EyeTurn& eye(int side) const {
        return eyes_[static_cast<std::size_t>(side)];
    }

private:
    HeadFrame frame_;
    FaceTraits traits_;
    double childhood_;
    glm::dvec3 origin_m_;
    Axes axes_;
    std::array<EyeTurn, 2> eyes_{};
    FaceMotion motion_;
};

/// Skin of face and skull, eyes, lashes, brows and ears; hair is apart. Appends.
void add_head(const PersonHead& head, const Appearance& look, const BodyMeasures& measures,
              Detail detail, const EyeLight& light, FigureMesh& onto);

}  // namespace backrow::figures
