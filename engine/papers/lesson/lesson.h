#pragma once

// The lesson for a class: one page on what distance and aperture do to a group, with pictures,
// reasons, exercises, and their answers upside down at the foot.

#include "papers/lesson/lesson_facts.h"
#include "papers/page/page.h"
#include "papers/page/paper.h"
#include "papers/words/language.h"
#include "report/drawing/page_file.h"
#include "report/strip/strip_contents.h"

#include "base/image_files.h"
#include "base/length_words.h"

namespace backrow::papers {

struct LessonChoices {
    Paper paper = Paper::a4;  ///< Or letter: smaller ones do not hold it.
    Units units = Units::metric;
    Language language{};
};

/// How large frames and faces are to be rendered: enough for print.
[[nodiscard]] report::StripCell lesson_picture_size(const LessonFacts& facts);

/// One page. Its letters are as large as fit, to 11 points; what is left goes to the pictures.
///
/// pictures  of the frames of facts.strip, as large as lesson_picture_size()
[[nodiscard]] Page lesson(const LessonFacts& facts, const report::StripPictures& pictures,
                          const LessonChoices& choices);

[[nodiscard]] Bytes lesson_bytes(const LessonFacts& facts, const report::StripPictures& pictures,
                                 const LessonChoices& choices, report::PageKind kind);

}  // namespace backrow::papers
