#include "plan/advice.h"

#include "plan/advice_moves.h"
#include "plan/advice_viewpoint.h"
#include "plan/grade_limit.h"
#include "plan/head_in_picture.h"
#include "plan/room_between.h"

#include "optics/lens_profile.h"
#include "optics/stops.h"

#include "base/units.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace backrow::plan {
namespace {

/// How much of a face must show, unless less shows already.
constexpr double visible_enough = 0.9;

double mean_head_px(const scene::Scene& scene) {
    const scene::CameraView view = camera_view(scene);
    double sum = 0;
    for (const scene::Person& person : scene.people)
        sum += face_height_px(view, scene::reference_points(person));
    return sum / static_cast<double>(scene.people.size());
}

std::vector<double> openings(const CarriedLens& lens, double narrowest) {
    std::vector<double> f_numbers{lens.widest_f_number};
    for (const double mark : optics::marked_f_numbers())
        if (mark > lens.widest_f_number && mark <= narrowest)
            f_numbers.push_back(mark);
    return f_numbers;
}

/// A viewpoint with an opening, and the most blur that it could give the background.
struct Setting {
    std::size_t at = 0;
    double f_number = 0;
    double bound_percent = 0;
};

class Adviser {
public:
    Adviser(const scene::Scene& scene, const AdviceWanted& wanted, const GoOn& go_on)
        : scene_{scene}, wanted_{wanted}, go_on_{go_on}, now_{face_table(scene,
                                                                         camera_view(scene))},
          still_{.free = std::vector<MoveRange>(scene.people.size()), .rooms = {}},
          moving_{.free = free_ranges(scene, wanted.most_move_cm),
                  .rooms = rooms_between(scene.people, wanted.most_move_cm),
                  .most_cm = wanted.most_move_cm} {}

