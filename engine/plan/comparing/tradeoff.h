#pragma once

// What distance and aperture do to the group: how blurred the worst face is, how blurred the
// background, and whom the frame cuts, from every distance and at every f-number of a range, with
// the lens of the scene.

#include "plan/comparing/carried_lens.h"
#include "plan/comparing/cautions.h"
#include "plan/comparing/viewpoint.h"
#include "plan/faces/whole_group.h"
#include "scene/scene.h"

#include "optics/blur/viewing.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace backrow::plan {

/// What is looked at. All positive; the nearer and the wider end really smaller than the other.
struct TradeoffRange {
    double nearest_m = 0;  ///< Lens to mark, along the ground.
    double farthest_m = 0;
    double widest_f_number = 0;
    double narrowest_f_number = 0;

    /// Ends included.
    [[nodiscard]] bool holds_distance(double lens_to_mark_m) const {
        return lens_to_mark_m >= nearest_m && lens_to_mark_m <= farthest_m;
    }
    [[nodiscard]] bool holds(double lens_to_mark_m, double f_number) const {
        return holds_distance(lens_to_mark_m) && f_number >= widest_f_number &&
               f_number <= narrowest_f_number;
    }
};

/// What the user asked for, each only if it was.
struct WantedRange {
    std::optional<double> nearest_m{};
    std::optional<double> farthest_m{};
    std::optional<double> widest_f_number{};
    std::optional<double> narrowest_f_number{};
};

/// The range with what was not asked for filled in: from 0.6 times to twice the present distance,
/// but no nearer than nearest_viewpoint_m() and no farther than a scene may have it; from the
/// widest opening of the lens profile, without one from f/1.2, or from the scene's own opening
/// where that is wider, to f/16. It is stretched to where the lenses carried frame as now. Ends
/// that would coincide with one asked for, or lie on its wrong side, give way.
[[nodiscard]] TradeoffRange tradeoff_range(const scene::Scene& scene, const WantedRange& wanted,
                                           const std::vector<CarriedLens>& lenses);

/// One distance and one f-number.
struct TradeoffCell {
    double f_number = 0;
    MostBlurred worst{};
    double worst_px = 0;  ///< The same blur in camera pixels.
    optics::JudgedBlur judged_blur{};
    optics::Grade grade = optics::Grade::crisp;
    double background_percent = 0;  ///< Of the height of the picture.
};

struct TradeoffRow {
    double lens_to_mark_m = 0;
    double focus_m = 0;  ///< Axial.
    FrameCuts cut{};     ///< Aimed as the scene is; the same at every f-number.
    std::vector<TradeoffCell> cells{};
};

/// Apertures from the widest to the narrowest at which a grade holds: defocus sets the one end,
/// diffraction the other.
struct FNumbers {
    double from = 0;
    double to = 0;

    bool operator==(const FNumbers&) const = default;
};

/// Where a grade holds for every face.
struct Holding {
    /// Columns without a gap at which it holds at the present distance: the narrowest such.
    std::optional<FNumbers> f_numbers{};
    /// The shortest distance of the range from which on, to the farthest, it holds at the present
    /// f-number; within a millimetre, and it does hold there.
    std::optional<double> from_m{};
    bool everywhere = false;  ///< At every sample of the range.
    bool nowhere = false;

    /// Whether a border runs through the range.
    [[nodiscard]] bool in_part() const { return !everywhere && !nowhere; }
};

/// A lens that is carried, at the distance where it shows the faces as large as they are now.
struct FramingLens {
    double focal_length_mm = 0;
    double widest_f_number = 0;  ///< 0 where nobody has said.
    bool is_own = false;         ///< The scene's.
    bool is_perfect = true;      ///< Has no profile.
    std::optional<double>
        lens_to_mark_m{};            ///< None: among the people, or beyond what a scene may have.
    std::optional<FNumbers> fine{};  ///< As in Holding, with this lens from there.
    std::optional<FNumbers> crisp{};
    double background_percent = 0;  ///< There, at fine->from; 0 where there is none.
    FrameCuts cut{};                ///< There; of nobody where there is no such distance.
};

/// Numbers over the whole range, evenly spaced in distance and in stops.
struct TradeoffSamples {
    std::size_t distances = 0;          ///< From the nearest.
    std::size_t f_numbers = 0;          ///< From the widest.
    std::vector<double> judged_blur{};  ///< Amounts; all distances of the widest opening first.
    std::vector<double> background_percent{};
    std::vector<double> framing_focal_length_mm{};  ///< At each distance: the lens that would show
                                                    ///< the faces as large as they are now.
    std::vector<bool> heads_whole{};  ///< At each distance: every head whole in the picture.
};

struct Tradeoff {
    TradeoffRange range;
    TradeoffRow now;                  ///< The scene's own setting, one cell, in the range or not.
    std::vector<double> f_numbers{};  ///< Third stops within the range, its ends, the scene's own.
    std::vector<TradeoffRow> rows{};  ///< Round distances within the range, the scene's own.
    Holding fine{};
    Holding crisp{};
    /// As Holding::f_numbers, with the focus balanced between the nearest and the farthest eye.
    std::optional<FNumbers> balanced_fine{};
    std::optional<FNumbers> balanced_crisp{};
    /// The shortest distance of the range from which on, to the farthest, every head is whole in
    /// the picture; within a millimetre, and it is so there.
    std::optional<double> heads_whole_from_m{};
    std::optional<WholeGroup> whole_group{};  ///< mend_framing() of the present setting.
    std::vector<FramingLens> lenses{};
    std::vector<Caution> cautions{};  ///< Of going to the distances that the answers name.
    TradeoffSamples samples{};
};

/// range   tradeoff_range(), or one like it: nobody nearer than scene::nearest_person_m
/// lenses  those carried, besides the scene's own; a widest_f_number of 0 opens as far as the range
[[nodiscard]] Tradeoff tradeoff(const scene::Scene& scene, const TradeoffRange& range,
                                const std::vector<CarriedLens>& lenses);

/// As Tradeoff::lenses has them: those carried and the scene's own, each once, shortest first.
///
/// f_numbers  in which from_f_number is sought, from the widest; not empty
[[nodiscard]] std::vector<FramingLens> framing_lenses(const scene::Scene& scene,
                                                      const std::vector<CarriedLens>& lenses,
                                                      const std::vector<double>& f_numbers);

}  // namespace backrow::plan
