#pragma once

// What goes out of a scene, under which names, and how: as chosen on the sheet, and as kept until
// the next time.

#include "base/image_files.h"

#include <string>
#include <string_view>
#include <vector>

namespace backrow::delivery {

enum class PictureFormat { png, jpeg };
/// As large as a screen, as the camera records it, or so wide.
enum class PictureSize { screen, camera, own };

/// One output of outputs.h.
struct Piece {
    std::string key;
    bool is_wanted = false;
    std::string tail;  ///< What its file's name has after the stem: "-picture".
};

struct Choices {
    std::string folder;
    std::string stem;             ///< With which every name begins: "family".
    std::vector<Piece> pieces{};  ///< All of outputs(), in their order.
    PictureFormat format = PictureFormat::jpeg;
    int jpeg_quality = usual_jpeg_quality;  ///< 1 … 100
    PictureSize size = PictureSize::screen;
    int own_width_px = 1920;  ///< least_picture_width_px or more.
    bool with_captions = false;
};

inline constexpr int least_picture_width_px = 16;

/// Where nothing is kept: folder and stem of the scene's file, and what outputs() say.
[[nodiscard]] Choices usual_choices(const std::string& scene_path);

/// A line for each choice, "jpeg-quality 92"; of whatever cannot stand on a line none.
[[nodiscard]] std::string text_of(const Choices& choices);

/// The usual choices, with whatever the text says and can be understood in their place. The stem is
/// always the scene's.
[[nodiscard]] Choices choices_from(std::string_view text, const std::string& scene_path);

/// The choices as they were kept last (base/state_folder.h), for this scene; the folder is the
/// scene's own where the one that was kept is gone.
[[nodiscard]] Choices kept_choices(const std::string& scene_path);
/// Keeps them. Where that fails the next sheet begins with what was kept before: no reason to stop.
void keep(const Choices& choices);

}  // namespace backrow::delivery
