#include "delivery/picture_file.h"

#include "report/faces/captions.h"

#include "base/file_endings.h"

#include <fmt/format.h>

#include <algorithm>

namespace backrow::delivery {

bool is_jpeg(const std::string& path) {
    return ends_in(path, ".jpg") || ends_in(path, ".jpeg");
}

Made<Bytes> picture_bytes(const Image<Rgb8>& picture, bool as_jpeg, int jpeg_quality) {
    if (!as_jpeg)
        return png_bytes(picture);
    if (std::max(picture.width_px(), picture.height_px()) > longest_jpeg_side_px)
        return tl::make_unexpected(MachineFailure{
            fmt::format("no side of a JPEG has more than {} pixels", longest_jpeg_side_px),
            "choose a PNG, or a smaller picture"});
    return jpeg_bytes(picture, jpeg_quality);
}

Image<Rgb8> with_captions(const Image<Rgb8>& picture, const scene::Scene& scene,
                          const scene::CameraView& view, const std::vector<plan::Face>& faces) {
    return report::with_captions(picture, scene.title, report::caption_lines(scene, view, faces));
}

}  // namespace backrow::delivery
