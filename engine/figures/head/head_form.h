#pragma once

// The one modelled head, in millimetres: x towards its own left, y up from the pupils, z forward
// from the ears' axis. First the bare form (skull, jaw, cheeks) without features, then the relief
// of the features, which is laid on along z and so never moves a point seen from the front.

#include <glm/vec2.hpp>
#include <glm/vec3.hpp>

namespace backrow::figures {

/// Every point of the surface is seen from here.
inline constexpr glm::dvec3 head_middle_mm{0, -12, 8};

/// The bare form along a direction from head_middle_mm (need not be unit).
[[nodiscard]] glm::dvec3 bare_form_mm(const glm::dvec3& direction);

/// Its inverse: the unit direction that leads to a point of the bare form.
[[nodiscard]] glm::dvec3 bare_direction(const glm::dvec3& point_mm);

/// The bare form under a point of the front view: z for (x, y). Only for points on the face.
[[nodiscard]] double bare_front_z_mm(double x_mm, double y_mm);

/// The front of the face with its features: z for (x, y).
[[nodiscard]] double face_z_mm(double x_mm, double y_mm, double bare_z_mm);

/// A point of the bare form with the relief of its features.
[[nodiscard]] glm::dvec3 with_features(const glm::dvec3& bare_mm);

/// The edge of the upper or lower lid, y above the pupil for x from the pupil towards the temple,
/// both millimetres. From inner_corner_x to outer_corner_x, where they meet.
[[nodiscard]] double upper_lid_y_mm(double x_mm);
[[nodiscard]] double lower_lid_y_mm(double x_mm);
inline constexpr double inner_corner_x_mm = -14.6;
inline constexpr double outer_corner_x_mm = 14.0;

/// The visible front of the eye: an oval shell, so that lids can close over its corners.
inline constexpr glm::dvec3 eye_radii_mm{15.9, 13.0, 14.0};
inline constexpr double eye_middle_z_mm = 72.0;

/// Height of the eye's shell (swollen by thickness) over its middle, for an offset from the pupil;
/// negative where the offset lies outside the shell.
[[nodiscard]] double eye_shell_mm(double x_mm, double y_mm, double thickness_mm);

/// The line between the lips, the upper edge of the upper lip, the lower edge of the lower lip.
[[nodiscard]] double mouth_line_y_mm(double x_mm);
[[nodiscard]] double upper_lip_y_mm(double x_mm);
[[nodiscard]] double lower_lip_y_mm(double x_mm);
inline constexpr double mouth_half_width_mm = 24.5;

/// The arc of the eyebrow: middle line and half thickness, for |x| between the ends.
[[nodiscard]] double brow_y_mm(double x_mm);
[[nodiscard]] double brow_half_thickness_mm(double x_mm);
inline constexpr double brow_inner_x_mm = 12.5;
inline constexpr double brow_outer_x_mm = 56.0;

/// Where the tip of the nose is in the front view.
inline constexpr double nose_tip_y_mm = -37.0;

/// Smooth hill of height 1 at 0, falling to 1/e at 1.
[[nodiscard]] double hill(double x) noexcept;

}  // namespace backrow::figures
