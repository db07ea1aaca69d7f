#pragma once

// How the parts of the model import say no to each other; import_model() turns it into a problem.

#include "base/utf8.h"

#include <glm/vec3.hpp>

#include <cmath>
#include <string>
#include <string_view>

namespace backrow::stage {

/// Why a model is refused. Thrown from deep inside a model, beside Assimp's own exceptions, and
/// never out of import_model().
struct Refusal {
    std::string what;
    std::string mend;
};

inline constexpr const char* save_again =
    "open it in a 3D program and save it as binary glTF (.glb)";

/// Words out of a file or a library, fit for a message: on one line, not endless.
[[nodiscard]] inline std::string as_message(std::string_view text) {
    constexpr std::size_t longest = 300;
    return text.size() > longest ? on_one_line(text.substr(0, longest)) + " …" : on_one_line(text);
}

template <class Vec>
[[nodiscard]] bool finite(const Vec& v) {
    for (int i = 0; i < Vec::length(); ++i)
        if (!std::isfinite(v[i]))
            return false;
    return true;
}

}  // namespace backrow::stage
