#include "plan/advice/advice.h"

#include "plan/advice/advice_framing.h"
#include "plan/advice/advice_moves.h"
#include "plan/advice/room_between.h"
#include "scene/judged_blur.h"

#include "optics/contrast/diffraction.h"
#include "optics/exposure/stops.h"

#include "base/units.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

namespace backrow::plan {
namespace {

std::vector<double> openings(const CarriedLens& lens, double narrowest) {
    std::vector<double> f_numbers{lens.widest_f_number};
    for (const double mark : optics::marked_f_numbers())
        if (mark > lens.widest_f_number && mark <= narrowest)
            f_numbers.push_back(mark);
    return f_numbers;
}

/// The scene's own distance first.
std::vector<double> distances_m(const scene::Scene& scene, const AdviceWanted& wanted) {
    const double here_m = scene.camera.lens_to_mark_m;
    std::vector<double> distances_m{here_m};
    double least_m = here_m;
    if (wanted.least_distance_m > 0 && wanted.least_distance_m < here_m) {
        // Whoever comes forward must not come too near.
        const double most_m = m_from_cm(wanted.most_move_cm);
        least_m = nearest_viewpoint_m(bound_to_places(scene), here_m,
                                      std::clamp(wanted.least_distance_m - most_m,
                                                 std::min(m_from_cm(1), here_m), here_m)) +
                  most_m;
    }
    least_m = std::max(least_m, wanted.least_distance_m);
    const double greatest_m = std::max(wanted.greatest_distance_m, here_m);
    for (int cm = static_cast<int>(std::ceil(cm_from_m(least_m))); m_from_cm(cm) <= greatest_m;
         ++cm)
        if (std::abs(m_from_cm(cm) - here_m) > 1e-9)
            distances_m.push_back(m_from_cm(cm));
    return distances_m;
}

std::vector<bool> carried(const scene::Scene& scene) {
    std::vector<bool> carried;
    for (const scene::Person& person : scene.people)
        carried.push_back(person.carrier >= 0);
    return carried;
}

/// A lens at a distance, and what is asked of it.
struct Candidate {
    std::size_t lens = 0;  ///< Index in AdviceWanted::lenses.
    Viewpoint at;
    double limit_mm = 0;  ///< Of the grade, diffraction and all.
    std::vector<double> f_numbers;
};

/// A candidate with an opening, and the most blur that it could give the background.
struct Setting {
    std::size_t candidate = 0;
    Demand demand{};
    optics::AxialRange reach{};
    double bound_percent = 0;
};

class Adviser {
public:
    Adviser(const scene::Scene& scene, const AdviceWanted& wanted, const GoOn& go_on)
        : scene_{scene}, wanted_{wanted}, go_on_{go_on}, now_{face_table(scene,
                                                                         camera_view(scene))},
          still_{.free = std::vector<MoveRange>(scene.people.size()),
                 .rooms = {},
                 .is_carried = carried(scene)},
          moving_{.free = free_ranges(scene, wanted.most_move_cm),
                  .rooms = rooms_between(scene.people, wanted.most_move_cm),
                  .most_cm = wanted.most_move_cm,
                  .most_movers = movers_allowed(wanted, scene.people.size()),
                  .is_carried = carried(scene)},
          may_move_{moving_.most_cm > 0 && moving_.most_movers > 0} {}

    std::optional<Advice> advise();

private:
    [[nodiscard]] std::optional<Demand> demanded(const Candidate& candidate, double f_number,
                                                 double share_of_limit = 1) const;
    [[nodiscard]] scene::Scene placed(const CarriedLens& lens, double distance_m) const;
    [[nodiscard]] std::optional<Answer> tried(const Candidate& candidate, double f_number,
                                              const Obstacles& obstacles, FocusKind kind);
    [[nodiscard]] std::vector<Setting> settings(std::size_t lens, const Obstacles& obstacles);
    void prepare();
    void here();
    void elsewhere(std::size_t lens, const Obstacles& obstacles);
    [[nodiscard]] std::vector<LensOutcome> outcomes() const;
    [[nodiscard]] std::optional<Answer> nearest_miss() const;
    [[nodiscard]] bool stopped(double share) {
        is_stopped_ = is_stopped_ || !go_on_(share);
        return is_stopped_;
    }

