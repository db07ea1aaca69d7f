#pragma once

// What a name decides, and what was said, of skin, hair, face and clothes. Nothing here changes
// where the eyes are.

#include "figures/figure.h"
#include "figures/styling.h"

#include <glm/vec3.hpp>

namespace backrow::figures {

enum class HairStyle { cropped, parted, waves, bob, tied, curls, none };

/// Small differences between faces, each around 0 and within −1 … 1, but for the colours.
struct FaceTraits {
    double nose_width = 0, nose_length = 0, nose_bridge = 0;
    double lip_fullness = 0, mouth_width = 0, smile = 0;
    double jaw_width = 0, chin_length = 0, cheek_fullness = 0;
    double brow_height = 0, brow_thickness = 0, brow_arch = 0;
    double eye_opening = 0, eye_slant = 0, eye_depth = 0;
    double cheekbone = 0, chin_width = 0, nose_hump = 0, nose_tip = 0;
    double mouth_height = 0;  ///< + a short upper lip, a long chin.
    double forehead = 0;      ///< + upright, − sloping.
    double years = 0;         ///< 0 young … 1 old: folds, hollows, jowls, thin lips.
    double freckles = 0;      ///< 0 none … 1 many.
    glm::dvec3 iris{0.1};     ///< Linear, the middle of the iris.
};

/// All colours linear.
struct Appearance {
    bool feminine = false;
    glm::dvec3 skin{0.4};
    glm::dvec3 lips{0.3};
    glm::dvec3 hair{0.05};
    HairStyle hair_style = HairStyle::parted;
    FaceTraits face;
    Top top = Top::shirt;
    Bottom bottom = Bottom::trousers;
    Headwear headwear = Headwear::none;
    bool beard = false;
    bool glasses = false;
    glm::dvec3 top_colour{0.3};
    glm::dvec3 under_colour{0.7};  ///< Shirt under a jacket, collar, buttons.
    bool tie = false;              ///< With a jacket.
    glm::dvec3 tie_colour{0.2};
    glm::dvec3 bottom_colour{0.1};
    glm::dvec3 shoe_colour{0.03};
    glm::dvec3 headwear_colour{0.2};
    double fold_phase_rad = 0;  ///< Nobody's clothes are creased like another's.
};

/// How many things are worn on the head, each of which costs triangles.
[[nodiscard]] inline int worn_on_head(const Appearance& look) noexcept {
    return (look.beard ? 1 : 0) + (look.glasses ? 1 : 0) +
           (look.headwear != Headwear::none ? 1 : 0);
}

[[nodiscard]] Appearance appearance(const Person& person);

}  // namespace backrow::figures
