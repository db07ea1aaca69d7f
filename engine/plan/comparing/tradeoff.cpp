#include "plan/comparing/tradeoff.h"
#include "plan/comparing/carried_lens.h"
#include "plan/faces/head_in_picture.h"

#include "scene/judged_blur.h"
#include "scene/limits.h"

#include "optics/exposure/stops.h"

#include "base/round_numbers.h"

#include <algorithm>
#include <cmath>

namespace backrow::plan {
namespace {

using optics::Grade;

// The ends where the user asks for none: our own choice.
constexpr double nearest_of_present = 0.6;
constexpr double farthest_of_present = 2.0;
constexpr double room_round_lens = 1.05;
constexpr double widest_without_profile = 1.2;
constexpr double narrowest_usually = 16;

constexpr int most_round_distances = 10;

// Enough that the chart's lines bend smoothly; the blur itself is smooth but for a few kinks.
constexpr std::size_t sampled_distances = 121;
constexpr std::size_t sampled_f_numbers = 97;

bool holds(Grade grade, Grade wanted) {
    return grade <= wanted;
}

double evenly(double from, double to, std::size_t i, std::size_t count) {
    return from + (to - from) * static_cast<double>(i) / static_cast<double>(count - 1);
}

/// Evenly in stops.
double f_number_sample(const TradeoffRange& range, std::size_t i) {
    return range.widest_f_number * std::pow(range.narrowest_f_number / range.widest_f_number,
                                            evenly(0, 1, i, sampled_f_numbers));
}

TradeoffCell cell(const scene::Scene& scene, const Viewpoint& from, double f_number) {
    const MostBlurred worst = most_blurred(from, f_number);
    scene::CameraView view = from.view;
    view.lens.f_number = f_number;
    const optics::JudgedBlur blur = judged_blur(worst.blur_mm, scene, view);
    return {.f_number = f_number,
            .worst = worst,
            .worst_px = worst.blur_mm * from.view.px_per_mm(),
            .judged_blur = blur,
            .grade = grade_of(blur),
            .background_percent = background_percent(from, f_number, from.view.lens.focus_m)};
}

TradeoffRow row(const scene::Scene& scene, const Viewpoint& from,
                const std::vector<double>& f_numbers) {
    TradeoffRow row{.lens_to_mark_m = from.scene.camera.lens_to_mark_m,
                    .focus_m = from.view.lens.focus_m,
                    .cut = frame_cuts(from.scene),
                    .cells = {}};
    for (const double f_number : f_numbers)
        row.cells.push_back(cell(scene, from, f_number));
    return row;
}

/// Numbers that stand for the same place count as one; the first to come stays.
std::vector<double> in_order(const std::vector<double>& numbers) {
    constexpr double same = 1e-6;
    std::vector<double> kept;
    for (const double number : numbers)
        if (std::ranges::none_of(
                kept, [&](double other) { return std::abs(number - other) <= same * other; }))
            kept.push_back(number);
    std::ranges::sort(kept);
    return kept;
}

std::vector<double> column_f_numbers(const TradeoffRange& range, double present) {
    std::vector<double> f_numbers{range.widest_f_number, range.narrowest_f_number};
    const auto add = [&](double f_number) {
        if (f_number >= range.widest_f_number && f_number <= range.narrowest_f_number)
            f_numbers.push_back(f_number);
    };
    add(present);
    std::ranges::for_each(optics::marked_f_numbers(), add);
    return in_order(f_numbers);
}

std::vector<double> row_distances_m(const TradeoffRange& range, double present_m) {
    std::vector<double> distances_m;
    if (range.holds_distance(present_m))
        distances_m.push_back(present_m);
    for (const double round_m :
         round_numbers(range.nearest_m, range.farthest_m, most_round_distances))
        distances_m.push_back(round_m);
    return in_order(distances_m);
}

/// The narrowest apertures at which it holds, without a gap.
std::optional<FNumbers> f_numbers_of(const std::vector<TradeoffCell>& cells, Grade wanted) {
    std::optional<FNumbers> found;
    for (auto cell = cells.rbegin(); cell != cells.rend(); ++cell) {
        if (holds(cell->grade, wanted))
            found = FNumbers{.from = cell->f_number, .to = found ? found->to : cell->f_number};
        else if (found)
            break;
    }
    return found;
}

double distance_sample_m(const TradeoffRange& range, std::size_t i) {
    return evenly(range.nearest_m, range.farthest_m, i, sampled_distances);
}

/// The nearest place of the range from which on something holds, to the farthest: from there
/// forward in samples, then by halves between the last that holds and the first that does not.
///
/// holds_at_sample  whether it holds at distance_sample_m() of a number …
/// holds_from       … and from any other distance
template <class HoldsAtSample, class HoldsFrom>
std::optional<double> from_m(const TradeoffRange& range, const HoldsAtSample& holds_at_sample,
                             const HoldsFrom& holds_from) {
    std::optional<double> held_m;
    for (std::size_t i = sampled_distances; i-- > 0;) {
        if (holds_at_sample(i)) {
            held_m = distance_sample_m(range, i);
            continue;
        }
        if (!held_m)
            return std::nullopt;
        constexpr double close_enough_m = 0.001;
        double failed_m = distance_sample_m(range, i);
        while (*held_m - failed_m > close_enough_m) {
            const double middle_m = 0.5 * (*held_m + failed_m);
            if (holds_from(middle_m))
                held_m = middle_m;
            else
                failed_m = middle_m;
        }
        return held_m;
    }
    return held_m;
}

std::optional<double> grade_from_m(const scene::Scene& bound, const TradeoffRange& range,
                                   Grade wanted) {
    const auto holds_from = [&](double lens_to_mark_m) {
        return holds(
            cell(bound, viewpoint_from(bound, lens_to_mark_m), bound.camera.f_number).grade,
            wanted);
    };
    return from_m(
        range, [&](std::size_t i) { return holds_from(distance_sample_m(range, i)); }, holds_from);
}

std::optional<double> heads_whole_from_m(const scene::Scene& bound, const Tradeoff& answer) {
    scene::Scene there = bound;
    return from_m(
        answer.range, [&](std::size_t i) { return answer.samples.heads_whole[i]; },
        [&](double lens_to_mark_m) {
            there.camera.lens_to_mark_m = lens_to_mark_m;
            return frame_cuts(there).heads.empty();
        });
}

Holding holding(const scene::Scene& bound, const Tradeoff& answer,
                const std::vector<TradeoffCell>& present_row, Grade wanted) {
    const double limit = limit_of(wanted, scene::blur_unit(bound.viewing));
    const auto within = [&](double amount) { return amount <= limit; };
    return {.f_numbers = f_numbers_of(present_row, wanted),
            .from_m = grade_from_m(bound, answer.range, wanted),
            .everywhere = std::ranges::all_of(answer.samples.judged_blur, within),
            .nowhere = std::ranges::none_of(answer.samples.judged_blur, within)};
}

TradeoffSamples sampled(const scene::Scene& bound, const TradeoffRange& range) {
    TradeoffSamples samples{.distances = sampled_distances, .f_numbers = sampled_f_numbers};
    samples.judged_blur.resize(sampled_distances * sampled_f_numbers);
    samples.background_percent.resize(samples.judged_blur.size());
    const double scale_mm_per_m =
        face_scale_mm_per_m(viewpoint_from(bound, bound.camera.lens_to_mark_m));
    std::vector<figures::ReferencePoints> heads;
    for (const scene::Person& person : bound.people)
        heads.push_back(reference_points(person));
    for (std::size_t i = 0; i < sampled_distances; ++i) {
        const Viewpoint from = viewpoint_from(bound, distance_sample_m(range, i));
        samples.framing_focal_length_mm.push_back(focal_length_for_scale_mm(from, scale_mm_per_m));
        samples.heads_whole.push_back(std::ranges::all_of(
            heads, [&](const auto& points) { return whole_head_in_picture(from.view, points); }));
        for (std::size_t j = 0; j < sampled_f_numbers; ++j) {
            const TradeoffCell sample = cell(bound, from, f_number_sample(range, j));
            samples.judged_blur[j * sampled_distances + i] = sample.judged_blur.amount;
            samples.background_percent[j * sampled_distances + i] = sample.background_percent;
        }
    }
    return samples;
}

FramingLens framing_lens(const scene::Scene& bound, const CarriedLens& carried,
                         double scale_mm_per_m, std::vector<double> f_numbers) {
    const scene::Scene scene = with_lens(bound, carried);
    FramingLens lens{.focal_length_mm = carried.focal_length_mm,
                     .widest_f_number = carried.widest_f_number,
                     .is_perfect = !scene.lens.profile,
                     .lens_to_mark_m =
                         framing_distance_m(bound, carried.focal_length_mm, scale_mm_per_m)};
    if (!lens.lens_to_mark_m)
        return lens;
    std::erase_if(f_numbers, [&](double f_number) {
        return f_number < carried.widest_f_number || f_number > narrowest_f_number(scene);
    });
    const TradeoffRow there_row =
        row(scene, viewpoint_from(scene, *lens.lens_to_mark_m), f_numbers);
    const std::vector<TradeoffCell>& cells = there_row.cells;
    lens.cut = there_row.cut;
    lens.fine = f_numbers_of(cells, Grade::fine);
    lens.crisp = f_numbers_of(cells, Grade::crisp);
    if (lens.fine)
        lens.background_percent =
            std::ranges::find(cells, lens.fine->from, &TradeoffCell::f_number)->background_percent;
    return lens;
}

/// Of the farthest place that an answer names: from where every face is good or every head whole,
/// from where the whole group is in the picture, or where a lens carried frames as now.
std::vector<Caution> cautions_of(const scene::Scene& scene, const Tradeoff& answer) {
    scene::Scene farthest = scene;
    double& lens_to_mark_m = farthest.camera.lens_to_mark_m;
    for (const Holding* holding : {&answer.fine, &answer.crisp})
        if (holding->in_part())
            lens_to_mark_m = std::max(lens_to_mark_m, holding->from_m.value_or(0));
    lens_to_mark_m = std::max(lens_to_mark_m, answer.heads_whole_from_m.value_or(0));
    if (answer.whole_group)
        lens_to_mark_m = std::max(lens_to_mark_m, answer.whole_group->lens_to_mark_m.value_or(0));
    for (const FramingLens& lens : answer.lenses)
        lens_to_mark_m = std::max(lens_to_mark_m, lens.lens_to_mark_m.value_or(0));
    return cautions(scene, farthest);
}

}  // namespace

TradeoffRange tradeoff_range(const scene::Scene& scene, const WantedRange& wanted,
                             const std::vector<CarriedLens>& lenses) {
    const scene::Camera& camera = scene.camera;
    const scene::Scene bound = bound_to_places(scene);
    double near_wish_m = nearest_of_present * camera.lens_to_mark_m;
    double far_wish_m =
        farthest_of_present * std::max(camera.lens_to_mark_m, wanted.nearest_m.value_or(0));
    const double scale_mm_per_m = face_scale_mm_per_m(viewpoint_from(bound, camera.lens_to_mark_m));
    for (const CarriedLens& lens : lenses)
        if (const auto framing_m =
                framing_distance_m(bound, lens.focal_length_mm, scale_mm_per_m)) {
            near_wish_m = std::min(near_wish_m, *framing_m / room_round_lens);
            far_wish_m = std::max(far_wish_m, *framing_m * room_round_lens);
        }

    TradeoffRange range;
    range.farthest_m = wanted.farthest_m.value_or(std::min(scene::limits::farthest_m, far_wish_m));
    range.nearest_m = wanted.nearest_m.value_or(
        nearest_viewpoint_m(bound, std::max(camera.lens_to_mark_m, range.farthest_m),
                            std::min(near_wish_m, nearest_of_present * range.farthest_m)));

    const double lens_opens_to =
        scene.lens.profile ? scene.lens.profile->widest_f_number : widest_without_profile;
    const double widest_of_lens = scene.lens.profile ? lens_opens_to : 0;
    range.widest_f_number = wanted.widest_f_number.value_or(std::max(
        widest_of_lens, std::min({lens_opens_to, camera.f_number,
                                  wanted.narrowest_f_number.value_or(narrowest_usually) / 2})));
    range.narrowest_f_number = wanted.narrowest_f_number.value_or(
        std::min(narrowest_f_number(scene),
                 std::max({narrowest_usually, camera.f_number, 2 * range.widest_f_number})));
    return range;
}

Tradeoff tradeoff(const scene::Scene& scene, const TradeoffRange& range,
                  const std::vector<CarriedLens>& lenses) {
    const scene::Scene bound = bound_to_places(scene);
    const scene::Camera& camera = bound.camera;
    const Viewpoint here = viewpoint_from(bound, camera.lens_to_mark_m);

    Tradeoff answer{.range = range,
                    .now = row(bound, here, {camera.f_number}),
                    .f_numbers = column_f_numbers(range, camera.f_number),
                    .samples = sampled(bound, range)};
    for (const double lens_to_mark_m : row_distances_m(range, camera.lens_to_mark_m))
        answer.rows.push_back(row(bound, viewpoint_from(bound, lens_to_mark_m), answer.f_numbers));

    const auto present_row = row(bound, here, answer.f_numbers).cells;
    answer.fine = holding(bound, answer, present_row, Grade::fine);
    answer.crisp = holding(bound, answer, present_row, Grade::crisp);

    scene::Scene balanced = bound;
    balanced.focus = scene::FocusBalanced{};
    const auto balanced_row =
        row(balanced, viewpoint_from(balanced, camera.lens_to_mark_m), answer.f_numbers).cells;
    answer.balanced_fine = f_numbers_of(balanced_row, Grade::fine);
    answer.balanced_crisp = f_numbers_of(balanced_row, Grade::crisp);

    answer.heads_whole_from_m = heads_whole_from_m(bound, answer);
    answer.whole_group = mend_framing(bound, answer.now.cut);
    answer.lenses = framing_lenses(scene, lenses, answer.f_numbers);
    answer.cautions = cautions_of(scene, answer);
    return answer;
}

std::vector<FramingLens> framing_lenses(const scene::Scene& scene,
                                        const std::vector<CarriedLens>& lenses,
                                        const std::vector<double>& f_numbers) {
    const scene::Scene bound = bound_to_places(scene);
    const double scale_mm_per_m =
        face_scale_mm_per_m(viewpoint_from(bound, scene.camera.lens_to_mark_m));
    const double own_mm = bound.camera.focal_length_mm;
    std::vector<CarriedLens> carried;
    for (const CarriedLens& lens : lenses) {
        const bool is_own = lens.focal_length_mm == own_mm && !lens.profile;
        if (!is_own && std::ranges::find(carried, lens) == carried.end())
            carried.push_back(lens);
    }
    std::vector<FramingLens> framing;
    for (const CarriedLens& lens : carried)
        framing.push_back(framing_lens(bound, lens, scale_mm_per_m, f_numbers));
    FramingLens own = framing_lens(bound, {.focal_length_mm = own_mm, .widest_f_number = 0},
                                   scale_mm_per_m, f_numbers);
    own.is_own = true;
    own.is_perfect = !bound.lens.profile;
    framing.push_back(own);
    std::ranges::stable_sort(framing, {}, &FramingLens::focal_length_mm);
    return framing;
}

}  // namespace backrow::plan
