#include "plan/faces/troubles.h"

#include "plan/faces/verdict.h"

namespace backrow::plan {

Troubles troubles_of(std::span<const Face> faces) {
    Troubles troubles;
    for (std::size_t i = 0; i < faces.size(); ++i) {
        const Face& face = faces[i];
        if (verdict_of(face) == Verdict::hidden)
            troubles.hidden.push_back(i);
        if (!face.in_frame)
            troubles.heads_cut.push_back(i);
        else if (face.cropping.cut_at)
            troubles.bodies_cut.push_back(i);
        if (face.cropping.is_head_close)
            troubles.heads_close.push_back(i);
    }
    return troubles;
}

}  // namespace backrow::plan
