#include "plan/faces/troubles.h"

#include "plan/faces/verdict.h"

namespace backrow::plan {

Troubles troubles_of(std::span<const Face> faces) {
    Troubles troubles;
    std::vector<Cropping> croppings;
    for (std::size_t i = 0; i < faces.size(); ++i) {
        if (verdict_of(faces[i]) == Verdict::hidden)
            troubles.hidden.push_back(i);
        croppings.push_back(faces[i].cropping);
    }
    troubles.cut = frame_cuts(croppings);
    return troubles;
}

}  // namespace backrow::plan
