#include "figures/head/head_frame.h"

#include "figures/measures/anthropometry.h"

#include "base/units.h"

#include <algorithm>
#include <cmath>

namespace backrow::figures {
namespace {

/// Height of the part round the eyes that follows the size of the iris, modelled millimetres.
constexpr double eye_band_mm = 13.0;

/// Size of the eye's opening against a median man's: between the spacing of the eyes, which grows
/// much in childhood, and the breadth of the head, which hardly does.
double eye_share(const BodyMeasures& measures) {
    return (measures.interpupillary_m / men.interpupillary_m[1] +
            measures.head_breadth_m / men.head_breadth_m[1]) /
           2;
}

}  // namespace

HeadFrame::HeadFrame(const BodyMeasures& measures) : HeadFrame(measures, eye_share(measures)) {}

// The iris keeps its size while the opening shrinks with age; only heads smaller than any child's
// of two years shrink it too.
HeadFrame::HeadFrame(const BodyMeasures& measures, double share)
    : across_{{0, model::pupil_x - model::eye_half_width, model::pupil_x,
               model::pupil_x + model::eye_half_width, model::half_breadth},
              {0, measures.interpupillary_m / 2 - m_from_mm(model::eye_half_width) * share,
               measures.interpupillary_m / 2,
               measures.interpupillary_m / 2 + m_from_mm(model::eye_half_width) * share,
               measures.head_breadth_m / 2}},
      upward_{{model::chin_y, -eye_band_mm, 0, eye_band_mm, model::crown_y},
              {measures.stature_m - measures.eye_height_m - measures.head_height_m,
               -m_from_mm(eye_band_mm) * std::min(1.0, share / 0.8), 0,
               m_from_mm(eye_band_mm) * std::min(1.0, share / 0.8),
               measures.stature_m - measures.eye_height_m}},
      forward_{measures.head_length_m / model::length}, ear_up_m_{upward_(model::ear_y)},
      eye_scale_{m_from_mm(1) * share, m_from_mm(1) * std::min(1.0, share / 0.8), forward_},
      half_iris_m_{iris_diameter_m / 2 * std::min(1.0, share / 0.8)} {}

glm::dvec3 HeadFrame::head_from_model(const glm::dvec3& model_mm) const {
    return {std::copysign(across_(std::abs(model_mm.x)), model_mm.x),
            upward_(model_mm.y) - ear_up_m_, model_mm.z * forward_};
}

}  // namespace backrow::figures
