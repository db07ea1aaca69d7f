#pragma once

// How the parts of the model import say no to each other; import_model() turns it into a problem.

#include <glm/vec3.hpp>

#include <cmath>
#include <string>

namespace backrow::stage {

/// Why a model is refused. Thrown from deep inside a model, beside Assimp's own exceptions, and
/// never out of import_model().
struct Refusal {
    std::string what;
    std::string mend;
};

inline constexpr const char* save_again =
    "open it in a 3D program and save it as binary glTF (.glb)";

/// Words out of a file or a library, fit for a message: no control characters, not endless.
[[nodiscard]] inline std::string on_one_line(std::string text) {
    for (char& c : text)
        if (static_cast<unsigned char>(c) < ' ')
            c = ' ';
    constexpr std::size_t longest = 300;
    return text.size() > longest ? text.substr(0, longest) + " …" : text;
}

template <class Vec>
[[nodiscard]] bool finite(const Vec& v) {
    for (int i = 0; i < Vec::length(); ++i)
        if (!std::isfinite(v[i]))
            return false;
    return true;
}

}  // namespace backrow::stage
