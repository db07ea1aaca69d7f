#include "plan/odds/odds.h"

#include "plan/odds/normal_draws.h"
#include "plan/odds/odds_by_integration.h"

#include <algorithm>
#include <cmath>
#include <thread>

namespace backrow::plan {
namespace {

/// Whole numbers, so that the sum over threads does not depend on their order.
struct Hits {
    std::int64_t all = 0;
    std::vector<std::int64_t> faces;
};

/// Frames first … last − 1. Every frame takes one pair of draws for camera and autofocus, then a
/// pair for every two faces, whether or not something is switched off. Whoever is carried has the
/// draw of the one who carries.
Hits shoot(const FrameModel& model, std::uint64_t seed, std::int64_t first, std::int64_t last) {
    const std::size_t people = model.faces.size();
    const std::uint64_t pairs = 1 + (people + 1) / 2;
    std::vector<std::size_t> carried;
    for (std::size_t i = 0; i < people; ++i)
        if (model.faces[i].sways_with >= 0)
            carried.push_back(i);
    Hits hits{.faces = std::vector<std::int64_t>(people)};
    for (std::int64_t frame = first; frame < last; ++frame) {
        std::uint64_t number = static_cast<std::uint64_t>(frame) * pairs;
        const auto [camera, focus] = two_normals(seed, number);
        const auto lens = landed(model, model.focus_m + model.focus_spread_m * focus);
        if (!lens)
            continue;
        const double camera_m = model.camera_spread_m * camera;
        bool all = true;
        const auto judge = [&](std::size_t i, double draw) {
            const VaryingFace& face = model.faces[i];
            const bool sharp = holds(face, *lens, face.axial_m + camera_m + face.spread_m * draw);
            hits.faces[i] += sharp ? 1 : 0;
            all = all && sharp;
        };
        const std::uint64_t first_pair = number + 1;
        for (std::size_t i = 0; i < people; i += 2) {
            const auto [one, other] = two_normals(seed, ++number);
            if (model.faces[i].sways_with < 0)
                judge(i, one);
            if (i + 1 < people && model.faces[i + 1].sways_with < 0)
                judge(i + 1, other);
        }
        for (const std::size_t i : carried) {
            const auto carrier = static_cast<std::size_t>(model.faces[i].sways_with);
            const auto [one, other] = two_normals(seed, first_pair + carrier / 2);
            judge(i, carrier % 2 == 0 ? one : other);
        }
        hits.all += all ? 1 : 0;
    }
    return hits;
}

Hits shoot_on_threads(const FrameModel& model, const TrialSettings& settings) {
    const std::int64_t shares = std::clamp<std::int64_t>(settings.threads, 1, settings.trials);
    std::vector<Hits> parts(static_cast<std::size_t>(shares));
    const auto start_of = [&](std::int64_t share) {
        return settings.trials / shares * share + std::min(share, settings.trials % shares);
    };
    {
        std::vector<std::jthread> workers;
        for (std::int64_t share = 0; share < shares; ++share)
            workers.emplace_back([&, share] {
                parts[static_cast<std::size_t>(share)] =
                    shoot(model, settings.seed, start_of(share), start_of(share + 1));
            });
    }
    Hits sum = std::move(parts.front());
    for (std::size_t i = 1; i < parts.size(); ++i) {
        sum.all += parts[i].all;
        for (std::size_t face = 0; face < sum.faces.size(); ++face)
            sum.faces[face] += parts[i].faces[face];
    }
    return sum;
}

}  // namespace

Chance chance_from_hits(std::int64_t hits, std::int64_t trials) {
    const auto n = static_cast<double>(trials);
    const double p = (static_cast<double>(hits) + 1) / (n + 2);
    return {.value = static_cast<double>(hits) / n, .standard_error = std::sqrt(p * (1 - p) / n)};
}

std::optional<std::int64_t> frames_needed(double good, double certainty) {
    constexpr double countable = 1e15;
    // Where the quotient is a whole number, rounding may leave it a hair above.
    constexpr double rounding = 1e-9;
    if (good >= 1)
        return 1;
    const double frames = std::log1p(-certainty) / std::log1p(-good);
    if (!(frames < countable))
        return std::nullopt;
    return std::max<std::int64_t>(1, static_cast<std::int64_t>(std::ceil(frames - rounding)));
}

double all_eyes_open(const FrameModel& model) {
    return std::pow(model.eyes_open_each, static_cast<double>(model.faces.size()));
}

Odds odds_by_trials(const FrameModel& model, const TrialSettings& settings) {
    const Hits hits = shoot_on_threads(model, settings);
    Odds odds{.trials = settings.trials,
              .sharp = chance_from_hits(hits.all, settings.trials),
              .sharp_closed_form = all_sharp_by_integration(model),
              .eyes_open = all_eyes_open(model)};
    odds.both = {.value = odds.sharp.value * odds.eyes_open,
                 .standard_error = odds.sharp.standard_error * odds.eyes_open};
    odds.frames = {.p90 = frames_needed(odds.both.value, 0.90),
                   .p95 = frames_needed(odds.both.value, 0.95),
                   .p99 = frames_needed(odds.both.value, 0.99)};
    for (std::size_t i = 0; i < model.faces.size(); ++i)
        odds.faces.push_back({.name = model.faces[i].name,
                              .sharp = chance_from_hits(hits.faces[i], settings.trials)});
    return odds;
}

}  // namespace backrow::plan
