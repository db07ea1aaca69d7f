#include "window/face_words.h"

#include "report/text/trouble_words.h"

#include "base/units.h"

#include <fmt/format.h>

#include <cmath>

namespace backrow::window {

std::string short_number(double number) {
    if (!std::isfinite(number))
        return "∞";
    return std::abs(number) < 99.95 ? fmt::format("{:.1f}", number) : fmt::format("{:.0f}", number);
}

std::string blur_words(const plan::Face& face) {
    if (std::string trouble = report::face_trouble_words(face); !trouble.empty())
        return trouble;
    return short_number(face.predicted_blur_px) + " px, " + optics::to_word(face.grade);
}

std::string blur_parts_words(const plan::Face& face) {
    return face.blur_lens_px == 0
               ? std::string{}
               : fmt::format("{} px by defocus, {} px by the lens",
                             short_number(face.blur_defocus_px), short_number(face.blur_lens_px));
}

std::string offset_words(const plan::Face& face, Units units) {
    return length_words(m_from_mm(std::abs(face.offset_mm)), LengthScale::whole_centimetres,
                        units) +
           (face.offset_mm < 0 ? " in front of" : " behind") + " the plane of focus";
}

}  // namespace backrow::window
