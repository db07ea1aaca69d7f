#include "plan/advice_moves.h"

#include "optics/lens_profile.h"

#include "base/units.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <numeric>

namespace backrow::plan {
namespace {

optics::PointInView moved_eye(const Viewpoint& at, std::size_t i, int cm) {
    const optics::PointInView& eye = at.eyes[i];
    const double axial = eye.axial_m + m_from_cm(cm) * at.axial_per_back;
    return {axial, eye.slope * eye.axial_m / axial};
}

double worst_mm(const Viewpoint& at, double f_number, const Stance& stance) {
    const double v_mm = 1 / (1 / at.lens.focal_length_mm - 1 / mm_from_m(stance.focus_m));
    double worst = 0;
    for (std::size_t i = 0; i < at.eyes.size(); ++i) {
        const optics::PointInView eye = moved_eye(at, i, stance.moves_cm[i]);
        worst =
            std::max(worst, optics::spot_diameter_mm(at.lens.profile, at.lens.focal_length_mm,
                                                     f_number, stance.focus_m, eye.axial_m,
                                                     v_mm * eye.slope / at.lens.half_diagonal_mm));
    }
    return worst;
}

class Search {
public:
    Search(const Viewpoint& at, double f_number, const Obstacles& obstacles)
        : at_{at}, f_number_{f_number}, obstacles_{obstacles} {}

    /// Least moves with the focus somewhere in the span; one person's move may be settled.
    [[nodiscard]] std::optional<std::vector<int>> moves(const optics::FocusSpan& focus,
                                                        std::optional<std::size_t> settled = {},
                                                        int settled_cm = 0) const {
        std::vector<MoveRange> ranges = holding_ranges(at_, f_number_, focus);
        for (std::size_t i = 0; i < ranges.size(); ++i) {
            ranges[i].from_cm = std::max(ranges[i].from_cm, obstacles_.free[i].from_cm);
            ranges[i].to_cm = std::min(ranges[i].to_cm, obstacles_.free[i].to_cm);
            if (settled == i) {
                ranges[i].from_cm = std::max(ranges[i].from_cm, settled_cm);
                ranges[i].to_cm = std::min(ranges[i].to_cm, settled_cm);
            }
            if (ranges[i].from_cm > ranges[i].to_cm)
                return std::nullopt;
        }
        return least_moves(ranges, obstacles_.rooms);
    }

    void offer(std::optional<std::size_t> on, double focus_m, std::vector<int> moves_cm) {
        Stance stance{.on = on, .focus_m = focus_m, .moves_cm = std::move(moves_cm)};
        stance.worst_mm = worst_mm(at_, f_number_, stance);
        if (stance.worst_mm > at_.limit_mm)
            return;
        if (!best_ || stance.moved_cm() < best_->moved_cm() ||
            (stance.moved_cm() == best_->moved_cm() && stance.worst_mm < best_->worst_mm))
            best_ = std::move(stance);
    }

    [[nodiscard]] bool hopeless(const std::optional<std::vector<int>>& relaxed) const {
        if (!relaxed)
            return true;
        const Stance least{.on = {}, .moves_cm = *relaxed};
        return best_ && least.moved_cm() > best_->moved_cm();
    }

    [[nodiscard]] const std::optional<Stance>& best() const { return best_; }

private:
    const Viewpoint& at_;
    double f_number_;
    const Obstacles& obstacles_;
    std::optional<Stance> best_;
};

/// The middle of a stretch, to the millimetre where that stays inside.
double round_middle_m(const Viewpoint& at, double f_number, const std::vector<int>& moves_cm) {
    std::vector<optics::PointInView> eyes;
    for (std::size_t i = 0; i < at.eyes.size(); ++i)
        eyes.push_back(moved_eye(at, i, moves_cm[i]));
    auto lens = at.lens;
    lens.f_number = f_number;
    return m_from_mm(std::round(mm_from_m(optics::evenest_focus_m(lens, eyes))));
}

}  // namespace

int Stance::moved_cm() const {
    return std::accumulate(moves_cm.begin(), moves_cm.end(), 0,
                           [](int sum, int cm) { return sum + std::abs(cm); });
}

// The focus is cut into stretches of a centimetre. What a whole stretch allows is at least what any
// focus in it allows, and so its least moves are no more than those of any focus in it: a stretch
// is passed over only where nothing in it could be better.
std::optional<Stance> best_stance(const Viewpoint& at, double f_number, const Obstacles& obstacles,
                                  FocusKind kind) {
    const auto reach = reachable_span(at, f_number, obstacles.most_cm);
    if (!reach)
        return std::nullopt;
    Search search{at, f_number, obstacles};
    // Spherical aberration may put the best focus outside the group.
    auto lens = at.lens;
    lens.f_number = f_number;
    double nearest = optics::evenest_focus_m(lens, at.eyes), farthest = nearest;
    for (const optics::PointInView& eye : at.eyes) {
        nearest = std::min(nearest, eye.axial_m);
        farthest = std::max(farthest, eye.axial_m);
    }
    const double reach_m = m_from_cm(obstacles.most_cm) * at.axial_per_back;
    const double from_m = std::max(reach->near_m, nearest - reach_m);
    const double to_m = std::min(reach->far_m, farthest + reach_m);
    const double step_m = m_from_cm(1) * at.axial_per_back;
    for (double near_m = from_m; near_m <= to_m; near_m += step_m) {
        const optics::FocusSpan cell{near_m, std::min(near_m + step_m, to_m)};
        if (search.hopeless(search.moves(cell)))
            continue;
        for (std::size_t i = 0; i < at.eyes.size(); ++i) {
            const double axial = at.eyes[i].axial_m;
            const int first =
                static_cast<int>(std::ceil(cm_from_m((cell.near_m - axial) / at.axial_per_back)));
            const double focus_m = axial + m_from_cm(first) * at.axial_per_back;
            if (std::abs(first) > obstacles.most_cm || focus_m > cell.far_m)
                continue;
            if (auto moves = search.moves({focus_m, focus_m}, i, first))
                search.offer(i, focus_m, std::move(*moves));
        }
        if (kind == FocusKind::anywhere) {
            const double middle_m = (cell.near_m + cell.far_m) / 2;
            if (auto moves = search.moves({middle_m, middle_m})) {
                const double even_m = round_middle_m(at, f_number, *moves);
                search.offer(std::nullopt, middle_m, *moves);
                search.offer(std::nullopt, even_m, std::move(*moves));
            }
        }
    }
    return search.best();
}

}  // namespace backrow::plan
