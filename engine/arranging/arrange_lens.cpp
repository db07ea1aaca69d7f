#include "arranging/arrange_lens.h"

#include "scene/camera_view.h"
#include "scene/judged_blur.h"

#include "optics/blur/blur_circle.h"
#include "optics/exposure/stops.h"
#include "optics/lens/lens.h"

#include <algorithm>
#include <cstddef>
#include <limits>
#include <span>

namespace backrow::arranging {

double f_number_for(const scene::Scene& scene) {
    scene::CameraView view = camera_view(scene);
    view.lens.f_number = 1;
    double at_f1_mm = 0;  // blur at f/1; at f/N it is N times smaller
    for (const scene::Person& person : scene.people)
        at_f1_mm =
            std::max(at_f1_mm, optics::blur_diameter_mm(view.focused(),
                                                        axial_m(view, nearer_eye_m(view, person))));

    // The marks are third stops from f/1 on.
    constexpr std::size_t thirds = 3;
    constexpr std::size_t of_f2 = 2 * thirds;
    const std::span<const double> marks = optics::marked_f_numbers();
    const double crisp = limit_of(optics::Grade::crisp, scene::blur_unit(scene.viewing));
    double sharpest = marks[of_f2];
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t i = of_f2; i < marks.size(); i += thirds) {
        view.lens.f_number = marks[i];
        const double amount = judged_blur(at_f1_mm / marks[i], scene, view).amount;
        if (amount <= crisp)
            return marks[i];
        if (amount < least) {
            least = amount;
            sharpest = marks[i];
        }
    }
    return sharpest;
}

}  // namespace backrow::arranging
