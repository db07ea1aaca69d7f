#include "inspection/face_marks.h"

#ifdef BACKROW_WITH_DLIB

#include "inspection/face_region.h"
#include "inspection/found_face.h"

// Its headers would ask for LAPACK, which finding marks never calls. These two set the switches.
#include <dlib/assert.h>
#include <dlib/test_for_odr_violations.h>
#undef DLIB_USE_LAPACK
#undef DLIB_USE_BLAS
#include <dlib/array2d.h>
#include <dlib/image_processing/shape_predictor.h>
#include <dlib/serialize.h>

#include <algorithm>
#include <cmath>
#include <exception>

namespace backrow::inspection {
namespace {

/// Marks fall on whole pixels, so the face is looked at in this size; with half as much beside it.
constexpr int side_px = 300;
constexpr int beside_px = side_px / 2;

constexpr unsigned long all_marks = 68;
constexpr unsigned long first_of_eyes = 36;
constexpr unsigned long marks_of_eye = 6;

std::optional<dlib::shape_predictor> read_model() {
    try {
        dlib::shape_predictor model;
        dlib::deserialize(BACKROW_FACE_MARKS) >> model;
        if (model.num_parts() == all_marks)
            return model;
    } catch (const std::exception&) {
        // Without it nothing is said of eyes.
    }
    return std::nullopt;
}

/// The square that would have been found, at its own scale.
struct Square {
    double left_px = 0;
    double top_px = 0;
    double scale = 1;  ///< Of the picture's pixels in one of the square's.
};

Square square_in(const measure::PixelBox& head) {
    const double found_px = head.height_px / head_of_found;
    return {.left_px = head.left + head.width_px / 2.0 - found_px / 2,
            .top_px = head.top + head.height_px / 2.0 - eyes_of_found * found_px,
            .scale = found_px / side_px};
}

/// Linear between pixels, and a mean where several fall into one.
dlib::array2d<unsigned char> cut_out(const Image<Rgb8>& shown, const Square& square) {
    constexpr int all_px = side_px + 2 * beside_px;
    const auto from = [&](double start) {
        return static_cast<int>(std::floor(start - (beside_px + 1) * square.scale)) - 1;
    };
    const int reach = static_cast<int>(std::ceil((all_px + 2) * square.scale)) + 3;
    const measure::PixelBox box{from(square.left_px), from(square.top_px), reach, reach};
    const Image<float> light = brightness_of(shown, box);
    const int each = std::max(1, static_cast<int>(std::lround(square.scale)));
    dlib::array2d<unsigned char> part(all_px, all_px);
    for (long y = 0; y < all_px; ++y)
        for (long x = 0; x < all_px; ++x) {
            double sum = 0;
            for (int j = 0; j < each; ++j)
                for (int i = 0; i < each; ++i) {
                    const auto place = [&](double start, long step, int inside, int first) {
                        return start +
                               (static_cast<double>(step) - beside_px + (inside + 0.5) / each) *
                                   square.scale -
                               0.5 - first;
                    };
                    const double across = place(square.left_px, x, i, box.left);
                    const double down = place(square.top_px, y, j, box.top);
                    const int left = static_cast<int>(across);
                    const int top = static_cast<int>(down);
                    const double right_share = across - left;
                    const double below_share = down - top;
                    sum += (1 - below_share) * ((1 - right_share) * light.at(left, top) +
                                                right_share * light.at(left + 1, top)) +
                           below_share * ((1 - right_share) * light.at(left, top + 1) +
                                          right_share * light.at(left + 1, top + 1));
                }
            part[y][x] = static_cast<unsigned char>(std::lround(255 * sum / (each * each)));
        }
    return part;
}

double apart(const dlib::full_object_detection& marks, unsigned long one, unsigned long other) {
    return std::hypot(static_cast<double>(marks.part(one).x() - marks.part(other).x()),
                      static_cast<double>(marks.part(one).y() - marks.part(other).y()));
}

/// Marks go round an eye from one corner over the upper lid to the other and back.
double lids_open(const dlib::full_object_detection& marks, unsigned long first) {
    return (apart(marks, first + 1, first + 5) + apart(marks, first + 2, first + 4)) / 2 /
           std::max(1.0, apart(marks, first, first + 3));
}

}  // namespace

std::optional<FaceMarks> face_marks(const Image<Rgb8>& shown, const measure::PixelBox& head) {
    static const std::optional<dlib::shape_predictor> model = read_model();
    if (!model || shown.empty() || head.height_px < 1)
        return std::nullopt;
    const Square square = square_in(head);
    const dlib::full_object_detection marks =
        (*model)(cut_out(shown, square),
                 {beside_px, beside_px, beside_px + side_px - 1, beside_px + side_px - 1});
    double x = 0;
    double y = 0;
    constexpr unsigned long both = 2 * marks_of_eye;
    for (unsigned long mark = first_of_eyes; mark < first_of_eyes + both; ++mark) {
        x += static_cast<double>(marks.part(mark).x()) / both;
        y += static_cast<double>(marks.part(mark).y()) / both;
    }
    return FaceMarks{
        .eyes_x_px = square.left_px + (x - beside_px + 0.5) * square.scale,
        .eyes_y_px = square.top_px + (y - beside_px + 0.5) * square.scale,
        .lids_open =
            (lids_open(marks, first_of_eyes) + lids_open(marks, first_of_eyes + marks_of_eye)) / 2};
}

}  // namespace backrow::inspection

#else

namespace backrow::inspection {

std::optional<FaceMarks> face_marks(const Image<Rgb8>& /*shown*/,
                                    const measure::PixelBox& /*head*/) {
    return std::nullopt;
}

}  // namespace backrow::inspection

#endif
