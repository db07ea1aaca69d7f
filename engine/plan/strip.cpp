#include "plan/strip.h"

#include "plan/background.h"
#include "plan/standpoint.h"

#include "optics/stops.h"

#include <algorithm>
#include <cmath>

namespace backrow::plan {
namespace {

constexpr std::size_t usual_apertures = 4;

double stops_of(double engraved) {
    return optics::stops_from_f_number(optics::exact_f_number(engraved));
}

/// The mark that stands for so many stops from f/1, if there is one.
std::optional<double> mark_at(double stops) {
    constexpr double half_a_third = 1.0 / 6;
    const auto marks = optics::marked_f_numbers();
    const auto apart = [&](double mark) { return std::abs(stops_of(mark) - stops); };
    const auto nearest = std::ranges::min_element(marks, {}, apart);
    return apart(*nearest) < half_a_third ? std::optional{*nearest} : std::nullopt;
}

std::optional<WorstInFrame> worst_in_frame(const FaceTable& table) {
    std::optional<WorstInFrame> worst;
    for (std::size_t i = 0; i < table.faces.size(); ++i) {
        const Face& face = table.faces[i];
        if (face.in_frame && (!worst || face.predicted_blur_um > worst->face.predicted_blur_um))
            worst = WorstInFrame{.person = i, .face = face};
    }
    return worst;
}

StripFrame frame_of(const scene::Scene& scene, double scene_f_number) {
    StripFrame frame{.view = camera_view(scene)};
    const FaceTable table = face_table(scene, frame.view);
    frame.worst = worst_in_frame(table);
    frame.faces_in_frame =
        static_cast<std::size_t>(std::ranges::count(table.faces, true, &Face::in_frame));
    frame.background_percent = background(scene, frame.view).percent_of_height;
    frame.stops_lost = optics::stops_between(scene_f_number, scene.camera.f_number);
    return frame;
}

}  // namespace

std::vector<double> strip_f_numbers(const scene::Scene& scene) {
    const double own = scene.camera.f_number;
    std::vector<double> f_numbers{own};
    for (const int stops : {1, 2, 3, -1, -2, -3}) {
        const std::optional<double> mark = mark_at(stops_of(own) + stops);
        const bool opens = stops > 0 || !scene.lens.profile ||
                           (mark && *mark >= scene.lens.profile->widest_f_number);
        if (mark && opens && f_numbers.size() < usual_apertures)
            f_numbers.push_back(*mark);
    }
    std::ranges::sort(f_numbers);
    return f_numbers;
}

Strip strip(const scene::Scene& scene, const std::vector<StripPlace>& places,
            const std::vector<double>& f_numbers) {
    Strip strip{.places = places, .f_numbers = f_numbers};
    const scene::Scene bound = bound_to_places(scene);
    for (const StripPlace& place : places) {
        scene::Scene there = with_lens(bound, place.focal_length_mm);
        there.camera.lens_to_mark_m = place.lens_to_mark_m;
        for (const double f_number : f_numbers) {
            there.camera.f_number = f_number;
            strip.frames.push_back(frame_of(there, scene.camera.f_number));
        }
    }
    return strip;
}

}  // namespace backrow::plan
