#include "rehearsal/hands/light_handling.h"

#include "trio.h"

#include <catch2/catch.hpp>

#include <string>

using namespace backrow;
using namespace backrow::rehearsal;

TEST_CASE("the sun goes round in whole degrees and never beyond the zenith",
          "[rehearsal][property]") {
    const scene::Scene scene = trio();
    CHECK(turn_sun(scene, 90.4).values == Values{"light.sun_azimuth_deg=90.0"});
    CHECK(turn_sun(scene, -30).values == Values{"light.sun_azimuth_deg=330.0"});
    CHECK(turn_sun(scene, 725).values == Values{"light.sun_azimuth_deg=5.0"});
    CHECK(turn_sun(scene, scene.light.sun_azimuth_deg + 360).values.empty());
    CHECK(raise_sun(20.2).values == Values{"light.sun_elevation_deg=20.0"});
    CHECK(raise_sun(130).values == Values{"light.sun_elevation_deg=90.0"});
    CHECK(light_by(scene::LightKind::window).values == Values{"light.kind=\"window\""});
}

TEST_CASE("of a window only what is new is written", "[rehearsal][property]") {
    const scene::Scene scene = trio();
    scene::WindowPlace window = scene.light.window;
    CHECK(move_window(scene, window).values.empty());
    window.azimuth_deg = 450;
    window.distance_m = 0.2;
    window.sill_m = 1.004;
    CHECK(move_window(scene, window).values == Values{"light.window_azimuth_deg=90.0",
                                                      "light.window_distance_m=0.5",
                                                      "light.window_sill_m=1.0"});
}

// [ANSIPH27], as engine/README.md "Exposure" has it.
TEST_CASE("brightness goes by its weather: the sun is EV 15, open shade 12",
          "[rehearsal][published]") {
    const auto ev = [](std::string_view words) {
        for (const Weather& weather : weathers())
            if (weather.words == words)
                return weather.ev100;
        return 0.0;
    };
    CHECK(ev("sand or snow in the sun") == 16);
    CHECK(ev("sun") == 15);
    CHECK(ev("hazy sun") == 14);
    CHECK(ev("bright clouds") == 13);
    CHECK(ev("heavy clouds, open shade") == 12);
    CHECK(ev("an office") >= 7);
    CHECK(ev("an office") <= 8);
    CHECK(ev("a home") >= 5);
    CHECK(ev("a home") <= 7);
    CHECK(weather_at(14.2).words == std::string{"hazy sun"});
    CHECK(weather_at(-3).words == std::string{"a home"});
    CHECK(brighten(14.333333).values == Values{"light.scene_ev100=14.33"});
    CHECK(brighten(99).values == Values{"light.scene_ev100=25.0"});
}

TEST_CASE("where the sun stands is said from the photographer's place", "[rehearsal][property]") {
    CHECK(side_words(0) == "behind the camera");
    CHECK(side_words(359) == "behind the camera");
    CHECK(side_words(45) == "over the camera's right shoulder");
    CHECK(side_words(90) == "at the right");
    CHECK(side_words(180) == "behind the group");
    CHECK(side_words(-90) == "at the left");
    CHECK(height_words(-3) == "below the horizon");
    CHECK(height_words(89) != height_words(5));
}
