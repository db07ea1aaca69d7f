#include "plan/comparing/strip.h"

#include "plan/comparing/background.h"
#include "plan/comparing/carried_lens.h"
#include "plan/comparing/viewpoint.h"
#include "plan/faces/stop_down.h"
#include "plan/faces/troubles.h"
#include "plan/faces/worst_face.h"

#include "optics/exposure/stops.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace backrow::plan {
namespace {

constexpr std::size_t usual_apertures = 4;

double stops_of(double engraved) {
    return optics::stops_from_f_number(optics::exact_f_number(engraved));
}

// From here on two openings are clearly different.
constexpr double clearly_stops = 0.6;

/// The marks of whole stops that are clearly another opening, from the nearest on: narrower ones
/// first, then wider ones.
std::vector<double> whole_stops_round(double own) {
    std::vector<double> narrower;
    std::vector<double> wider;
    for (const double mark : optics::marked_f_numbers()) {
        if (!optics::is_full_stop(mark))
            continue;
        if (stops_of(mark) - stops_of(own) > clearly_stops)
            narrower.push_back(mark);
        if (stops_of(own) - stops_of(mark) > clearly_stops)
            wider.push_back(mark);
    }
    narrower.insert(narrower.end(), wider.rbegin(), wider.rend());
    return narrower;
}

/// The whole stops of a range that are clearly none of those there are.
void add_whole_stops(std::vector<double>& f_numbers, double from, double to) {
    for (const double mark : optics::marked_f_numbers())
        if (mark >= from && mark <= to && optics::is_full_stop(mark) &&
            std::ranges::none_of(f_numbers, [&](double other) {
                return std::abs(stops_of(mark) - stops_of(other)) <= clearly_stops;
            }))
            f_numbers.push_back(mark);
    std::ranges::sort(f_numbers);
}

/// Without the one that is missed least: not an end, not the one to keep, and nearest between its
/// neighbours.
void thin_out(std::vector<double>& f_numbers, double kept) {
    auto least = f_numbers.end();
    double least_stops = std::numeric_limits<double>::infinity();
    for (auto one = f_numbers.begin() + 1; one + 1 != f_numbers.end(); ++one) {
        const double stops = stops_of(*(one + 1)) - stops_of(*(one - 1));
        if (*one != kept && stops < least_stops) {
            least = one;
            least_stops = stops;
        }
    }
    f_numbers.erase(least);
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

std::vector<double> f_numbers_until_fine(const scene::Scene& scene) {
    const double own = scene.camera.f_number;
    const double widest = scene_lens(scene).widest_f_number;
    const double narrowest = std::min(narrowest_f_number(scene), optics::marked_f_numbers().back());
    const double fine =
        std::max(own, std::min(f_number_for_margin(scene, 0).value_or(narrowest), narrowest));
    std::vector<double> f_numbers{own};
    for (const double end : {widest, fine})
        if (std::ranges::find(f_numbers, end) == f_numbers.end())
            f_numbers.push_back(end);
    add_whole_stops(f_numbers, widest, fine);
    if (f_numbers.size() < least_leaves) {
        const std::vector<double> usual = strip_f_numbers(scene);
        add_whole_stops(f_numbers, usual.front(), usual.back());
    }
    while (f_numbers.size() > most_leaves)
        thin_out(f_numbers, own);
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
