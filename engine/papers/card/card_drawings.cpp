#include "papers/card/card_drawings.h"

#include "plan/drawings/drawing_scale.h"
#include "report/drawing/verdict_mark.h"

#include "base/units.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace backrow::papers {
namespace {

constexpr double thin_pt = 0.6;
constexpr double thick_pt = 1.4;
constexpr double drawing_margin_pt = 6;
constexpr double ruler_strip_pt = 16;  // Below the scene from above.
const Letters number_letters{.size_pt = least_text_pt, .bold = true};
const report::Stroke thin{.colour = black, .width_px = thin_pt};
const report::Stroke thick{.colour = black, .width_px = thick_pt};
const report::Stroke broken{.colour = black, .width_px = thick_pt, .dashes_px = {5, 2.5}};

double width_of(const report::Frame& frame) {
    return frame.right - frame.left;
}
double height_of(const report::Frame& frame) {
    return frame.bottom - frame.top;
}

plan::ScreenArea area_of(const report::Frame& frame) {
    return {
        .left = frame.left, .top = frame.top, .width = width_of(frame), .height = height_of(frame)};
}

/// Metres to the page.
class Ruled {
public:
    Ruled(Page& page, const plan::DrawingScale& scale) : page_{page}, scale_{scale} {}

    [[nodiscard]] Point2 at(const plan::DrawingPoint& point) const {
        const plan::ScreenPoint on_page = screen_from_paper(scale_, point);
        return {on_page.x, on_page.y};
    }
    [[nodiscard]] double pt(double m) const { return scale_.units_per_m * m; }

    void line(const plan::Line& line, const report::Stroke& stroke) {
        page_.canvas().polyline({at(line.from), at(line.to)}, false, stroke);
    }
    template <class Points>
    void outline(const Points& points, bool closed, const report::Stroke& stroke) {
        page_.canvas().polyline(on_page(points), closed, stroke);
    }
    template <class Points>
    void fill(const Points& points, Rgb8 colour) {
        page_.canvas().fill({on_page(points)}, colour);
    }

    void zone(const plan::DrawnZone& zone) {
        for (std::size_t i = 1; i < zone.size(); ++i)
            if (zone[i - 1] && zone[i]) {
                const std::array corners{zone[i - 1]->near, zone[i]->near, zone[i]->far,
                                         zone[i - 1]->far};
                fill(corners, grey);
                outline(corners, true, {.colour = grey, .width_px = thin_pt});
            }
    }

private:
    template <class Points>
    [[nodiscard]] std::vector<Point2> on_page(const Points& points) const {
        std::vector<Point2> placed;
        for (const plan::DrawingPoint& point : points)
            placed.push_back(at(point));
        return placed;
    }