    std::optional<Advice> advise();

private:
    [[nodiscard]] scene::Scene placed(const CarriedLens& lens, double distance_m) const;
    [[nodiscard]] Answer realised(const Viewpoint& at, double f_number, const Stance& stance) const;
    [[nodiscard]] bool acceptable(const Answer& answer) const;
    [[nodiscard]] std::optional<Answer> tried(const Viewpoint& at, double f_number,
                                              const Obstacles& obstacles, FocusKind kind) const;
    void prepare();
    void here();
    void elsewhere(bool with_moves);
    void nearest_miss(Advice& advice) const;
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
    std::vector<Viewpoint> viewpoints_;
    std::vector<std::vector<double>> openings_;  ///< One for each viewpoint.
    std::vector<Answer> pool_;
    bool is_stopped_ = false;
};

scene::Scene Adviser::placed(const CarriedLens& lens, double distance_m) const {
    scene::Scene scene = scene_;
    if (lens.focal_length_mm != scene.camera.focal_length_mm)
        scene.lens.profile.reset();
    scene.camera.focal_length_mm = lens.focal_length_mm;
    scene.camera.f_number = lens.widest_f_number;
    scene.camera.lens_to_mark_m = distance_m;
    return scene;
}

Answer Adviser::realised(const Viewpoint& at, double f_number, const Stance& stance) const {
    Answer answer;
    answer.scene = at.scene;
    scene::Scene& scene = answer.scene;
    scene.camera.f_number = f_number;
    for (std::size_t i = 0; i < scene.people.size(); ++i) {
        const int cm = stance.moves_cm[i];
        if (cm == 0)
            continue;
        scene::Person& person = scene.people[i];
        person.place.back_m += m_from_cm(cm);
        person.own_back_m += m_from_cm(cm);
        answer.moves.push_back(
            {.name = person.name, .back_cm = cm, .is_raised = person.place.up_m > 0});
    }
    if (stance.on)
        scene.focus = scene::FocusOnPerson{scene.people[*stance.on].name};
    else
        scene.focus = scene::FocusAtDistance{stance.focus_m};
    answer.view = camera_view(scene);
    answer.table = face_table(scene, answer.view);
    answer.leeways = leeways(scene, answer.view, wanted_.grade);
    answer.background = background(scene, answer.view);

    const double size = mean_head_px(scene) / mean_head_px(scene_);
    answer.framing = {.size = size,
                      .crop = std::max(1.0, 1 / size),
                      .restoring_focal_length_mm = scene.camera.focal_length_mm / size};
    const double limit_mm = blur_limit_mm(wanted_.grade, scene.viewing, answer.view);
    const double limit_px = limit_mm * answer.view.px_per_mm();
    for (std::size_t i = 0; i < answer.table.faces.size(); ++i)
        if (answer.table.faces[i].predicted_blur_px >
            answer.table.faces[answer.worst].predicted_blur_px)
            answer.worst = i;
    answer.worst_share = answer.table.faces[answer.worst].predicted_blur_px / limit_px *
                         (wanted_.after_crop ? answer.framing.crop : 1);

    const optics::ShutterAndIso set{.shutter_s = scene_.camera.shutter_s, .iso = scene_.camera.iso};
    answer.stops_lost = optics::stops_between(scene_.camera.f_number, f_number);
    answer.payment = optics::pay_by_both(
        set, answer.stops_lost,
        std::min(answer.table.metering.handheld_limit_s, answer.table.metering.motion_limit_s));
    return answer;
}

bool Adviser::acceptable(const Answer& answer) const {
    for (std::size_t i = 0; i < now_.faces.size(); ++i) {
        const Face& before = now_.faces[i];
        const Face& after = answer.table.faces[i];
        if (after.grade > wanted_.grade || (before.in_frame && !after.in_frame) ||
            after.visible_fraction < std::min(before.visible_fraction, visible_enough))
            return false;
    }
    return answer.worst_share <= 1;
}

// The camera's aim follows the group and so the moves; where that spoils what just held, the limit
// is drawn tighter by what was lacking and the search done again.
std::optional<Answer> Adviser::tried(const Viewpoint& at, double f_number,
                                     const Obstacles& obstacles, FocusKind kind) const {
    Viewpoint strict = at;
    constexpr int rounds = 4;
    for (int round = 0; round < rounds; ++round) {
        const auto stance = best_stance(strict, f_number, obstacles, kind);
        if (!stance)
            return std::nullopt;
        Answer answer = realised(at, f_number, *stance);
        if (acceptable(answer))
            return answer;
        if (answer.worst_share <= 1)
            return std::nullopt;
        strict.limit_mm /= answer.worst_share;
    }
    return std::nullopt;
}

void Adviser::prepare() {
    const double here_m = scene_.camera.lens_to_mark_m;
    const double head_px_now = mean_head_px(scene_);
    for (const CarriedLens& lens : wanted_.lenses) {
        std::vector<double> distances_m{here_m};
        const double least = wanted_.least_distance_m > 0 ? wanted_.least_distance_m : here_m;
        const double greatest = std::max(wanted_.greatest_distance_m, here_m);
        for (int cm = static_cast<int>(std::ceil(cm_from_m(least))); m_from_cm(cm) <= greatest;
             ++cm)
            if (std::abs(m_from_cm(cm) - here_m) > 1e-9)
                distances_m.push_back(m_from_cm(cm));
        for (const double distance_m : distances_m) {
            Viewpoint at = viewpoint(placed(lens, distance_m), wanted_.grade);
            if (wanted_.after_crop)
                at.limit_mm /= std::max(1.0, head_px_now / mean_head_px(at.scene));
            viewpoints_.push_back(std::move(at));
            openings_.push_back(openings(lens, wanted_.narrowest_f_number));
        }
    }
}

// From where the camera stands: for each lens the widest opening without moves, and every wider one
// that moves make possible.
void Adviser::here() {
    for (std::size_t s = 0; s < viewpoints_.size(); ++s) {
        const Viewpoint& at = viewpoints_[s];
        if (at.scene.camera.lens_to_mark_m != scene_.camera.lens_to_mark_m)
            continue;
        for (const FocusKind kind : {FocusKind::on_a_person, FocusKind::anywhere})
            for (const double f_number : openings_[s]) {
                if (stopped(0))
                    return;
                if (auto answer = tried(at, f_number, still_, kind)) {
                    pool_.push_back(std::move(*answer));
                    break;
                }
                if (wanted_.most_move_cm > 0)
                    if (auto answer = tried(at, f_number, moving_, kind))
                        pool_.push_back(std::move(*answer));
            }
    }
}

// From anywhere else: settings in the order of the most blur that they could give, until no setting
// left could give more than what was found.
void Adviser::elsewhere(bool with_moves) {
    const Obstacles& obstacles = with_moves ? moving_ : still_;
    std::vector<Setting> settings;
    for (std::size_t s = 0; s < viewpoints_.size(); ++s) {
        if (stopped(0.5 * static_cast<double>(s) / static_cast<double>(viewpoints_.size())))
            return;
        const Viewpoint& at = viewpoints_[s];
        const scene::CameraView view = camera_view(at.scene);
        const double behind_m = background(at.scene, view).axial_m;
        for (const double f_number : openings_[s]) {
            const auto span = reachable_span(at, f_number, obstacles.most_cm);
            if (!span)
                continue;
            const double blur_mm = optics::spot_diameter_mm(view.profile, view.focal_length_mm,
                                                            f_number, span->near_m, behind_m, 0);
            settings.push_back({.at = s,
                                .f_number = f_number,
                                .bound_percent = 100 * blur_mm / view.sensor_height_mm});
            if (!with_moves)
                break;
        }
    }
    std::ranges::stable_sort(settings, std::ranges::greater{}, &Setting::bound_percent);
    double best_percent = 0;
    std::optional<Answer> best;
    for (std::size_t i = 0; i < settings.size(); ++i) {
        if (settings[i].bound_percent <= best_percent)
            break;
        if (stopped(0.5 + 0.5 * static_cast<double>(i) / static_cast<double>(settings.size())))
            return;
        auto answer = tried(viewpoints_[settings[i].at], settings[i].f_number, obstacles,
                            FocusKind::anywhere);
        if (answer && answer->background.percent_of_height > best_percent) {
            best_percent = answer->background.percent_of_height;
            best = std::move(answer);
        }
    }
    if (best)
        pool_.push_back(std::move(*best));
}

void Adviser::nearest_miss(Advice& advice) const {
    for (std::size_t s = 0; s < viewpoints_.size(); ++s)
        for (const double f_number : openings_[s]) {
            auto lens = viewpoints_[s].lens;
            lens.f_number = f_number;
            const Stance even{.on = {},
                              .focus_m = optics::evenest_focus_m(lens, viewpoints_[s].eyes),
                              .moves_cm = std::vector<int>(scene_.people.size())};
            Answer answer = realised(viewpoints_[s], f_number, even);
            if (!advice.nearest || answer.worst_share < advice.nearest->worst_share)
                advice.nearest = std::move(answer);
        }
}

/// Whether one asks for nothing that the other does not ask for, and is as good.
bool makes_needless(const Answer& one, const Answer& other) {
    constexpr double as_good = 0.98;
    const auto between = [](const Answer& answer) {
        return std::holds_alternative<scene::FocusAtDistance>(answer.scene.focus);
    };
    const auto same = [](double a, double b) { return std::abs(a - b) < 1e-9; };
    const scene::Camera& a = one.scene.camera;
    const scene::Camera& b = other.scene.camera;
    return one.background.percent_of_height >= as_good * other.background.percent_of_height &&
           one.moved_cm() <= other.moved_cm() && same(a.focal_length_mm, b.focal_length_mm) &&
           same(a.lens_to_mark_m, b.lens_to_mark_m) && (!between(one) || between(other));
}

std::vector<Answer> ranked(std::vector<Answer> pool) {
    std::ranges::stable_sort(pool, [](const Answer& a, const Answer& b) {
        if (a.background.percent_of_height != b.background.percent_of_height)
            return a.background.percent_of_height > b.background.percent_of_height;
        return a.moved_cm() < b.moved_cm();
    });
    std::vector<Answer> kept;
    for (std::size_t i = 0; i < pool.size(); ++i) {
        bool needless = false;
        for (std::size_t j = 0; j < pool.size() && !needless; ++j)
            needless = i != j && makes_needless(pool[j], pool[i]) &&
                       (j < i || !makes_needless(pool[i], pool[j]));
        if (!needless)
            kept.push_back(pool[i]);
    }
    // Too many to choose from: the one for which nobody moves stays, with the most blurred.
    constexpr std::size_t most_answers = 6;
    if (kept.size() > most_answers) {
        const auto simple =
            std::ranges::find_if(kept, [](const Answer& answer) { return answer.moves.empty(); });
        const bool is_late = simple != kept.end() &&
                             simple - kept.begin() >= static_cast<std::ptrdiff_t>(most_answers);
        if (is_late)
            std::iter_swap(kept.begin() + most_answers - 1, simple);
        kept.erase(kept.begin() + most_answers, kept.end());
    }
    return kept;
}

std::optional<Advice> Adviser::advise() {
    prepare();
    here();
    const bool goes_elsewhere = viewpoints_.size() > wanted_.lenses.size();
    if (goes_elsewhere) {
        elsewhere(false);
        if (wanted_.most_move_cm > 0)
            elsewhere(true);
    }
    if (is_stopped_)
        return std::nullopt;
    Advice advice{.answers = ranked(std::move(pool_)), .nearest = {}};
    if (advice.answers.empty())
        nearest_miss(advice);
    return advice;
}

}  // namespace

CarriedLens scene_lens(const scene::Scene& scene) {
    const double set = scene.camera.f_number;
    return {.focal_length_mm = scene.camera.focal_length_mm,
            .widest_f_number =
                scene.lens.profile ? std::min(set, scene.lens.profile->widest_f_number) : set};
}

int Answer::moved_cm() const {
    int sum = 0;
    for (const Move& move : moves)
        sum += std::abs(move.back_cm);
    return sum;
}

std::optional<Advice> advise(const scene::Scene& scene, const AdviceWanted& wanted,
                             const GoOn& go_on) {
    return Adviser{scene, wanted, go_on}.advise();
}

}  // namespace backrow::plan
