#pragma once

// The pictures of a lesson.

#include "delivery/step.h"

#include "papers/lesson/lesson_facts.h"
#include "render/driver/progress.h"
#include "report/strip/strip_contents.h"
#include "stage/stage.h"

namespace backrow::delivery {

/// As large as the page needs them, and of draft quality: they are printed small.
///
/// facts  no frame of its strip is faceless (strip_pictures.h)
/// stage  stage_of_strip()
[[nodiscard]] render::Finished<report::StripPictures>
lesson_pictures(const papers::LessonFacts& facts, const stage::Stage& stage,
                const StepProgress& progress);

}  // namespace backrow::delivery
