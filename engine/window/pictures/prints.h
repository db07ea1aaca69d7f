#pragma once

// What the window asks of its darkroom, and what it gets.

#include "render/passes/crop_rect.h"
#include "scene/scene.h"

#include "base/image.h"

#include <cstddef>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace backrow::window {

/// What is to be shown.
struct Order {
    std::shared_ptr<const scene::Scene> scene;
    int edition = 0;          ///< Another number for every change of the scene.
    render::CropRect part{};  ///< What of the picture, and how large on the screen; of no texels:
                              ///< none as yet, only what it will show is built.
    bool in_hand = false;     ///< Something is being dragged: answer at once, polish later.
    std::vector<std::size_t> faces{};  ///< Whose faces, the most urgent first …
    int face_width_texels = 0;   ///< … and how much of the picture round each, at one texel a
    int face_height_texels = 0;  ///< camera pixel.
};

/// A picture, or a face, as far as it has come.
struct Print {
    Image<Rgb8> pixels;
    int edition = 0;
    render::CropRect part{};
    int samples = 0;
    int samples_wanted = 0;
    bool shows_all = true;  ///< false: something is shown as it was before the last change.
    [[nodiscard]] bool is_finished() const noexcept { return samples >= samples_wanted; }
};

/// Measured in the picture.
struct FaceMeasures {
    int edition = 0;
    std::optional<double> blur_px;
    double visible_fraction = 0;
};

enum class Work { none, lighting, exposing };

/// Everything new since it was last asked for.
struct Prints {
    std::optional<Print> picture;
    std::map<std::size_t, Print> faces;
    std::map<std::size_t, FaceMeasures> measures;
    Work work = Work::none;  ///< At this moment …
    double share = 0;        ///< … and how much of it is done.
    std::string complaint;   ///< Why there is no picture, in one line; mostly empty.
};

}  // namespace backrow::window
