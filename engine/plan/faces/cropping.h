#pragma once

// Where the edges of the frame cut people.

#include "scene/camera_view.h"
#include "scene/scene.h"

#include <optional>
#include <span>

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
[[nodiscard]] Cropping cropping(const scene::CameraView& view, const scene::Person& person);
/// The same for whoever has the person's reference points and solids already.
[[nodiscard]] Cropping cropping(const scene::CameraView& view, const scene::Person& person,
                                const figures::ReferencePoints& points,
                                std::span<const figures::Capsule> solids);

/// "crown", "chin", "chest", "waist", "knees", "feet", "side".
[[nodiscard]] const char* to_word(Cut cut) noexcept;

}  // namespace backrow::plan
