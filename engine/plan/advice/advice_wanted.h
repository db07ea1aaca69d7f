#pragma once

// What a photographer asks advice for, and with which lenses.

#include "optics/viewing.h"

#include <vector>

namespace backrow::plan {

struct CarriedLens {
    double focal_length_mm = 50;
    double widest_f_number = 1.2;
};

struct AdviceWanted {
    optics::Grade grade = optics::Grade::fine;  ///< crisp or fine.
    std::vector<CarriedLens> lenses{};          ///< At least one, scene_lens() if in doubt.
    double narrowest_f_number = 16;
    int most_move_cm = 30;        ///< ≥ 0
    double least_distance_m = 0;  ///< Lens to the mark; the scene's own is always tried too.
    double greatest_distance_m = 0;
    bool after_crop =
        false;  ///< The grade must hold once the group fills the frame as it does now.
};

}  // namespace backrow::plan
