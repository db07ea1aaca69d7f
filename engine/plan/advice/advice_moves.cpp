#include "plan/advice/advice_moves.h"

#include "optics/blur/blur_circle.h"

#include "base/units.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <functional>
#include <numeric>

namespace backrow::plan {
namespace {

using Moves = std::vector<int>;

Effort effort_of(const Moves& moves_cm, const Obstacles& obstacles) {
    Effort effort;
    for (std::size_t i = 0; i < moves_cm.size(); ++i)
        if (moves_cm[i] != 0 && !obstacles.is_carried[i]) {
            ++effort.movers;
            effort.cm += std::abs(moves_cm[i]);
        }
    return effort;
}

std::vector<optics::PointInView> moved_eyes(const Viewpoint& at, const Moves& moves_cm) {
    std::vector<optics::PointInView> eyes;
    eyes.reserve(at.eyes.size());
    for (std::size_t i = 0; i < at.eyes.size(); ++i)
        eyes.push_back(stepped_back(at, at.eyes[i], m_from_cm(moves_cm[i])));
    return eyes;
}

/// Least moves with the focus somewhere in the span, of no more people than may be asked. Nobody
/// stays in any other moves who moves in these (least_moves.h), so these ask the fewest, too.
std::optional<Moves> moves_within(const Viewpoint& at, const Demand& demand,
                                  const Obstacles& obstacles, const optics::AxialRange& focus,
                                  std::optional<std::size_t> settled = {}, int settled_cm = 0) {
    std::vector<MoveRange> ranges = holding_ranges(at, demand, focus);
    for (std::size_t i = 0; i < ranges.size(); ++i) {
        ranges[i].from_cm = std::max(ranges[i].from_cm, obstacles.free[i].from_cm);
        ranges[i].to_cm = std::min(ranges[i].to_cm, obstacles.free[i].to_cm);
        if (settled == i) {
            ranges[i].from_cm = std::max(ranges[i].from_cm, settled_cm);
            ranges[i].to_cm = std::min(ranges[i].to_cm, settled_cm);
        }
        if (ranges[i].from_cm > ranges[i].to_cm)
            return std::nullopt;
    }
    auto least = least_moves(ranges, obstacles.rooms);
    if (least && effort_of(*least, obstacles).movers > obstacles.most_movers)
        return std::nullopt;
    return least;
}

/// The focus distances that could serve, cut into cells of a centimetre of back.
class FocusCells {
public:
    FocusCells(const Viewpoint& at, const Demand& demand, const Obstacles& obstacles,
               const optics::AxialRange& reach)
        : step_m_{m_from_cm(1) * std::max(axial_per_back(at), steepest)} {
        // Behind the last eye there is nothing that blurs the background more, but with spherical
        // aberration the best focus may lie there.
        double farthest = optics::evenest_focus_m(stopped_lens(at, demand.f_number), at.eyes);
        for (const optics::PointInView& eye : at.eyes)
            farthest = std::max(farthest, eye.axial_m);
        from_m_ = reach.near_m;
        to_m_ = std::min(reach.far_m, farthest + m_from_cm(obstacles.most_cm) * axial_per_back(at));
    }

    /// Zero where nothing could serve.
    [[nodiscard]] int count() const {
        return from_m_ <= to_m_ ? 1 + static_cast<int>((to_m_ - from_m_) / step_m_) : 0;
    }

    /// From the near end of cell first to the far end of cell last − 1.
    [[nodiscard]] optics::AxialRange span(int first, int last) const {
        return {from_m_ + first * step_m_, std::min(from_m_ + last * step_m_, to_m_)};
    }

private:
    /// A camera that looks down more steeply gets cells of more than a centimetre of back.
    static constexpr double steepest = 0.05;

    double step_m_;
    double from_m_ = 0;
    double to_m_ = 0;
};

/// Halves the stretch of cells, again and again, as long as it is not given up, and visits the
/// cells that are left from near to far.
///
/// give_up  told a span of focus distances, whether nothing in it is of use
/// visit    told a cell; returns whether to go on
bool visit_cells(const FocusCells& cells, int first, int last,
                 const std::function<bool(const optics::AxialRange&)>& give_up,
                 const std::function<bool(const optics::AxialRange&)>& visit) {
    const optics::AxialRange span = cells.span(first, last);
    if (first >= last || give_up(span))
        return true;
    if (last - first == 1)
        return visit(span);
    const int middle = first + (last - first) / 2;
    return visit_cells(cells, first, middle, give_up, visit) &&
           visit_cells(cells, middle, last, give_up, visit);
}

class Search {
public:
    Search(const Viewpoint& at, const Demand& demand, const Obstacles& obstacles, FocusKind kind)
        : at_{at}, demand_{demand}, obstacles_{obstacles}, kind_{kind} {}

    void in_cell(const optics::AxialRange& cell) {
        on_people(cell);
        if (kind_ == FocusKind::anywhere)
            between(cell);
    }

    /// Nearer cells come first, so the same effort again would only be focused farther.
    [[nodiscard]] bool hopeless(const optics::AxialRange& span) const {
        const auto least = moves_within(at_, demand_, obstacles_, span);
        return !least || (best_ && effort_of(*least, obstacles_) >= best_->effort);
    }

