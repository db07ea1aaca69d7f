#include "plan/advice/advice_moves.h"

#include "optics/blur_circle.h"

#include "base/units.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <functional>
#include <numeric>

namespace backrow::plan {
namespace {

using Moves = std::vector<int>;

int sum_of_sizes(const Moves& moves_cm) {
    return std::accumulate(moves_cm.begin(), moves_cm.end(), 0,
                           [](int sum, int cm) { return sum + std::abs(cm); });
}

std::vector<optics::PointInView> moved_eyes(const Viewpoint& at, const Moves& moves_cm) {
    std::vector<optics::PointInView> eyes;
    eyes.reserve(at.eyes.size());
    for (std::size_t i = 0; i < at.eyes.size(); ++i)
        eyes.push_back(stepped_back(at, at.eyes[i], m_from_cm(moves_cm[i])));
    return eyes;
}

/// Least moves with the focus somewhere in the span.
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
    return least_moves(ranges, obstacles.rooms);
}

/// The focus distances that could serve, cut into cells of a centimetre of back.
class FocusCells {
public:
    FocusCells(const Viewpoint& at, const Demand& demand, const Obstacles& obstacles,
               const optics::AxialRange& reach)
        : step_m_{m_from_cm(1) * std::max(axial_per_back(at), steepest)} {
        // Spherical aberration may put the best focus outside the group.
        double nearest = optics::evenest_focus_m(stopped_lens(at, demand.f_number), at.eyes);
        double farthest = nearest;
        for (const optics::PointInView& eye : at.eyes) {
            nearest = std::min(nearest, eye.axial_m);
            farthest = std::max(farthest, eye.axial_m);
        }
        const double most_m = m_from_cm(obstacles.most_cm) * axial_per_back(at);
        from_m_ = std::max(reach.near_m, nearest - most_m);
        to_m_ = std::min(reach.far_m, farthest + most_m);
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

    [[nodiscard]] bool hopeless(const optics::AxialRange& span) const {
        const auto least = moves_within(at_, demand_, obstacles_, span);
        return !least || (best_ && sum_of_sizes(*least) > best_->moved_cm());
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

    /// The middle of the cell, and what is evenest for its moves, to the millimetre.
    void between(const optics::AxialRange& cell) {
        const double middle_m = (cell.near_m + cell.far_m) / 2;
        auto moves = moves_within(at_, demand_, obstacles_, {middle_m, middle_m});
        if (!moves)
            return;
        const double even_m =
            optics::evenest_focus_m(stopped_lens(at_, demand_.f_number), moved_eyes(at_, *moves));
        offer(std::nullopt, middle_m, *moves);
        offer(std::nullopt, m_from_mm(std::round(mm_from_m(even_m))), std::move(*moves));
    }

    void offer(std::optional<std::size_t> on, double focus_m, Moves moves_cm) {
        Stance stance{.on = on, .focus_m = focus_m, .moves_cm = std::move(moves_cm)};
        if (best_ && stance.moved_cm() > best_->moved_cm())
            return;
        stance.worst_mm = worst_mm(stance);
        if (stance.worst_mm > demand_.limit_mm)
            return;
        if (!best_ || stance.moved_cm() < best_->moved_cm() || stance.worst_mm < best_->worst_mm)
            best_ = std::move(stance);
    }

    [[nodiscard]] double worst_mm(const Stance& stance) const {
        const auto lens = stopped_lens(at_, demand_.f_number).focused_at(stance.focus_m);
        if (!lens)
            return std::numeric_limits<double>::infinity();
        double worst = 0;
        for (const optics::PointInView& eye : moved_eyes(at_, stance.moves_cm))
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

int Stance::moved_cm() const {
    return sum_of_sizes(moves_cm);
}

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
