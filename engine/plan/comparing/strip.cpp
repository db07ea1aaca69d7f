#include "plan/comparing/strip.h"

#include "plan/comparing/background.h"
#include "plan/comparing/carried_lens.h"
#include "plan/comparing/viewpoint.h"
#include "plan/faces/troubles.h"
#include "plan/faces/worst_face.h"

#include "optics/stops.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace backrow::plan {
namespace {

constexpr std::size_t usual_apertures = 4;

double stops_of(double engraved) {
    return optics::stops_from_f_number(optics::exact_f_number(engraved));
}

/// The marks of whole stops that are clearly another opening, from the nearest on: narrower ones
/// first, then wider ones.
std::vector<double> whole_stops_round(double own) {
    constexpr double clearly_stops = 0.6;
    constexpr double rounding = 1e-6;
    std::vector<double> narrower;
    std::vector<double> wider;
    for (const double mark : optics::marked_f_numbers()) {
        const double stops = stops_of(mark);
        if (std::abs(stops - std::round(stops)) > rounding)
            continue;
        if (stops - stops_of(own) > clearly_stops)
            narrower.push_back(mark);
        if (stops_of(own) - stops > clearly_stops)
            wider.push_back(mark);
    }
    narrower.insert(narrower.end(), wider.rbegin(), wider.rend());
    return narrower;
}

std::optional<WorstInFrame> worst_in_frame(const FaceTable& table) {
    const std::size_t worst = worst_face(table.faces);
    if (!table.faces[worst].cropping.has_whole_head)
        return std::nullopt;
    return WorstInFrame{.person = worst, .face = table.faces[worst]};
}

StripFrame frame_of(const scene::Scene& scene, const scene::Scene& now) {
    StripFrame frame{.view = camera_view(scene)};
    FaceTable table = face_table(scene, frame.view);
    frame.worst = worst_in_frame(table);
    frame.faces_in_frame = static_cast<std::size_t>(std::ranges::count_if(
        table.faces, [](const Face& face) { return face.cropping.has_whole_head; }));
    frame.faces = std::move(table.faces);
    frame.background_percent = background(scene, frame.view).percent_of_height;
    frame.exposure = right_exposure(now, frame.view, table.metering);
    frame.stops_lost = optics::stops_between(now.camera.f_number, scene.camera.f_number);
    return frame;
}

}  // namespace

std::vector<double> strip_f_numbers(const scene::Scene& scene) {
    std::vector<double> f_numbers{scene.camera.f_number};
    const double widest = scene.lens.profile ? scene.lens.profile->widest_f_number : 0;
    for (const double mark : whole_stops_round(scene.camera.f_number))
        if (mark >= widest && mark <= narrowest_f_number(scene) &&
            f_numbers.size() < usual_apertures)
            f_numbers.push_back(mark);
    std::ranges::sort(f_numbers);
    return f_numbers;
}

Strip strip(const scene::Scene& scene, const std::vector<StripPlace>& places,
            const std::vector<double>& f_numbers) {
    Strip strip{.places = places, .f_numbers = f_numbers};
    const scene::Scene bound = bound_to_places(scene);
    scene::Scene farthest = scene;
    const auto go_to = [&](double lens_to_mark_m) {
        farthest.camera.lens_to_mark_m = std::max(farthest.camera.lens_to_mark_m, lens_to_mark_m);
    };
    for (const StripPlace& place : places) {
        scene::Scene there = with_lens(bound, place.focal_length_mm);
        there.camera.lens_to_mark_m = place.lens_to_mark_m;
        go_to(place.lens_to_mark_m);
        for (const double f_number : f_numbers) {
            there.camera.f_number = f_number;
            strip.frames.push_back(frame_of(there, scene));
        }
        const FrameCuts cut = troubles_of(strip.frames.back().faces).cut;
        const auto& whole = strip.whole_groups.emplace_back(mend_framing(there, cut));
        if (whole && whole->lens_to_mark_m)
            go_to(*whole->lens_to_mark_m);
    }
    strip.cautions = cautions(scene, farthest);  // The camera alone moves.
    return strip;
}

}  // namespace backrow::plan