    [[nodiscard]] const std::optional<Stance>& best() const { return best_; }

private:
    /// Whoever can stand in the cell at a whole centimetre is focused on there.
    void on_people(const optics::AxialRange& cell) {
        const double per_back = axial_per_back(at_);
        for (std::size_t i = 0; i < at_.eyes.size(); ++i) {
            const double axial = at_.eyes[i].axial_m;
            const int cm = static_cast<int>(std::ceil(cm_from_m((cell.near_m - axial) / per_back)));
            const double focus_m = axial + m_from_cm(cm) * per_back;
            if (std::abs(cm) > obstacles_.most_cm || focus_m > cell.far_m)
                continue;
            if (auto moves = moves_within(at_, demand_, obstacles_, {focus_m, focus_m}, i, cm))
                offer(i, focus_m, std::move(*moves));
        }
    }

    /// For the moves that the middle of the cell asks for, the nearest focus that holds, to the
    /// millimetre; where rounding or field curvature spoil that, the evenest, or the middle itself.
    void between(const optics::AxialRange& cell) {
        const double middle_m = (cell.near_m + cell.far_m) / 2;
        auto moves = moves_within(at_, demand_, obstacles_, {middle_m, middle_m});
        if (!moves)
            return;
        const auto eyes = moved_eyes(at_, *moves);
        const double even_m = optics::evenest_focus_m(stopped_lens(at_, demand_.f_number),
                                                      drifted_both_ways(eyes, demand_.margin_m));
        if (const auto span = holding_span(at_, eyes, demand_))
            offer(std::nullopt, m_from_mm(std::ceil(mm_from_m(span->near_m))), *moves);
        offer(std::nullopt, m_from_mm(std::round(mm_from_m(even_m))), *moves);
        offer(std::nullopt, middle_m, std::move(*moves));
    }

    void offer(std::optional<std::size_t> on, double focus_m, Moves moves_cm) {
        Stance stance{.on = on, .focus_m = focus_m, .moves_cm = std::move(moves_cm), .effort = {}};
        stance.effort = effort_of(stance.moves_cm, obstacles_);
        const auto is_better = [&] {
            return !best_ || stance.effort < best_->effort ||
                   (stance.effort == best_->effort && focus_m < best_->focus_m);
        };
        if (is_better() && worst_mm(stance) <= demand_.limit_mm)
            best_ = std::move(stance);
    }

    /// The largest blur when anybody drifts; where the focus is on somebody, also when they drift
    /// and the camera follows.
    [[nodiscard]] double worst_mm(const Stance& stance) const {
        const auto eyes = moved_eyes(at_, stance.moves_cm);
        double worst = largest_blur_mm(drifted_both_ways(eyes, demand_.margin_m), stance.focus_m);
        if (stance.on && demand_.margin_m > 0) {
            auto others = eyes;
            others.erase(others.begin() + static_cast<std::ptrdiff_t>(*stance.on));
            for (const double by_m : {-demand_.margin_m, demand_.margin_m})
                worst = std::max(worst, largest_blur_mm(others, stance.focus_m + by_m));
        }
        return worst;
    }

    [[nodiscard]] double largest_blur_mm(const std::vector<optics::PointInView>& eyes,
                                         double focus_m) const {
        const auto lens = stopped_lens(at_, demand_.f_number).focused_at(focus_m);
        if (!lens)
            return std::numeric_limits<double>::infinity();
        double worst = 0;
        for (const optics::PointInView& eye : eyes)
            worst = std::max(
                worst, optics::blur_diameter_mm(*lens, eye.axial_m,
                                                optics::image_height(*lens, eye.field_tangent)));
        return worst;
    }

    const Viewpoint& at_;
    const Demand& demand_;
    const Obstacles& obstacles_;
    FocusKind kind_;
    std::optional<Stance> best_;
};

}  // namespace

// What a stretch of focus distances allows is at least what any focus in it allows, and so its
// least moves are no more than those of any focus in it: a stretch is given up only where nothing
// in it could be better.
std::optional<Stance> best_stance(const Viewpoint& at, const Demand& demand,
                                  const Obstacles& obstacles, FocusKind kind) {
    const auto reach = reachable_span(at, demand, obstacles.most_cm);
    if (!reach)
        return std::nullopt;
    const FocusCells cells{at, demand, obstacles, *reach};
    Search search{at, demand, obstacles, kind};
    visit_cells(
        cells, 0, cells.count(),
        [&](const optics::AxialRange& span) { return search.hopeless(span); },
        [&](const optics::AxialRange& cell) {
            search.in_cell(cell);
            return true;
        });
    return search.best();
}

bool may_hold_nearer(const Viewpoint& at, const Demand& demand, const Obstacles& obstacles,
                     double focus_m) {
    const auto reach = reachable_span(at, demand, obstacles.most_cm);
    if (!reach || reach->near_m > focus_m)
        return false;
    const FocusCells cells{at, demand, obstacles, *reach};
    return !visit_cells(
        cells, 0, cells.count(),
        [&](const optics::AxialRange& span) {
            return span.near_m > focus_m || !moves_within(at, demand, obstacles, span);
        },
        [](const optics::AxialRange& /*cell*/) { return false; });
}

}  // namespace backrow::plan
