#pragma once

// What the page for the client says of each picture, in its language: plainly, and nothing that the
// table of faces does not say.

#include "papers/client/client_facts.h"
#include "papers/words/language.h"

#include "base/length_words.h"

#include <cstddef>
#include <string>
#include <vector>

namespace backrow::papers {

struct PictureWords {
    std::string setting;  ///< What is different in it: "f/2.8".
    std::string label;    ///< The same with what follows from it; whether it is as planned.
    std::vector<std::string> said;  ///< Who is sharp and how blurred the background is; a way each.
};

struct WayWords {
    std::string name;  ///< "In an album".
    std::string size;  ///< "30 cm long, seen from 40 cm".
};

struct ClientWords {
    std::string title;
    std::string summary;  ///< How many people, and what is the same in all pictures.
    std::string leafing;  ///< What becomes another: "Aperture".
    std::vector<PictureWords> pictures;
    std::vector<WayWords> ways;
};

/// Of so many people somebody may be told that the names are too many.
inline constexpr std::size_t most_names_told = 6;

[[nodiscard]] ClientWords client_words(const ClientFacts& facts, const Language& language,
                                       Units units);

}  // namespace backrow::papers
