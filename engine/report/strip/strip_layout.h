#pragma once

// Where everything on a strip stands: the frames in rows and columns, under or beside each a face
// close to, and room for words. Whole pixels of the sheet; no two boxes overlap.

#include <cstddef>
#include <optional>
#include <vector>

namespace backrow::report {

struct Box {
    int left = 0, top = 0, width = 0, height = 0;
};

struct StripShape {
    int width_px = 0;  ///< Of the sheet.
    std::size_t columns = 1;
    std::size_t rows = 1;
    double height_to_width = 2.0 / 3;  ///< Of a frame.
    int notes = 1;                     ///< Lines of small print under each frame …
    int foot_lines = 3;                ///< … and at the foot of the sheet.
};

struct StripCell {
    Box whole;    ///< The frame.
    Box face;     ///< Under it or to its right.
    Box caption;  ///< Under both, or under a face that leaves room beside its frame.
};

struct StripLayout {
    int width_px = 0;
    int height_px = 0;
    double type = 1;  ///< How large letters and lines are, against those of pictures 360 px wide.
    bool faces_beside = false;  ///< Rather than under their frames.
    Box title;
    Box foot;
    std::vector<Box> column_heads{};
    std::vector<Box> row_heads{};    ///< None where there is one row.
    std::vector<StripCell> cells{};  ///< Row after row.
};

/// The least width at which so many columns can be read.
[[nodiscard]] int least_strip_width_px(std::size_t columns, std::size_t rows);

/// Faces stand beside their frames where that comes nearer to the shape of a screen than faces
/// under them, and leaves the pictures large enough.
///
/// shape    all positive
/// returns  nothing where the sheet would be beyond the limits of sheet_limits.h, or narrower than
///          least_strip_width_px()
[[nodiscard]] std::optional<StripLayout> strip_layout(const StripShape& shape);

/// How large faces are shown: sheet pixels for each pixel of the camera, a whole per cent. The
/// same for all frames, so that they can be compared: as large as the camera's own pixels; smaller
/// where the tallest would not fit, but no smaller than half, for blur must still be seen. Larger,
/// and then not in whole per cents, where the camera has so few pixels that more than the width of
/// the frame would be shown.
///
/// room             of a face's picture
/// tallest_face_px  chin to crown, camera pixels; > 0
/// frame_width_px   of the camera
[[nodiscard]] double strip_face_scale(const Box& room, double tallest_face_px, int frame_width_px);

}  // namespace backrow::report
