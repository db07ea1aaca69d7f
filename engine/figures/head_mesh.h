#pragma once

// The head of a person: the modelled head fitted to measures and varied by name, in figure space.

#include "figures/appearance.h"
#include "figures/head_frame.h"
#include "figures/skeleton.h"

#include "shapes/mesh.h"

namespace backrow::figures {

class PersonHead {
public:
    PersonHead(const Person& person, const Skeleton& skeleton, const FaceTraits& traits);

    /// Figure space, metres, from the modelled head, with this person's nose, lips, jaw …
    [[nodiscard]] glm::dvec3 figure_from_model(const glm::dvec3& model_mm) const;

    /// Likewise without the variations, which stop at the eyeballs.
    [[nodiscard]] glm::dvec3 figure_from_plain_model(const glm::dvec3& model_mm) const;

    [[nodiscard]] const HeadFrame& frame() const noexcept { return frame_; }
    [[nodiscard]] double childhood() const noexcept { return childhood_; }
    [[nodiscard]] const FaceTraits& traits() const noexcept { return traits_; }

private:
    HeadFrame frame_;
    FaceTraits traits_;
    double childhood_;
    glm::dvec3 origin_m_;
    Axes axes_;
};

/// Skin of face and skull, eyes, lashes, brows and ears; hair is apart. Appends.
void add_head(const PersonHead& head, const Appearance& look, const BodyMeasures& measures,
              Detail detail, FigureMesh& onto);

}  // namespace backrow::figures
