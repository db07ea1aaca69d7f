#pragma once

// What may be said of somebody's looks. What is left open follows from the name.

#include <glm/vec3.hpp>

#include <optional>
#include <string>

namespace backrow::figures {

/// Six even steps by eye, with names of our own.
enum class Skin { very_light, light, medium_light, medium_dark, dark, very_dark };
enum class HairColour { black, dark_brown, brown, light_brown, blond, red, grey, white };
enum class Hair { short_cut, long_cut, tied, curly, none };
enum class Headwear { none, hat, headscarf };
enum class Top { shirt, jumper, jacket, tee, blouse, dress };
enum class Bottom { trousers, skirt };

struct Styling {
    std::optional<Skin> skin{};
    std::optional<HairColour> hair_colour{};  ///< As it is now: age takes nothing from it.
    std::string
        family{};  ///< Whose colouring theirs is like, where nothing is said; empty: nobody's.
    std::optional<Hair> hair{};
    std::optional<Top> top{};
    std::optional<Bottom> bottom{};  ///< Below a dress there is always its own skirt.
    Headwear headwear = Headwear::none;
    bool beard = false;
    bool glasses = false;
    /// Linear. Below a dress there is its own cloth, whatever is said of the bottom.
    std::optional<glm::dvec3> top_colour{}, bottom_colour{}, headwear_colour{};

    bool operator==(const Styling&) const = default;
};

}  // namespace backrow::figures
