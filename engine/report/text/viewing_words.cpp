#include "report/text/viewing_words.h"

#include "optics/blur/viewing.h"

#include "base/units.h"

#include <fmt/format.h>

#include <variant>

namespace backrow::report {
namespace {

bool same(const optics::PrintViewing& a, const optics::PrintViewing& b) {
    return a.long_side_cm == b.long_side_cm && a.distance_cm == b.distance_cm;
}

/// "on a phone, ", or nothing for sizes of the user's own.
std::string use_of(const optics::PrintViewing& print) {
    if (same(print, optics::phone_viewing))
        return "on a phone, ";
    if (same(print, optics::album_viewing))
        return "in an album, ";
    return same(print, optics::wall_viewing) ? "on a wall, " : "";
}

}  // namespace

std::string viewing_words(const scene::Viewing& viewing, Units units) {
    const auto words = [&](double cm) {
        return units == Units::metric
                   ? fmt::format("{} cm", cm)
                   : length_words(m_from_cm(cm), LengthScale::centimetres, units);
    };
    if (const auto* print = std::get_if<optics::PrintViewing>(&viewing))
        return fmt::format("{}{} long and seen from {}", use_of(*print), words(print->long_side_cm),
                           words(print->distance_cm));
    return "pixel by pixel";
}

std::string grades_line(const scene::Viewing& viewing, Units units) {
    if (std::holds_alternative<optics::PrintViewing>(viewing))
        return fmt::format("Viewed {}: crisp to {} arcmin, fine to {}, soft to {}, lost beyond.\n",
                           viewing_words(viewing, units), optics::crisp_limit_arcmin,
                           optics::fine_limit_arcmin, optics::soft_limit_arcmin);
    return fmt::format("Viewed {}: crisp to {:.1f} px, fine to {:.1f}, soft to {:.1f}, lost "
                       "beyond.\n",
                       viewing_words(viewing), optics::crisp_limit_px, optics::fine_limit_px,
                       optics::soft_limit_px);
}

std::string unit_words(optics::BlurUnit unit) {
    return unit == optics::BlurUnit::arcmin ? "arcmin" : "px";
}

}  // namespace backrow::report
