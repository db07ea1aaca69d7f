#include "report/tradeoff/tradeoff_marks.h"

#include "report/tradeoff/tradeoff_style.h"

#include <algorithm>
#include <cstddef>
#include <limits>

namespace backrow::report {
namespace {

using namespace tradeoff_style;

const Lettering now_lettering{.size_px = 9, .bold = true, .colour = ink};
constexpr const char* now_word = "now";

constexpr double mark_room_px = 8;
constexpr double plate_half_height_px = 6;
constexpr double plate_side_px = 3;  // Paper left and right of the word.
constexpr double beside_px = 7;      // From the middle of the mark to the plate, its ring between.

Frame plate_round(const Point2& middle, double word_px) {
    const double half_px = word_px / 2 + plate_side_px;
    return {.left = middle.x - half_px,
            .top = middle.y - plate_half_height_px,
            .right = middle.x + half_px,
            .bottom = middle.y + plate_half_height_px};
}

/// To the right, to the left, above, below; moved along the mark's side to stay in the frame, left
/// out where that cannot be.
std::vector<Frame> places_of_word(const Point2& now, double word_px, const Frame& frame) {
    const double half_px = word_px / 2 + plate_side_px;
    constexpr double edge_px = 1;
    const auto within = [](double place, double from, double to) {
        return std::max(from, std::min(place, to));
    };
    const double x = within(now.x, frame.left + half_px + edge_px, frame.right - half_px - edge_px);
    const double y = within(now.y, frame.top + plate_half_height_px + edge_px,
                            frame.bottom - plate_half_height_px - edge_px);
    std::vector<Frame> places;
    for (const Point2& middle :
         {Point2{now.x + beside_px + half_px, y}, Point2{now.x - beside_px - half_px, y},
          Point2{x, now.y - beside_px - plate_half_height_px},
          Point2{x, now.y + beside_px + plate_half_height_px}})
        if (const Frame plate = plate_round(middle, word_px);
            plate.left >= frame.left && plate.right <= frame.right && plate.top >= frame.top &&
            plate.bottom <= frame.bottom)
            places.push_back(plate);
    return places;
}

bool hides(const Frame& plate, const Obstacle& obstacle) {
    return obstacle.middle.x > plate.left - obstacle.radius_px &&
           obstacle.middle.x < plate.right + obstacle.radius_px &&
           obstacle.middle.y > plate.top - obstacle.radius_px &&
           obstacle.middle.y < plate.bottom + obstacle.radius_px;
}

std::vector<Obstacle> spots_round(const std::vector<Point2>& marks) {
    std::vector<Obstacle> spots;
    for (const Point2& mark : marks)
        spots.push_back({.middle = mark, .radius_px = mark_room_px});
    return spots;
}

}  // namespace

bool is_marked(const TradeoffReport& report, const plan::FramingLens& lens) {
    return report.tradeoff.lenses.size() > 1 && lens.fine &&
           report.tradeoff.range.holds(*lens.lens_to_mark_m, lens.fine->from);
}

TradeoffMarks placed_marks(Canvas& canvas, const TradeoffReport& report,
                           const TradeoffScales& scales, const std::vector<LevelLine>& lines) {
    const scene::Camera& camera = report.scene.camera;
    TradeoffMarks marks;
    for (const plan::FramingLens& lens : report.tradeoff.lenses) {
        if (!is_marked(report, lens))
            continue;
        const Point2 place{scales.x_from_m(*lens.lens_to_mark_m),
                           scales.y_from_f_number(lens.fine->from)};
        if (lens.is_own)
            marks.own_lens = place;
        else
            marks.other_lenses.push_back(place);
    }
    if (!report.tradeoff.range.holds(camera.lens_to_mark_m, camera.f_number))
        return marks;
    marks.now = {scales.x_from_m(camera.lens_to_mark_m), scales.y_from_f_number(camera.f_number)};

    std::vector<Obstacle> in_sight =
        taken_by(TradeoffMarks{.own_lens = marks.own_lens, .other_lenses = marks.other_lenses});
    for (const LevelLine& each : lines)
        if (each.is_border)
            for (const Obstacle& obstacle : obstacles_of(each.line, each.stroke.width_px))
                in_sight.push_back(obstacle);
    std::ptrdiff_t fewest = std::numeric_limits<std::ptrdiff_t>::max();
    for (const Frame& plate : places_of_word(
             *marks.now, canvas.text_width_px(now_word, now_lettering), scales.frame())) {
        const auto hidden = std::ranges::count_if(
            in_sight, [&](const Obstacle& obstacle) { return hides(plate, obstacle); });
        if (hidden < fewest) {
            fewest = hidden;
            marks.now_word = plate;
        }
    }
    return marks;
}

std::vector<Obstacle> taken_by(const TradeoffMarks& marks) {
    std::vector<Obstacle> taken = spots_round(marks.other_lenses);
    if (marks.own_lens)
        taken.push_back({.middle = *marks.own_lens, .radius_px = mark_room_px});
    if (!marks.now)
        return taken;
    taken.push_back({.middle = *marks.now, .radius_px = mark_room_px});
    const Frame& plate = marks.now_word;
    const LabelPlace word{
        .middle = {(plate.left + plate.right) / 2, (plate.top + plate.bottom) / 2}};
    for (const Obstacle& spot : taken_by(word, plate.right - plate.left, plate.bottom - plate.top))
        taken.push_back(spot);
    return taken;
}

void draw_marks(Canvas& canvas, const TradeoffMarks& marks) {
    for (const Point2& mark : marks.other_lenses)
        draw_other_lens(canvas, mark);
    if (marks.own_lens)
        draw_own_lens(canvas, *marks.own_lens);
    if (!marks.now)
        return;
    const Frame& plate = marks.now_word;
    canvas.fill({outline(plate)}, paper);
    constexpr double most_px = 100;  // The plate was made for the word.
    canvas.text(plate.left + plate_side_px, (plate.top + plate.bottom) / 2 + 3.2, now_word,
                now_lettering, most_px);
    draw_now(canvas, *marks.now);
}

}  // namespace backrow::report