    const scene::Scene& scene_;
    const AdviceWanted& wanted_;
    const GoOn& go_on_;
    FaceTable now_;
    Obstacles still_;
    Obstacles moving_;
    bool may_move_;
    std::vector<Candidate> candidates_;
    std::vector<Answer> pool_;
    std::vector<bool> loses_faces_;  ///< For each lens.
    bool is_stopped_ = false;
};

scene::Scene Adviser::placed(const CarriedLens& lens, double distance_m) const {
    scene::Scene scene = with_lens(scene_, lens);
    scene.camera.f_number = lens.widest_f_number;
    scene.camera.lens_to_mark_m = distance_m;
    return scene;
}

// What diffraction leaves of the limit, nothing where it leaves none. The scene's own focus stands
// for the one that is sought: how much the image lies farther back for a nearer one matters to
// diffraction alone, and answers are held to what they are in the end.
std::optional<Demand> Adviser::demanded(const Candidate& candidate, double f_number,
                                        double share_of_limit) const {
    scene::CameraView view = candidate.at.view;
    view.lens.f_number = f_number;
    const auto room_mm = optics::room_beside_diffraction_mm(share_of_limit * candidate.limit_mm,
                                                            diffraction_mm(scene_, view));
    if (!room_mm)
        return std::nullopt;
    return Demand{
        .f_number = f_number, .limit_mm = *room_mm, .margin_m = m_from_cm(wanted_.margin_cm)};
}

// The camera's aim follows the group and so the moves; where that spoils what just held, the limit
// is drawn tighter by what was lacking and the search done again.
std::optional<Answer> Adviser::tried(const Candidate& candidate, double f_number,
                                     const Obstacles& obstacles, FocusKind kind) {
    constexpr int rounds = 4;
    double share_of_limit = 1;
    for (int round = 0; round < rounds; ++round) {
        const auto demand = demanded(candidate, f_number, share_of_limit);
        const auto stance =
            demand ? best_stance(candidate.at, *demand, obstacles, kind) : std::nullopt;
        if (!stance)
            return std::nullopt;
        Answer answer = realised(scene_, wanted_, candidate.at, f_number, *stance);
        if (holds(answer, wanted_)) {
            answer.lens = candidate.lens;
            if (keeps_faces_in_sight(answer, now_))
                return answer;
            loses_faces_[candidate.lens] = true;
            return std::nullopt;
        }
        if (answer.drifted_share <= 1)
            return std::nullopt;
        share_of_limit /= answer.drifted_share;
    }
    return std::nullopt;
}

void Adviser::prepare() {
    const double head_px_now = mean_head_px(scene_);
    const std::vector<double> lens_to_mark_m = distances_m(scene_, wanted_);
    loses_faces_.resize(wanted_.lenses.size());
    for (std::size_t i = 0; i < wanted_.lenses.size(); ++i)
        for (const double distance_m : lens_to_mark_m) {
            const CarriedLens& lens = wanted_.lenses[i];
            Candidate candidate{
                .lens = i, .at = viewpoint(placed(lens, distance_m)), .f_numbers = {}};
            candidate.f_numbers = openings(
                lens, std::min(wanted_.narrowest_f_number, narrowest_f_number(candidate.at.scene)));
            candidate.limit_mm = grade_limit_mm(wanted_.grade, scene_.viewing, candidate.at.view);
            if (wanted_.after_crop)
                candidate.limit_mm /= std::max(1.0, head_px_now / mean_head_px(candidate.at.scene));
            candidates_.push_back(std::move(candidate));
        }
}

// From where the camera stands: for each lens the widest opening without moves, and every wider one
// that moves make possible.
void Adviser::here() {
    for (const Candidate& candidate : candidates_) {
        if (candidate.at.scene.camera.lens_to_mark_m != scene_.camera.lens_to_mark_m)
            continue;
        for (const FocusKind kind : {FocusKind::on_a_person, FocusKind::anywhere})
            for (const double f_number : candidate.f_numbers) {
                if (stopped(0))
                    return;
                if (auto answer = tried(candidate, f_number, still_, kind)) {
                    pool_.push_back(std::move(*answer));
                    break;
                }
                if (may_move_)
                    if (auto answer = tried(candidate, f_number, moving_, kind))
                        pool_.push_back(std::move(*answer));
            }
    }
}

/// Most blur that the background could get first.
std::vector<Setting> Adviser::settings(std::size_t lens, const Obstacles& obstacles) {
    std::vector<Setting> settings;
    for (std::size_t c = 0; c < candidates_.size(); ++c) {
        if (stopped(0.5 * static_cast<double>(c) / static_cast<double>(candidates_.size())))
            return {};
        const Candidate& candidate = candidates_[c];
        if (candidate.lens != lens)
            continue;
        if (!can_stay_framed(candidate.at, now_, obstacles.most_cm))
            continue;
        for (const double f_number : candidate.f_numbers) {
            const auto demand = demanded(candidate, f_number);
            const auto reach =
                demand ? reachable_span(candidate.at, *demand, obstacles.most_cm) : std::nullopt;
            if (!reach)
                continue;
            settings.push_back(
                {.candidate = c,
                 .demand = *demand,
                 .reach = *reach,
                 .bound_percent = background_percent(candidate.at, f_number, reach->near_m)});
            // Nobody moves: all narrower ones blur the background less.
            if (obstacles.most_cm == 0)
                break;
        }
    }
    std::ranges::stable_sort(settings, std::ranges::greater{}, &Setting::bound_percent);
    return settings;
}

/// The farthest focus that still gives the background more blur than this: the farther the focus,
/// the less blurred is what lies behind it.
double farthest_focus_m(const Viewpoint& at, const Setting& setting, double percent) {
    double more_m = setting.reach.near_m;
    double less_m = std::min(setting.reach.far_m, at.background_axial_m);
    constexpr int halvings = 40;
    for (int i = 0; i < halvings && std::isfinite(less_m); ++i) {
        const double middle_m = (more_m + less_m) / 2;
        const bool gives_more = background_percent(at, setting.demand.f_number, middle_m) > percent;
        (gives_more ? more_m : less_m) = middle_m;
    }
    return less_m;
}

// From anywhere else, with this lens: settings in the order of the most blur that they could give,
// until no setting left could give more than what was found.
void Adviser::elsewhere(std::size_t lens, const Obstacles& obstacles) {
    const std::vector<Setting> in_order = settings(lens, obstacles);
    double best_percent = 0;
    std::optional<Answer> best;
    for (std::size_t i = 0; i < in_order.size(); ++i) {
        const Setting& setting = in_order[i];
        if (setting.bound_percent <= best_percent)
            break;
        if (stopped(0.5 + 0.5 * static_cast<double>(i) / static_cast<double>(in_order.size())))
            return;
        const Candidate& candidate = candidates_[setting.candidate];
        if (!may_hold_nearer(candidate.at, setting.demand, obstacles,
                             farthest_focus_m(candidate.at, setting, best_percent)))
            continue;
        auto answer = tried(candidate, setting.demand.f_number, obstacles, FocusKind::anywhere);
        if (answer && answer->background.percent_of_height > best_percent) {
            best_percent = answer->background.percent_of_height;
            best = std::move(answer);
        }
    }
    if (best)
        pool_.push_back(std::move(*best));
}

// First with everybody in place, then at that lens, distance and opening with the moves that the
// least loosening of the limit needs.
std::optional<Answer> Adviser::nearest_miss() const {
    std::optional<Answer> nearest;
    bool nearest_in_sight = false;  // Whoever loses a face is nearest only where all do.
    const Candidate* from = nullptr;
    const auto offer = [&](const Candidate& candidate, Answer answer) {
        const bool in_sight = keeps_faces_in_sight(answer, now_);
        if (nearest &&
            (in_sight == nearest_in_sight ? answer.drifted_share >= nearest->drifted_share
                                          : nearest_in_sight))
            return;
        nearest = std::move(answer);
        nearest_in_sight = in_sight;
        from = &candidate;
    };
    for (const Candidate& candidate : candidates_)
        for (const double f_number : candidate.f_numbers)
            offer(candidate,
                  realised(scene_, wanted_, candidate.at, f_number,
                           {.on = {},
                            .focus_m = optics::evenest_focus_m(
                                stopped_lens(candidate.at, f_number),
                                drifted_both_ways(candidate.at.eyes, m_from_cm(wanted_.margin_cm))),
                            .moves_cm = std::vector<int>(scene_.people.size())}));
    if (!nearest || !may_move_)
        return nearest;
    double holds = nearest->drifted_share, fails = 1;
    const double f_number = nearest->view.lens.f_number;
    const Candidate& candidate = *from;
    constexpr double close_enough = 0.01;
    while (holds - fails > close_enough) {
        const double share = (holds + fails) / 2;
        const auto loosened = demanded(candidate, f_number, share);
        const auto stance = loosened
                                ? best_stance(candidate.at, *loosened, moving_, FocusKind::anywhere)
                                : std::nullopt;
        (stance ? holds : fails) = share;
        if (stance)
            offer(candidate, realised(scene_, wanted_, candidate.at, f_number, *stance));
    }
    return nearest;
}

std::vector<LensOutcome> Adviser::outcomes() const {
    std::vector<LensOutcome> outcomes;
    for (std::size_t i = 0; i < wanted_.lenses.size(); ++i)
        outcomes.push_back({.lens = wanted_.lenses[i],
                            .is_perfect = !with_lens(scene_, wanted_.lenses[i]).lens.profile,
                            .loses_faces = loses_faces_[i]});
    for (const Answer& answer : pool_) {
        auto& best = outcomes[answer.lens].best;
        if (!best || answer.background.percent_of_height > best->background_percent)
            best = {.f_number = answer.view.lens.f_number,
                    .lens_to_mark_m = answer.scene.camera.lens_to_mark_m,
                    .background_percent = answer.background.percent_of_height};
    }
    return outcomes;
}

std::optional<Advice> Adviser::advise() {
    prepare();
    here();
    const bool goes_elsewhere = candidates_.size() > wanted_.lenses.size();
    for (std::size_t lens = 0; lens < wanted_.lenses.size() && goes_elsewhere; ++lens) {
        elsewhere(lens, still_);
        if (may_move_)
            elsewhere(lens, moving_);
    }
    if (is_stopped_)
        return std::nullopt;
    Advice advice{.answers = {}, .nearest = {}, .lenses = outcomes()};
    advice.answers = ranked(std::move(pool_));
    for (std::size_t i = 0; i < advice.answers.size(); ++i)
        advice.lenses[advice.answers[i].lens].answers.push_back(i);
    if (advice.answers.empty())
        advice.nearest = nearest_miss();
    return advice;
}

}  // namespace

std::vector<Caution> all_cautions(const Advice& advice) {
    std::set<Caution> all;
    for (const Answer& answer : advice.answers)
        all.insert(answer.cautions.begin(), answer.cautions.end());
    if (advice.nearest)
        all.insert(advice.nearest->cautions.begin(), advice.nearest->cautions.end());
    return {all.begin(), all.end()};
}

std::optional<Advice> advise(const scene::Scene& scene, const AdviceWanted& wanted,
                             const GoOn& go_on) {
    return Adviser{scene, wanted, go_on}.advise();
}

}  // namespace backrow::plan
