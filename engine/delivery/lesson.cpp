#include "delivery/lesson.h"

#include "delivery/strip_pictures.h"

#include "papers/lesson/lesson.h"

namespace backrow::delivery {

render::Finished<report::StripPictures> lesson_pictures(const papers::LessonFacts& facts,
                                                        const stage::Stage& stage,
                                                        const StepProgress& progress) {
    return make_strip_pictures(facts.scene, facts.strip, papers::lesson_picture_size(facts), stage,
                               {.quality = render::Quality::draft}, progress);
}

}  // namespace backrow::delivery
