#include "rehearsal/hands/light_handling.h"

#include "rehearsal/hands/hand_words.h"
#include "rehearsal/hands/kept_within.h"

#include "scene/limits.h"
#include "scene/set_words.h"
#include "scene/words.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

namespace backrow::rehearsal {
namespace {

/// 0 … 359
double whole_azimuth(double azimuth_deg) {
    const double whole = std::round(std::remainder(azimuth_deg, 360));
    return whole < 0 ? whole + 360 : whole;
}

}  // namespace

Change light_by(scene::LightKind kind) {
    const std::string word{scene::word_for(scene::words::light_kind, kind)};
    return {.what = kind == scene::LightKind::open ? "Under the open sky" : "By a window",
            .values = {scene::set_words("light.kind", word)}};
}

Change turn_sun(const scene::Scene& scene, double azimuth_deg) {
    const double to_deg = whole_azimuth(azimuth_deg);
    Change change{.what = "Lead the sun round", .values = {}};
    if (to_deg != whole_azimuth(scene.light.sun_azimuth_deg))
        change.values = {scene::set_number("light.sun_azimuth_deg", to_deg)};
    return change;
}

Change raise_sun(double elevation_deg) {
    return {.what = "Height of the sun",
            .values = {scene::set_number(
                "light.sun_elevation_deg",
                kept_within(std::round(elevation_deg), scene::limits::sun_elevation_deg))}};
}

Change move_window(const scene::Scene& scene, const scene::WindowPlace& window) {
    const scene::WindowPlace& now = scene.light.window;
    Change change{.what = "Move the window", .values = {}};
    const auto set = [&](const char* key, double to, double from) {
        if (to != from)
            change.values.push_back(scene::set_number(key, to));
    };
    const auto set_length = [&](const char* key, double m, double now_m,
                                const scene::Range<double>& range) {
        set(key, kept_within(to_the_centimetre(m), range), now_m);
    };
    namespace limits = scene::limits;
    set("light.window_azimuth_deg", whole_azimuth(window.azimuth_deg), now.azimuth_deg);
    set_length("light.window_distance_m", window.distance_m, now.distance_m,
               limits::window_distance_m);
    set_length("light.window_width_m", window.width_m, now.width_m, limits::window_width_m);
    set_length("light.window_height_m", window.height_m, now.height_m, limits::window_height_m);
    set_length("light.window_sill_m", window.sill_m, now.sill_m, limits::window_sill_m);
    return change;
}

std::span<const Weather> weathers() {
    static constexpr std::array all{Weather{"sand or snow in the sun", 16},
                                    Weather{"sun", 15},
                                    Weather{"hazy sun", 14},
                                    Weather{"bright clouds", 13},
                                    Weather{"heavy clouds, open shade", 12},
                                    Weather{"an office", 7.5},
                                    Weather{"a home", 6}};
    return all;
}

const Weather& weather_at(double ev100) {
    return *std::ranges::min_element(
        weathers(), {}, [&](const Weather& weather) { return std::abs(weather.ev100 - ev100); });
}

Change brighten(double ev100) {
    constexpr double hundredths = 100;
    const double rounded = std::round(ev100 * hundredths) / hundredths;
    return {.what = "Brightness",
            .values = {scene::set_number("light.scene_ev100",
                                         kept_within(rounded, scene::limits::scene_ev100))}};
}

// Eight directions, each as wide as the other; "left" and "right" are the picture's.
std::string side_words(double azimuth_deg) {
    static constexpr std::array words{"behind the camera", "over the camera's right shoulder",
                                      "at the right",      "behind the group, right",
                                      "behind the group",  "behind the group, left",
                                      "at the left",       "over the camera's left shoulder"};
    constexpr double each_deg = 360.0 / words.size();
    const auto number =
        static_cast<std::size_t>(std::lround(whole_azimuth(azimuth_deg) / each_deg));
    return words[number % words.size()];
}

// Bounds by eye: photographers speak of low sun up to about ten degrees.
std::string height_words(double elevation_deg) {
    struct Height {
        double below_deg;
        const char* words;
    };
    static constexpr std::array heights{
        Height{0.5, "below the horizon"}, Height{10, "just up or about to set"},
        Height{25, "low, early or late"}, Height{45, "mid-morning, afternoon"},
        Height{65, "high, about noon"}};
    for (const Height& height : heights)
        if (elevation_deg < height.below_deg)
            return height.words;
    return "overhead, a summer's noon";
}

}  // namespace backrow::rehearsal
