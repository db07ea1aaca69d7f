#pragma once

// Where on a drawn line its label can stand: along the line, where it is straight, free of what is
// there already.

#include "base/sequences.h"

#include <optional>
#include <vector>

namespace backrow::report {

/// Something that a label must not touch.
struct Obstacle {
    Point2 middle{};
    double radius_px = 0;
};

/// The rectangle that labels must stay in.
struct Frame {
    double left = 0;
    double top = 0;
    double right = 0;
    double bottom = 0;
};

struct LabelPlace {
    Point2 middle{};
    double climb_rad = 0;  ///< To the right, −π/2 … π/2, so that the text is never upside down.
    double along_px = 0;  ///< How far along the line the middle is.
};

/// Four corners, one after the other.
[[nodiscard]] std::vector<Point2> outline(const Frame& frame);

/// The straightest free stretch near the wished place.
///
/// line      at least two points
/// wish      share of the line's length, 0 … 1
/// taken     never touched
/// lines     crossed as little as can be, and never by more than about one line
/// returns   nothing where no stretch is long, straight and free enough
[[nodiscard]] std::optional<LabelPlace> label_place(const std::vector<Point2>& line,
                                                    double text_width_px, double text_height_px,
                                                    double wish, const Frame& frame,
                                                    const std::vector<Obstacle>& taken,
                                                    const std::vector<Obstacle>& lines);

/// What a label there takes.
[[nodiscard]] std::vector<Obstacle> taken_by(const LabelPlace& place, double text_width_px,
                                             double text_height_px);

/// The line without the stretch from one distance along it to another: what is left of it, in one,
/// two or no pieces.
[[nodiscard]] std::vector<std::vector<Point2>> without_stretch(const std::vector<Point2>& line,
                                                               double from_px, double to_px);

/// Points along the line, close together, that a label would have to cross; as wide as the line.
[[nodiscard]] std::vector<Obstacle> obstacles_of(const std::vector<Point2>& line, double width_px);

}  // namespace backrow::report
