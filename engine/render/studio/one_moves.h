#pragma once

// Pictures of a stage in which one person moves and nothing else: what everybody and everything
// else looks like through each point of the lens is drawn once and kept, and a picture costs no
// more than the one person.

#include "render/passes/accumulation.h"
#include "render/passes/picture.h"

#include "base/image.h"

#include <vector>

namespace backrow::render {

class OneMoves {
public:
    /// person  as DrawnPart::person
    OneMoves(const Studio& studio, const scene::CameraView& view, const CropRect& crop,
             const LensSamples& samples, int person);

    /// Draws the rest through one further point of the lens, up to all of them.
    void keep_more();
    [[nodiscard]] int kept() const noexcept { return static_cast<int>(kept_.size()); }
    [[nodiscard]] int wanted() const noexcept { return rest_.samples_wanted(); }

    /// Through the points that have been kept, but no more than so many, with the person as the
    /// stage has them now. At least one must have been kept.
    [[nodiscard]] Image<Rgb8> picture(int most_passes) const;

private:
    Studio studio_;
    scene::CameraView view_;
    CropRect crop_;
    LensSamples samples_;
    int person_;
    Accumulation rest_;
    std::vector<KeptPass> kept_;
};

}  // namespace backrow::render
