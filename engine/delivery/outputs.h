#pragma once

// What can be given away of a scene: one table, a line an output. The sheet, what is kept of it,
// the names and the progress follow from the table.

#include "delivery/choices.h"
#include "delivery/not_made.h"
#include "delivery/workshop.h"

#include "base/image_files.h"

#include <span>
#include <string>
#include <string_view>

namespace backrow::delivery {

struct Output {
    const char* key;     ///< Of its piece, and of its file unless somebody names it otherwise.
    const char* words;   ///< "The picture".
    const char* lesson;  ///< What it is good for.
    bool is_usual;       ///< Ticked until somebody has chosen.
    const char* (*ending)(const Choices&);
    /// Roughly how long it takes on two cores, seconds: for the progress of the whole.
    double (*work_s)(const Workshop&);
    tl::expected<Bytes, NotMade> (*make)(Workshop&, const render::Progress&);
};

[[nodiscard]] std::span<const Output> outputs();

/// Whether a piece of this key is wanted.
[[nodiscard]] bool is_wanted(const Choices& choices, std::string_view key);

/// "family-picture.jpg".
///
/// i  index of the output, and of its piece
[[nodiscard]] std::string file_name(const Choices& choices, std::size_t i);

}  // namespace backrow::delivery
