#include "report/text/exposure_words.h"

#include "optics/exposure/payment.h"
#include "optics/exposure/stops.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <cmath>
#include <vector>

namespace backrow::report {
namespace {

std::string iso_words(double iso) {
    return fmt::format("ISO {:.0f}", iso);
}

/// "right at 1/60 s or ISO 400": what else would suit the light, of what cameras have. A shutter
/// may always be held open by hand, so darkness ends nowhere.
std::string remedy(const optics::ShutterAndIso& set, double stops) {
    const double shutter_s = optics::pay_by_shutter(set, stops).marked.shutter_s;
    const double iso = optics::pay_by_iso(set, stops).marked.iso;
    const auto isos = optics::marked_isos();
    std::vector<std::string> ways;
    if (shutter_s >= optics::marked_shutters_s().back())
        ways.push_back(optics::shutter_words(shutter_s));
    if (iso >= isos.front() && iso <= isos.back())
        ways.push_back(iso_words(iso));
    return ways.empty() ? "too bright for shutter or ISO alone"
                        : fmt::format("right at {}", fmt::join(ways, " or "));
}

std::string light_words(const plan::Metering& metering) {
    return fmt::format("for EV {:.3g}", metering.scene_ev100);
}

/// "2 stops under for EV 8"; empty where it is less than anybody would see.
std::string off_words(const plan::Metering& metering) {
    const std::string stops = optics::stops_words(std::abs(metering.stops_over));
    return stops == optics::stops_words(0)
               ? std::string{}
               : fmt::format("{} {} {}", stops, metering.stops_over > 0 ? "over" : "under",
                             light_words(metering));
}

std::string filter_words(double stops) {
    return stops > 0 ? fmt::format("a grey filter of {}", optics::stops_words(stops))
                     : std::string{};
}

/// "right for EV 12"; "2 stops under for EV 8; right at 1/60 s or ISO 400".
std::string exposed(const optics::ShutterAndIso& set, const plan::Metering& metering) {
    const std::string off = off_words(metering);
    return off.empty() ? "right " + light_words(metering)
                       : fmt::format("{}; {}", off, remedy(set, -metering.stops_over));
}

}  // namespace

std::string setting_words(const optics::ExposureSetting& setting) {
    std::string words =
        fmt::format("{} at {}", optics::shutter_words(setting.shutter_s), iso_words(setting.iso));
    if (const std::string filter = filter_words(setting.filter_stops); !filter.empty())
        words += " with " + filter;
    return words;
}

std::string present_exposure_words(const plan::Metering& present) {
    const std::string off = off_words(present);
    return off.empty() ? off : fmt::format("The present setting is {}.", off);
}

std::string exposure_lines(const scene::Camera& camera, const plan::Metering& metering) {
    const optics::ShutterAndIso set{.shutter_s = camera.shutter_s, .iso = camera.iso};
    const std::string filter = filter_words(camera.filter_stops);
    return fmt::format(
        "Exposure {}, {}, {}effective f-number {:.3g}: {}\nSlowest shutter: {} by hand, {} "
        "for people to hold still\n",
        optics::shutter_words(set.shutter_s), iso_words(set.iso),
        filter.empty() ? filter : filter + ", ", metering.effective_f_number,
        exposed(set, metering), optics::longest_shutter_words(metering.handheld_limit_s),
        optics::longest_shutter_words(metering.motion_limit_s));
}

}  // namespace backrow::report
