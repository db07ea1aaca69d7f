#pragma once

// Where the edges of the frame cut people.

#include "scene/camera_view.h"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace backrow::plan {

/// From the top down, and last somebody whom an edge at the side cuts.
enum class Cut { crown, chin, chest, waist, knees, feet, side };

struct Cropping {
    /// The highest of these places that lies above or below the frame, or the side where an edge
    /// there cuts the head or a body between head and chest; none for somebody who is in the
    /// picture whole.
    std::optional<Cut> cut_at;
    bool has_whole_head = false;  ///< Chin, crown, ears and eyes inside the picture.
    /// The whole head is inside, but nearer to an edge than a quarter of its height: the hair
    /// reaches over the crown, and no frame is held that well (common practice, no source).
    bool is_head_close = false;
};

/// Somebody beside or behind the lens is cut at the crown.
///
/// body  scene::posed_body()
[[nodiscard]] Cropping cropping(const scene::CameraView& view, const figures::PosedBody& body);

/// Whom the frame cuts: indices into what was asked about, in its order. Nobody is in two of them
/// but who is cut and close to an edge with the head.
struct FrameCuts {
    std::vector<std::size_t> heads;        ///< Not whole in the picture.
    std::vector<std::size_t> heads_close;  ///< Whole, but nearly cut (Cropping::is_head_close).
    std::vector<std::size_t> bodies;       ///< The head is whole, something below it is not.

    /// Nobody is cut, and no head close to an edge.
    [[nodiscard]] bool is_whole_group() const noexcept;

    bool operator==(const FrameCuts&) const = default;
};

[[nodiscard]] FrameCuts frame_cuts(std::span<const Cropping> croppings);

/// "crown", "chin", "chest", "waist", "knees", "feet", "side".
[[nodiscard]] const char* to_word(Cut cut) noexcept;

}  // namespace backrow::plan
