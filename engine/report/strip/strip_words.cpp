#include "report/strip/strip_words.h"

#include "report/text/lens_words.h"
#include "report/tradeoff/tradeoff_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>

namespace backrow::report {
namespace {

std::string capitalised(std::string words) {
    words[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(words[0])));
    return words;
}

}  // namespace

const plan::StripPlace& place_of(const StripSubject& subject, std::size_t frame) {
    return subject.strip.places[frame / subject.strip.f_numbers.size()];
}

double f_number_of(const StripSubject& subject, std::size_t frame) {
    return subject.strip.f_numbers[frame % subject.strip.f_numbers.size()];
}

const plan::Face& worst_of(const StripSubject& subject, std::size_t frame) {
    return subject.strip.frames[frame].worst->face;
}

std::string lens_words(double focal_length_mm) {
    return fmt::format("{:g} mm", std::round(focal_length_mm * 10) / 10);
}

std::string strip_common_words(const StripSubject& subject) {
    std::string words = capitalised(focus_words(subject.scene, subject.units));
    const plan::Strip& strip = subject.strip;
    if (strip.places.size() == 1)
        words += fmt::format("; {} from {}", lens_words(strip.places[0].focal_length_mm),
                             distance_words(strip.places[0].lens_to_mark_m, subject.units));
    if (strip.f_numbers.size() == 1)
        words += "; " + f_words(strip.f_numbers[0]);
    if (subject.framing_kept)
        words += subject.places_by == PlacesBy::distance
                     ? "; heads as large in every frame: the lens follows the distance"
                     : "; heads as large in every frame: the distance follows the lens";
    return words + ".";
}

std::string profile_words(const scene::Scene& scene, const plan::Strip& strip) {
    if (!scene.lens.profile)
        return perfect_lens_note(scene, std::ranges::min(strip.f_numbers));
    const double own_mm = scene.camera.focal_length_mm;
    const bool all_own = std::ranges::all_of(strip.places, [&](const plan::StripPlace& place) {
        return place.focal_length_mm == own_mm;
    });
    return all_own ? std::string{}
                   : fmt::format("The lens profile is that of the {:g} mm; lenses of other focal "
                                 "lengths are taken as perfect.",
                                 own_mm);
}

}  // namespace backrow::report
