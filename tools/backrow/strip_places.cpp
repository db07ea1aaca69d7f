#include "strip_places.h"

#include "console.h"

#include "delivery/strip_pictures.h"
#include "plan/comparing/carried_lens.h"
#include "plan/comparing/viewpoint.h"
#include "scene/clearance.h"
#include "scene/limits.h"

#include "base/units.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

using namespace backrow;

namespace {

// A place, or the message that says why there is none.
using Placed = tl::expected<plan::StripPlace, std::string>;

Placed within_reach(const scene::Scene& bound, const plan::StripPlace& place,
                    const std::string& asked) {
    const scene::Scene there = plan::with_lens(bound, place.focal_length_mm);
    const double nearest_m = plan::nearest_viewpoint_m(
        bound, std::max(place.lens_to_mark_m, bound.camera.lens_to_mark_m), place.lens_to_mark_m);
    if (nearest_m > place.lens_to_mark_m)
        return tl::make_unexpected(fmt::format(
            "{} puts the camera among the people, or the focus within the focal length; everybody "
            "must be at least {:g} m in front of the lens, which is so from {:.2f} m on",
            asked, scene::nearest_person_m, std::ceil(nearest_m * 100) / 100));
    const double focus_m = plan::viewpoint_from(there, place.lens_to_mark_m).view.lens.focus_m;
    if (mm_from_m(focus_m) <= place.focal_length_mm)
        return tl::make_unexpected(fmt::format(
            "{} cannot focus at {:.2f} m, which is within the focal length", asked, focus_m));
    return place;
}

Placed at_distance(const scene::Scene& bound, double lens_to_mark_m, bool keep_framing) {
    plan::StripPlace place{.lens_to_mark_m = lens_to_mark_m,
                           .focal_length_mm = bound.camera.focal_length_mm};
    const std::string asked = fmt::format("--distances {:g}", lens_to_mark_m);
    Placed reached = within_reach(bound, place, asked);
    if (!reached || !keep_framing || lens_to_mark_m == bound.camera.lens_to_mark_m)
        return reached;
    place.focal_length_mm = plan::focal_length_for_scale_mm(
        plan::viewpoint_from(bound, lens_to_mark_m),
        plan::face_scale_mm_per_m(plan::viewpoint_from(bound, bound.camera.lens_to_mark_m)));
    constexpr scene::Range<double> range = scene::limits::focal_length_mm;
    if (!(place.focal_length_mm >= range.least && place.focal_length_mm <= range.greatest))
        return tl::make_unexpected(
            fmt::format("{} would need a lens of {:g} mm to keep the framing; lenses go from {:g} "
                        "to {:g} mm",
                        asked, place.focal_length_mm, range.least, range.greatest));
    return place;
}

Placed with_focal_length(const scene::Scene& bound, double focal_length_mm, bool keep_framing,
                         const char* option) {
    const std::string asked = fmt::format("{} {:g}", option, focal_length_mm);
    plan::StripPlace place{.lens_to_mark_m = bound.camera.lens_to_mark_m,
                           .focal_length_mm = focal_length_mm};
    if (!keep_framing)
        return within_reach(bound, place, asked);
    const auto distance_m = plan::framing_distance_m(
        bound, focal_length_mm,
        plan::face_scale_mm_per_m(plan::viewpoint_from(bound, bound.camera.lens_to_mark_m)));
    if (!distance_m)
        return tl::make_unexpected(
            fmt::format("{} cannot keep the framing: the camera would stand among the people, or "
                        "farther than {:g} m away",
                        asked, scene::limits::farthest_m));
    place.lens_to_mark_m = *distance_m;
    return within_reach(bound, place, asked);
}

}  // namespace

tl::expected<std::vector<plan::StripPlace>, std::string>
strip_places(const scene::Scene& scene, const StripPlacesAsked& asked) {
    const scene::Scene bound = plan::bound_to_places(scene);
    std::vector<plan::StripPlace> places;
    const auto add = [&](const Placed& place) {
        if (place)
            places.push_back(*place);
        return place;
    };
    for (const double lens_to_mark_m : asked.distances_m)
        if (const auto added = add(at_distance(bound, lens_to_mark_m, asked.keep_framing)); !added)
            return tl::make_unexpected(added.error());
    for (const double focal_length_mm : asked.focal_lengths_mm)
        if (const auto added = add(with_focal_length(bound, focal_length_mm, asked.keep_framing,
                                                     asked.focal_lengths_option));
            !added)
            return tl::make_unexpected(added.error());
    if (places.empty())
        places.push_back({.lens_to_mark_m = scene.camera.lens_to_mark_m,
                          .focal_length_mm = scene.camera.focal_length_mm});
    return places;
}

std::string check_list(const char* option, const std::vector<double>& numbers, int most_values) {
    if (std::ssize(numbers) > most_values)
        return fmt::format("{} takes at most {} numbers", option, most_values);
    for (auto number = numbers.begin(); number != numbers.end(); ++number)
        if (std::find(numbers.begin(), number, *number) != number)
            return fmt::format("{} names {:g} twice", option, *number);
    return {};
}

std::string check_places(const StripPlacesAsked& asked) {
    if (!asked.distances_m.empty() && !asked.focal_lengths_mm.empty())
        return fmt::format("--distances and {} exclude each other; with --keep-framing one follows "
                           "from the other",
                           asked.focal_lengths_option);
    if (asked.keep_framing && asked.distances_m.empty() && asked.focal_lengths_mm.empty())
        return fmt::format("--keep-framing needs --distances, which the lens then follows, or {}, "
                           "which the distance follows",
                           asked.focal_lengths_option);
    return {};
}

ExitCode check_faces(const plan::Strip& strip, const scene::Camera& camera,
                     const std::string& scene_path) {
    const auto faceless = delivery::faceless_frame(strip);
    if (!faceless)
        return ExitCode::done;
    if (faceless->place.lens_to_mark_m == camera.lens_to_mark_m &&
        faceless->place.focal_length_mm == camera.focal_length_mm)
        return console::refuse({Problem{
            .where = {.file = scene_path}, .what = faceless->what, .mend = faceless->mend}});
    return console::refuse_command(faceless->what + "; " + faceless->mend);
}

std::string check_apertures(const scene::Scene& scene, const std::vector<plan::StripPlace>& places,
                            const std::vector<double>& f_numbers, const char* option) {
    const bool own_lens = std::ranges::any_of(places, [&](const plan::StripPlace& place) {
        return place.focal_length_mm == scene.camera.focal_length_mm;
    });
    const double widest = *std::ranges::min_element(f_numbers);
    if (own_lens && scene.lens.profile && widest < scene.lens.profile->widest_f_number)
        return fmt::format("{} {:g} is wider than the lens opens; its profile starts at f/{:g}",
                           option, widest, scene.lens.profile->widest_f_number);
    const double narrowest = *std::ranges::max_element(f_numbers);
    if (own_lens && narrowest > plan::narrowest_f_number(scene))
        return fmt::format("{} {:g} is narrower than the lens closes; its profile ends at f/{:g}",
                           option, narrowest, plan::narrowest_f_number(scene));
    return {};
}
