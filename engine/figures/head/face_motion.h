#pragma once

// What a face does: how lips, jaw and lids leave their rest, laid over the modelled head before it
// is fitted to anybody. Nothing here moves an eyeball, the skull or the ears.

#include <glm/vec3.hpp>

#include <optional>

namespace backrow::figures {

enum class Expression { neutral, smile, laugh, eyes_closed };

/// All zero at rest.
struct FaceMotion {
    double smile = 0;      ///< Corners of the mouth outwards, up and back: 1 a full smile.
    double parted_mm = 0;  ///< Lips apart in the middle, the jaw still.
    double jaw_deg = 0;    ///< The jaw turned open.
    double upper_lid = 0;  ///< How far it has come down to the lower one: 1 shut; < 0 raised.
    double lower_lid = 0;  ///< How far it has risen, as a share of the opening.
    double frown = 0;      ///< Brows lowered and drawn together, as against a bright sky.

    [[nodiscard]] bool is_mouth_open() const noexcept { return parted_mm > 0 || jaw_deg > 0; }
    [[nodiscard]] bool are_eyes_shut() const noexcept { return upper_lid >= 1; }
};

/// expression   none: what the name brings
/// own_smile    0 … 1, the face's own: none to a light smile with lips shut
/// eyes_up_deg  where the eyes look: the lids go with them
/// glare        0 … 1, how much light is in the eyes: lids narrow, brows come down
[[nodiscard]] FaceMotion motion_of(std::optional<Expression> expression, double own_smile,
                                   double eyes_up_deg, double glare);

/// A point of the modelled head, moved. Millimetres. Points of the two edges of the mouth lie
/// slit_mm above or below the line between the lips, which tells them apart.
[[nodiscard]] glm::dvec3 moved_mm(const glm::dvec3& model_mm, const FaceMotion& motion);
inline constexpr double slit_mm = 0.01;

/// With the lower jaw, as its teeth go.
[[nodiscard]] glm::dvec3 turned_with_jaw_mm(const glm::dvec3& model_mm, double jaw_deg);

/// The edges of the lids where they are now; arguments as of upper_lid_y_mm() in head_form.h.
[[nodiscard]] double upper_edge_y_mm(double x_mm, const FaceMotion& motion);
[[nodiscard]] double lower_edge_y_mm(double x_mm, const FaceMotion& motion);

}  // namespace backrow::figures