    Page& page_;
    plan::DrawingScale scale_;
};

/// An ellipse; along is a unit vector.
std::vector<plan::DrawingPoint> ellipse(const plan::DrawingPoint& middle,
                                        const plan::DrawingPoint& along, double half_along_m,
                                        double half_across_m) {
    constexpr int corners = 32;
    std::vector<plan::DrawingPoint> points;
    for (int i = 0; i < corners; ++i) {
        const double angle = 2 * std::numbers::pi * i / corners;
        const double a_m = half_along_m * std::cos(angle);
        const double b_m = half_across_m * std::sin(angle);
        points.push_back({.x_m = middle.x_m + a_m * along.x_m - b_m * along.y_m,
                          .y_m = middle.y_m + a_m * along.y_m + b_m * along.x_m});
    }
    return points;
}

/// Everybody, and somebody alone with room aside: sun, backdrops and models may lie far away.
plan::Extent extent_of_people(const plan::FromAbove& above) {
    constexpr double least_width_m = 1.5;
    plan::Extent extent;
    for (const plan::PersonFromAbove& person : above.people)
        extent.take(person.shoulders, person.half_breadth_m);
    const plan::DrawingPoint middle{(extent.low.x_m + extent.high.x_m) / 2,
                                    (extent.low.y_m + extent.high.y_m) / 2};
    for (const double aside_m : {-least_width_m / 2, least_width_m / 2})
        extent.take({middle.x_m + aside_m, middle.y_m});
    return extent;
}

/// With the lens.
plan::Extent extent_of_card(const plan::FromAbove& above) {
    constexpr double behind_lens_m = 0.3;
    plan::Extent extent = extent_of_people(above);
    extent.take(above.lens, behind_lens_m);
    return extent;
}

std::vector<plan::DrawingPoint> body(const plan::PersonFromAbove& person) {
    return ellipse(person.shoulders, person.body_faces, person.half_depth_m, person.half_breadth_m);
}

struct NumberedPerson {
    std::size_t person;
    std::string number;
};

/// Whoever is carried stands where the carrier does, and has no number there.
std::vector<NumberedPerson> numbered(const CardFacts& facts) {
    std::vector<NumberedPerson> numbered;
    std::size_t number = 0;
    for (const StoodRow& row : facts.rows)
        for (const std::size_t person : row.people) {
            ++number;
            if (facts.scene.people[person].carrier < 0)
                numbered.push_back({person, fmt::format("{}", number)});
        }
    return numbered;
}

bool have_room(Page& page, const std::vector<NumberedPerson>& people,
               const std::vector<Point2>& middles, const Letters& letters) {
    constexpr double air_pt = 1;
    for (std::size_t i = 0; i < people.size(); ++i)
        for (std::size_t j = 0; j < i; ++j) {
            const double half_widths = (page.text_width_pt(people[i].number, letters) +
                                        page.text_width_pt(people[j].number, letters)) /
                                       2;
            if (std::abs(middles[i].x - middles[j].x) < half_widths + air_pt &&
                std::abs(middles[i].y - middles[j].y) < letters.size_pt + air_pt)
                return false;
        }
    return true;
}

std::vector<Point2> heads_of(const std::vector<NumberedPerson>& people, const Ruled& ruled,
                             const plan::FromAbove& above) {
    std::vector<Point2> middles;
    middles.reserve(people.size());
    for (const NumberedPerson& person : people)
        middles.push_back(ruled.at(above.people[person.person].head));
    return middles;
}

/// The scale at which the lens is drawn as well, if there the people are not much smaller and have
/// room for their numbers; else that of the people alone.
plan::DrawingScale plan_scale(Page& page, const report::Frame& area, const DrawnCard& card) {
    const plan::FromAbove& above = card.facts.above;
    const std::vector<NumberedPerson> people = numbered(card.facts);
    constexpr double much_smaller = 0.4;
    const plan::DrawingScale with_lens =
        fitted(extent_of_card(above), area_of(area), drawing_margin_pt);
    const plan::DrawingScale alone =
        fitted(extent_of_people(above), area_of(area), drawing_margin_pt);
    const bool serves =
        with_lens.units_per_m > much_smaller * alone.units_per_m &&
        have_room(page, people, heads_of(people, Ruled{page, with_lens}, above), number_letters);
    return serves ? with_lens : alone;
}

bool is_in_focus(const DrawnCard& card, std::size_t person) {
    const auto* focus = std::get_if<scene::FocusOnPerson>(&card.facts.scene.focus);
    return focus != nullptr && focus->name == card.facts.scene.people[person].name;
}

void draw_bodies(Ruled& ruled, const DrawnCard& card) {
    const std::vector<plan::PersonFromAbove>& people = card.facts.above.people;
    for (std::size_t i = 0; i < people.size(); ++i) {
        ruled.fill(body(people[i]), white);
        ruled.outline(body(people[i]), true, is_in_focus(card, i) ? thick : thin);
    }
}

/// In place of bodies that are too small for one; a line below that of whoever is in focus.
void draw_number_alone(Page& page, const Point2& middle, const NumberedPerson& person,
                       const DrawnCard& card) {
    const double half_pt = page.text_width_pt(person.number, number_letters) / 2 + 0.5;
    const double low = middle.y + number_letters.size_pt / 2;
    const double high = middle.y - number_letters.size_pt / 2;
    page.canvas().fill({{{middle.x - half_pt, high},
                         {middle.x + half_pt, high},
                         {middle.x + half_pt, low},
                         {middle.x - half_pt, low}}},
                       white);
    page.label(middle, person.number, number_letters);
    if (is_in_focus(card, person.person))
        page.canvas().polyline({{middle.x - half_pt, low}, {middle.x + half_pt, low}}, false,
                               thick);
}

void draw_people(Page& page, Ruled& ruled, const DrawnCard& card) {
    const plan::FromAbove& above = card.facts.above;
    const std::vector<NumberedPerson> people = numbered(card.facts);
    const std::vector<Point2> middles = heads_of(people, ruled, above);
    if (!have_room(page, people, middles, number_letters)) {
        draw_bodies(ruled, card);
        for (const plan::PersonFromAbove& person : above.people)
            ruled.fill(ellipse(person.head, person.head_faces, person.head_half_length_m,
                               person.head_half_breadth_m),
                       black);
        return;
    }
    constexpr double round_number_pt = 3;
    const bool hold_numbers =
        std::ranges::all_of(above.people, [&](const plan::PersonFromAbove& person) {
            return ruled.pt(2 * person.half_depth_m) >= number_letters.size_pt + round_number_pt;
        });
    if (hold_numbers)
        draw_bodies(ruled, card);
    for (std::size_t i = 0; i < people.size(); ++i)
        if (hold_numbers)
            page.label(middles[i], people[i].number, number_letters);
        else
            draw_number_alone(page, middles[i], people[i], card);
}

void draw_lens(Ruled& ruled, const plan::FromAbove& above) {
    constexpr double half_m = 0.14, long_m = 0.22;
    const plan::DrawingPoint& at = above.lens;
    const plan::DrawingPoint& to = above.looks;
    const auto corner = [&](double along, double aside) {
        return plan::DrawingPoint{.x_m = at.x_m + along * to.x_m + aside * to.y_m,
                                  .y_m = at.y_m + along * to.y_m - aside * to.x_m};
    };
    ruled.fill(std::array{corner(0, 0), corner(-long_m, half_m), corner(-long_m, -half_m)}, black);
}

/// Returns how far right it reaches. A metre or a few, or feet, with a tick at each.
double draw_ruler(Page& page, const report::Frame& area, const Ruled& ruled,
                  const DrawnCard& card) {
    const double unit_m = card.units == Units::metric ? 1.0 : m_from_ft(1);
    constexpr double least_pt = 28;
    int count = 1;
    for (const int wanted : {1, 2, 5, 10, 20, 50, 100})
        if (count = wanted; ruled.pt(unit_m * wanted) >= least_pt)
            break;
    const double long_pt = ruled.pt(unit_m * count);
    const Letters letters{.size_pt = least_text_pt};
    const std::string words = card.units == Units::metric
                                  ? card.language.number(length_words(
                                        count * unit_m, LengthScale::short_metres, card.units))
                                  : distance_words(count * unit_m, card.language, card.units);
    constexpr double tick_pt = 3;
    const double y = area.bottom - tick_pt;
    const double left = area.left + 2;
    page.canvas().polyline(
        {{left, y - tick_pt}, {left, y}, {left + long_pt, y}, {left + long_pt, y - tick_pt}}, false,
        thin);
    const double half_pt = page.text_width_pt(words, letters) / 2;
    page.label({left + std::max(half_pt, long_pt / 2), y - tick_pt - letters.size_pt / 2}, words,
               letters);
    return left + std::max(2 * half_pt, long_pt);
}

/// Where the lens lies below the drawing, as far as there is room for the words.
void label_lens(Page& page, const report::Frame& room, const DrawnCard& card) {
    const double m = card.facts.scene.camera.lens_to_mark_m;
    const std::string words =
        card.language.say("Camera below: {distance}, {paces}",
                          {{"distance", distance_words(m, card.language, card.units)},
                           {"paces", pace_words(m, card.language)}});
    const Letters letters{.size_pt = least_text_pt};
    constexpr double air_pt = 8;
    const double half_pt = page.text_width_pt(words, letters) / 2;
    if (2 * half_pt + air_pt > width_of(room))
        return;
    page.label({room.right - half_pt, (room.top + room.bottom) / 2}, words, letters);
}

}  // namespace

