#include "inspection/find_heads.h"

#ifdef BACKROW_WITH_DLIB

#include "inspection/found_face.h"

// Its headers would ask for LAPACK, which finding faces never calls. These two set the switches.
#include <dlib/assert.h>
#include <dlib/test_for_odr_violations.h>
#undef DLIB_USE_LAPACK
#undef DLIB_USE_BLAS
#include <dlib/array2d.h>
#include <dlib/image_processing/frontal_face_detector.h>

#include <algorithm>
#include <cmath>

namespace backrow::inspection {
namespace {

constexpr int most_side_px = 3000;
constexpr int doubled_below_px = 2000;  // the detector knows faces from 80 px on

/// The detector's own least is 0, at which badges on a suit are faces, too.
constexpr double least_score = 0.25;

/// Head breadth over chin to crown, medians of men. Source: [ANSUR2].
constexpr double breadth_of_head = 154.0 / 230.0;

dlib::array2d<unsigned char> reduced(const Image<Rgb8>& shown, int by) {
    dlib::array2d<unsigned char> grey(shown.height_px() / by, shown.width_px() / by);
    for (long y = 0; y < grey.nr(); ++y)
        for (long x = 0; x < grey.nc(); ++x) {
            int sum = 0;
            for (int down = 0; down < by; ++down)
                for (int across = 0; across < by; ++across) {
                    const Rgb8& pixel = shown.at(static_cast<int>(x) * by + across,
                                                 static_cast<int>(y) * by + down);
                    sum += 2 * pixel.r + 5 * pixel.g + pixel.b;
                }
            grey[y][x] = static_cast<unsigned char>(sum / (8 * by * by));
        }
    return grey;
}

measure::PixelBox head_round(const dlib::rectangle& found, double scale) {
    const double side_px = static_cast<double>(found.width()) * scale;
    const double height_px = head_of_found * side_px;
    const double width_px = breadth_of_head * height_px;
    const double middle_px = (static_cast<double>(found.left() + found.right()) + 1) / 2 * scale;
    const double eyes_px = static_cast<double>(found.top()) * scale + eyes_of_found * side_px;
    return {static_cast<int>(std::lround(middle_px - width_px / 2)),
            static_cast<int>(std::lround(eyes_px - height_px / 2)),
            static_cast<int>(std::lround(width_px)), static_cast<int>(std::lround(height_px))};
}

}  // namespace

bool heads_can_be_found() noexcept {
    return true;
}

std::vector<measure::PixelBox> find_heads(const Image<Rgb8>& shown) {
    const int longest_px = std::max(shown.width_px(), shown.height_px());
    const int by = (longest_px + most_side_px - 1) / most_side_px;
    dlib::array2d<unsigned char> grey = reduced(shown, by);
    if (grey.size() == 0)
        return {};
    double scale = by;
    if (longest_px / by < doubled_below_px) {
        dlib::pyramid_up(grey);
        scale /= 2;
    }
    static const dlib::frontal_face_detector trained = dlib::get_frontal_face_detector();
    dlib::frontal_face_detector detector = trained;  // it keeps what it works on
    std::vector<measure::PixelBox> heads;
    std::vector<dlib::rect_detection> found;
    detector(grey, found, least_score);
    for (const dlib::rect_detection& face : found)
        heads.push_back(head_round(face.rect, scale));
    std::ranges::sort(heads, {}, &measure::PixelBox::left);
    return heads;
}

}  // namespace backrow::inspection

#else

namespace backrow::inspection {

bool heads_can_be_found() noexcept {
    return false;
}

std::vector<measure::PixelBox> find_heads(const Image<Rgb8>& /*shown*/) {
    return {};
}

}  // namespace backrow::inspection

#endif
