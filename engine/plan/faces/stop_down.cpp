#include "plan/faces/stop_down.h"

#include "plan/faces/margin.h"
#include "scene/camera_view.h"

#include "optics/exposure/stops.h"

#include <algorithm>
#include <iterator>
#include <vector>

namespace backrow::plan {

std::optional<double> f_number_for_margin(scene::Scene scene, double margin_m,
                                          optics::Grade grade) {
    const double own = scene.camera.f_number;
    std::vector<double> f_numbers{own};
    std::ranges::copy_if(optics::marked_f_numbers(), std::back_inserter(f_numbers),
                         [&](double f_number) { return f_number > own; });
    for (const double f_number : f_numbers) {
        scene.camera.f_number = f_number;
        const bool holds = std::ranges::all_of(
            margins(scene, camera_view(scene), grade), [&](const Margin& margin) {
                return std::min(margin.front_m, margin.back_m) >= margin_m &&
                       margin.front_m + margin.back_m > 0;
            });
        if (holds)
            return f_number;
    }
    return std::nullopt;
}

}  // namespace backrow::plan
