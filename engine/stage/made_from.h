#pragma once

// What the meshes of a stage were made from. Where it is the same again they are too, so a stage
// that is built after another takes over what has not changed.

#include "figures/figure.h"
#include "setting/surroundings.h"

#include <memory>
#include <variant>
#include <vector>

namespace backrow::stage {

/// Of a person: the arguments of figures::build_figure().
struct FigureMade {
    figures::Person person;
    figures::Detail detail;
    figures::EyeLight light;
    figures::HasSkinDetail skin_detail;

    bool operator==(const FigureMade&) const = default;
};

/// Those of setting::build_backdrop() and build_sky().
struct BackdropMade {
    setting::Backdrop backdrop;
    setting::Reach reach;

    bool operator==(const BackdropMade&) const = default;
};
struct SkyMade {
    double sun_elevation_deg, sun_azimuth_deg;

    bool operator==(const SkyMade&) const = default;
};

/// The parts that were made in one go share one of these. Null: made of a file, which may be
/// another one by now.
using MadeFrom = std::shared_ptr<const std::variant<FigureMade, BackdropMade, SkyMade,
                                                    setting::Ground, std::vector<setting::Block>>>;

}  // namespace backrow::stage
