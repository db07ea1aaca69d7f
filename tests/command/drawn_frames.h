#pragma once

// Groups by lot, each drawn in several frames as a photographer takes them, with what is so in each
// of them: what `inspect` says is held to it.

#include <cstdint>
#include <map>
#include <string>
#include <vector>

namespace backrow::command {

/// A face in a frame.
struct DrawnFace {
    double disc_px = 0;  ///< Of its defocus, as the renderer measures it.
    double seen = 0;     ///< The share of it that nobody hides.
    bool shut = false;   ///< Lids.
};

/// A frame, and how the camera swung while it was taken.
struct DrawnFrame {
    std::string file;        ///< As it was drawn, with no noise: a PNG.
    std::string photograph;  ///< As a camera hands it over, with noise: a JPEG.
    double stroke_px = 0;
    double stroke_deg = 0;  ///< Anticlockwise from the right.
    std::map<std::string, DrawnFace> faces{};

    /// The disc that blurs as much as defocus and stroke together, on average over all directions.
    [[nodiscard]] double blur_px(const DrawnFace& face) const;
    /// Whether the stroke is more of it than the defocus.
    [[nodiscard]] bool mainly_moved(const DrawnFace& face) const;
};

struct DrawnGroup {
    std::string scene;
    std::vector<DrawnFrame> frames;
};

/// Two to twelve people in three to six frames, focused about right, before or behind them; the
/// camera swings in some, somebody blinks, smiles or turns the head in others.
///
/// number  the same group for the same number
/// folder  for the scene, its frames and what is so; frames that are in it already are not drawn
///         again
[[nodiscard]] DrawnGroup drawn_group(std::uint64_t number, const std::string& folder);

}  // namespace backrow::command
