#pragma once

// What a photographer says of a face on seeing the frame: that somebody stands before it, that the
// frame cuts the head, and only then how sharp it is.

#include "plan/faces/face_table.h"

#include <string>
#include <vector>

namespace backrow::plan {

enum class Verdict { hidden, cut_off, crisp, fine, soft, lost };

/// Hidden: less than half of the face is seen. Cut off: the head is not whole in the picture.
[[nodiscard]] Verdict verdict_of(const Face& face) noexcept;

/// Whether the face is there to be judged by its sharpness.
[[nodiscard]] bool is_seen(const Face& face) noexcept;

/// Who or what hides it, where the verdict is hidden; else nobody.
[[nodiscard]] std::vector<std::string> hidden_by(const Face& face);

/// By its sharpness alone, for whoever has no picture to look at.
[[nodiscard]] Verdict verdict_of(optics::Grade grade) noexcept;

/// "hidden", "cut off", or the grade.
[[nodiscard]] const char* to_word(Verdict verdict) noexcept;

}  // namespace backrow::plan
