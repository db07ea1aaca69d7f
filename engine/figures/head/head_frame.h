#pragma once

// From the one modelled head to the head of a person.
//
// The modelled head is in millimetres: x towards its own left, y up from the level of the pupils,
// z forward from the axis through the ears. A person's head is in metres from the middle of the
// ears' axis, in the same directions. Between them stand three monotone curves, one an axis, so
// that pupils, corners of the eyes, chin, crown, breadth and length land exactly where they are
// measured.

#include "figures/body/smooth_curve.h"
#include "figures/measures/body_measures.h"

#include <glm/vec3.hpp>

namespace backrow::figures {

/// Places on the modelled head, millimetres.
namespace model {
inline constexpr double pupil_x = 32.0;  ///< Half a man's median interpupillary breadth.
inline constexpr double eye_half_width = 15.0;
inline constexpr double cornea_z = 86.0;
inline constexpr double ear_y = -16.0;
inline constexpr double crown_y = 115.0;
inline constexpr double chin_y = -115.0;
inline constexpr double half_breadth = 77.0;
inline constexpr double length = 200.0;
inline constexpr double half_iris = 5.85;
}  // namespace model

class HeadFrame {
public:
    explicit HeadFrame(const BodyMeasures& measures);

    /// Head space, metres, from a point of the modelled head, millimetres.
    [[nodiscard]] glm::dvec3 head_from_model(const glm::dvec3& model_mm) const;

    /// Metres of this head in a millimetre of the model, near the eyes.
    [[nodiscard]] const glm::dvec3& eye_scale() const noexcept { return eye_scale_; }

    /// Radius of the iris, metres.
    [[nodiscard]] double half_iris_m() const noexcept { return half_iris_m_; }

private:
    HeadFrame(const BodyMeasures& measures, double share);

    SmoothCurve<5> across_;
    SmoothCurve<5> upward_;
    double forward_;
    double ear_up_m_;
    glm::dvec3 eye_scale_;
    double half_iris_m_;
};

}  // namespace backrow::figures
