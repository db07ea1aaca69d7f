#include "render/studio/one_moves.h"

#include <cassert>
#include <cstddef>

namespace backrow::render {

OneMoves::OneMoves(const Studio& studio, const scene::CameraView& view, const CropRect& crop,
                   const LensSamples& samples, int person)
    : studio_{studio}, view_{view}, crop_{crop}, samples_{samples}, person_{person},
      rest_{studio, view, crop, samples,
            [person](const DrawnPart& part) { return part.person != person; }} {}

void OneMoves::keep_more() {
    if (!rest_.complete())
        kept_.push_back(rest_.keep_next());
}

// Lamps are drawn with the person, who may stand in their way.
Image<Rgb8> OneMoves::picture(int most_passes) const {
    assert(!kept_.empty());
    Accumulation passes{studio_, view_, crop_, samples_, [this](const DrawnPart& part) {
                            return part.person == person_ || part.role == stage::Role::highlight;
                        }};
    for (std::size_t i = 0; i < kept_.size() && static_cast<int>(i) < most_passes; ++i)
        passes.add_over(kept_[i]);
    return passes.developed();
}

}  // namespace backrow::render
