#include "arranging/arrange_lens.h"

#include "scene/camera_view.h"
#include "scene/judged_blur.h"

#include "optics/blur_circle.h"
#include "optics/lens.h"
#include "optics/stops.h"

#include <algorithm>
#include <cstddef>
#include <span>

namespace backrow::arranging {

double f_number_for(const scene::Scene& scene) {
    scene::CameraView view = camera_view(scene);
    view.lens.f_number = 1;
    double widest_mm = 0;  // blur at f/1; at f/N it is N times smaller
    for (const scene::Person& person : scene.people)
        widest_mm = std::max(
            widest_mm,
            optics::blur_diameter_mm(view.focused(), axial_m(view, nearer_eye_m(view, person))));
    const double wanted = widest_mm / blur_limit_mm(optics::Grade::crisp, scene.viewing, view);

    // The marks are third stops from f/1 on.
    constexpr std::size_t thirds = 3;
    constexpr std::size_t of_f2 = 2 * thirds;
    const std::span<const double> marks = optics::marked_f_numbers();
    for (std::size_t i = of_f2; i < marks.size(); i += thirds)
        if (marks[i] >= wanted)
            return marks[i];
    return marks.back();
}

}  // namespace backrow::arranging