double plan_height_pt(const CardFacts& facts, double width_pt) {
    const plan::Extent extent = extent_of_card(facts.above);
    const double free_pt = width_pt - 2 * drawing_margin_pt;
    return free_pt * extent.height_m() / std::max(extent.width_m(), 1.0) + 2 * drawing_margin_pt;
}

void draw_plan(Page& page, const report::Frame& area, const DrawnCard& card) {
    const plan::FromAbove& above = card.facts.above;
    page.drawing(area);
    const report::Frame place{.left = area.left,
                              .top = area.top,
                              .right = area.right,
                              .bottom = area.bottom - ruler_strip_pt};
    page.canvas().clip_to(place.left, place.top, width_of(place), height_of(place));
    Ruled ruled{page, plan_scale(page, place, card)};
    ruled.zone(above.fine);
    for (const setting::Block& riser : above.risers)
        ruled.outline(std::array{plan::DrawingPoint{riser.left_m, riser.near_back_m},
                                 plan::DrawingPoint{riser.right_m, riser.near_back_m},
                                 plan::DrawingPoint{riser.right_m, riser.far_back_m},
                                 plan::DrawingPoint{riser.left_m, riser.far_back_m}},
                      true, thin);
    if (above.frame) {
        const auto& [near_left, near_right, far_right, far_left] = *above.frame;
        ruled.line({above.lens, far_left}, thin);
        ruled.line({above.lens, far_right}, thin);
    }
    if (above.plane_of_focus)
        ruled.line(*above.plane_of_focus, broken);
    draw_people(page, ruled, card);
    draw_lens(ruled, above);
    page.canvas().clip_no_more();
    const double ruler_right = draw_ruler(page, area, ruled, card);
    if (ruled.at(above.lens).y > place.bottom)
        label_lens(page, {ruler_right, place.bottom, area.right, area.bottom}, card);
}

void draw_side(Page& page, const report::Frame& area, const DrawnCard& card) {
    const plan::FromTheSide& side = card.facts.side;
    page.drawing(area);
    page.canvas().clip_to(area.left, area.top, width_of(area), height_of(area));
    Ruled ruled{page, fitted(side.heads_extent, area_of(area), drawing_margin_pt)};
    ruled.zone(side.fine);
    if (side.plane_of_focus)
        ruled.line(*side.plane_of_focus, broken);
    for (const plan::HeadFromTheSide& head : side.heads) {
        const plan::DrawingPoint middle{.x_m = (head.nose_tip.x_m + head.farther_ear.x_m) / 2,
                                        .y_m = (head.chin.y_m + head.crown.y_m) / 2};
        constexpr double depth_of_height = 0.42;
        const auto outline =
            ellipse(middle, {1, 0}, depth_of_height * head.height_m, head.height_m / 2);
        ruled.fill(outline, white);
        ruled.outline(outline, true, thin);
        ruled.fill(ellipse(head.nearer_eye, {1, 0}, 0.02, 0.02), black);
    }
    page.canvas().clip_no_more();
}

}  // namespace backrow::papers
