#include "scene_file/reading/lens_profile_file.h"

#include "scene_folder.h"

#include "optics/blur_circle.h"

#include <catch2/catch.hpp>

#include <cmath>

namespace backrow::scene_file {

using namespace backrow::scene;
namespace {

using Messages = std::vector<std::string>;

Messages wrong(const std::string& text) {
    const SceneFolder folder;
    const auto profile = read_lens_profile(folder.write("lens.toml", text));
    return profile ? Messages{} : folder.lines(profile.error());
}

}  // namespace

TEST_CASE("a lens profile is a title and three numbers", "[scene_file][property]") {
    const SceneFolder folder;
    const auto whole = read_lens_profile(folder.write(
        "lens.toml", "title = \"Gentle fifty\"\nwidest_f_number = 1.2\nspherical_dpt = 0.12\n"
                     "field_curvature_dpt = -0.08\n"));
    REQUIRE(whole);
    CHECK(whole->title == "Gentle fifty");
    CHECK(whole->profile.widest_f_number == 1.2);
    CHECK(whole->profile.spherical_dpt == 0.12);
    CHECK(whole->profile.field_curvature_dpt == -0.08);

    const auto shortest = read_lens_profile(folder.write("lens.toml", "widest_f_number = 2\n"));
    REQUIRE(shortest);
    CHECK(shortest->profile.spherical_dpt == 0);
    CHECK(shortest->profile.field_curvature_dpt == 0);
}

// The words stand at the head of the file. A blur of two causes is the root of the sum of their
// squares. Tolerance: rounding.
TEST_CASE("the gentle fifty does on stopping down what its file says", "[scene_file][property]") {
    const auto gentle = read_lens_profile(BACKROW_SOURCE_DIR "/scenes/lenses/gentle-fifty.toml");
    REQUIRE(gentle);
    struct Blurs {
        double glow_mm, corner_mm, corner_nearer_dpt;
    };
    const auto at = [&](double f_number) -> Blurs {
        const auto lens = optics::focused_lens({.focal_length_mm = 50,
                                                .f_number = f_number,
                                                .focus_m = 3,
                                                .profile = gentle->profile});
        REQUIRE(lens);
        const double middle_dpt = optics::spot_at(*lens, 0).best_focus_dpt;
        const double middle_m = 1 / (1.0 / 3 + middle_dpt);
        const double glow_mm = optics::blur_diameter_mm(*lens, middle_m, 0);
        const double both_mm = optics::blur_diameter_mm(*lens, middle_m, 1);
        return {.glow_mm = glow_mm,
                .corner_mm = std::sqrt(both_mm * both_mm - glow_mm * glow_mm),
                .corner_nearer_dpt = optics::spot_at(*lens, 1).best_focus_dpt - middle_dpt};
    };
    const Blurs wide = at(1.2), stopped = at(2.4);
    CHECK(gentle->profile.spherical_dpt > 0);
    CHECK(wide.corner_nearer_dpt > 0);
    CHECK(stopped.corner_nearer_dpt == Approx(wide.corner_nearer_dpt).epsilon(1e-12));
    CHECK(stopped.glow_mm == Approx(wide.glow_mm / 8).epsilon(1e-9));
    CHECK(stopped.corner_mm == Approx(wide.corner_mm / 2).epsilon(1e-9));
}

TEST_CASE("mistakes in a lens profile are told with their places", "[scene_file][property]") {
    CHECK(wrong("spherical_dpt = 0.1\n") ==
          Messages{"lens.toml:1:1: the lens profile lacks `widest_f_number`; write the f-number at "
                   "which the lens was measured wide open"});
    CHECK(
        wrong("widest_f_number = 1.2\nspherical_dpt = 21\nfield_curvature_dpt = \"0\"\n") ==
        Messages{"lens.toml:2:17: `spherical_dpt` cannot be 21; write a number from -20 to 20",
                 "lens.toml:3:23: `field_curvature_dpt` is text, not a number; write a number from "
                 "-20 to 20, without quotation marks"});
    CHECK(wrong("widest_f_number = 1.2\nfield_curvature = 1\n") ==
          Messages{"lens.toml:2:1: unknown key `field_curvature`; did you mean "
                   "`field_curvature_dpt`?"});
    CHECK(wrong("widest_f_number = \n").size() == 1);
}

}  // namespace backrow::scene_file
