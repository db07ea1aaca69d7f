#include "scene_file/reading/lens_profile_file.h"

#include "scene_folder.h"

#include "optics/blur/blur_circle.h"
#include "optics/lens/light_loss.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <utility>

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

TEST_CASE("everything that a lens profile may say arrives", "[scene_file][property]") {
    const SceneFolder folder;
    const auto whole = read_lens_profile(folder.write("lens.toml", R"(
title = "Old portrait"
origin = "ours"
date = 2026-05-31
focal_length_mm = 85
widest_f_number = 1.4
smallest_f_number = 16
spherical_dpt = 0.02
field_curvature_dpt = -0.03
astigmatism_dpt = 0.04
coma_dpt = 0.01
longitudinal_colour_dpt = [-0.01, 0.002, 0.015]
vignetting = 1.1
natural_falloff = 0.6
focus_offset_dpt = 0.003
blades = 9
roundness = 0.5
[[measured]]
f_number = 1.4
image_height = 0.5
mtf50_cy_per_mm = 31
[[measured]]
f_number = 2.8
image_height = 0
mtf50_cy_per_mm = 60.5
)"));
    REQUIRE(whole);
    CHECK(whole->title == "Old portrait");
    CHECK(whole->origin == "ours");
    CHECK(whole->date == "2026-05-31");
    CHECK(whole->profile == optics::LensProfile{.widest_f_number = 1.4,
                                                .smallest_f_number = 16,
                                                .focal_length_mm = 85,
                                                .spherical_dpt = 0.02,
                                                .field_curvature_dpt = -0.03,
                                                .astigmatism_dpt = 0.04,
                                                .coma_dpt = 0.01,
                                                .longitudinal_colour_dpt = {-0.01, 0.002, 0.015},
                                                .vignetting = 1.1,
                                                .natural_falloff = 0.6,
                                                .focus_offset_dpt = 0.003,
                                                .blades = 9,
                                                .roundness = 0.5});
    CHECK(whole->measured == std::vector<MeasuredSharpness>{{1.4, 0.5, 31}, {2.8, 0, 60.5}});
}

TEST_CASE("what contradicts itself in a lens profile is told with its place",
          "[scene_file][property]") {
    CHECK(
        wrong("widest_f_number = 2\nsmallest_f_number = 1.4\n") ==
        Messages{"lens.toml:2:21: the smallest opening, f/1.4, is wider than the widest, f/2; mend "
                 "one of them"});
    CHECK(wrong("widest_f_number = 2\nvignetting = 1.5\nroundness = 0.5\n") ==
          Messages{"lens.toml:2:14: `vignetting` cannot be 1.5; write a number from 0 to 1.3",
                   "lens.toml:3:13: `roundness` tells how round blades make the opening, and there "
                   "are none; write `blades` too"});
    CHECK(
        wrong("widest_f_number = 2\nblades = 3\n") ==
        Messages{"lens.toml:2:10: an aperture of 3 blades is none this program draws; write 0 for "
                 "a round opening, or 5 to 20"});
    CHECK(wrong("widest_f_number = 2\ndate = \"May\"\n") ==
          Messages{"lens.toml:2:8: `date` is no day; write it as in date = 2026-05-31"});
    CHECK(wrong("widest_f_number = 2\n[[measured]]\nf_number = 1.4\nimage_height = 0\n") ==
          Messages{
              "lens.toml:2:1: [[measured]] lacks `mtf50_cy_per_mm`; write aperture, image height "
              "and MTF50 of every measurement",
              "lens.toml:3:12: measured at f/1.4, and the lens opens to f/2 only; mend one of "
              "them"});
}

TEST_CASE("a lens of the program is known by its name alone", "[scene_file][property]") {
    const std::vector<std::string> names = own_lenses();
    for (const char* name :
         {"difficult-fifty", "gentle-fifty", "modern-fifty", "typical-fast-prime"})
        CHECK(std::ranges::count(names, name) == 1);
    const SceneFolder folder;
    const auto scene = folder.read("[[row]]\npeople = [\"Ada\"]\n[lens]\nprofile = "
                                   "\"typical-fast-prime\"\n");
    REQUIRE(scene);
    REQUIRE(scene->lens.profile);
    CHECK(scene->lens.profile->widest_f_number == 1.4);
    CHECK(scene->lens.profile_file == "typical-fast-prime");
    CHECK(folder.messages(
              "[[row]]\npeople = [\"Ada\"]\n[lens]\nprofile = \"tipical-fast-prime\"\n") ==
          Messages{"x.toml:4:11: lens profile tipical-fast-prime: the program has no lens of this "
                   "name; did "
                   "you mean `typical-fast-prime`?"});
    CHECK(names_own_lens("typical-fast-prime"));
    CHECK_FALSE(names_own_lens("lens.toml"));
    CHECK_FALSE(names_own_lens("lenses/mine"));
    CHECK_FALSE(names_own_lens(""));
}

// [LENSFUN]: a 50 mm f/1.4 on 36 × 24 mm at the farthest distance keeps .2270, .4088, .6862 and
// .8327 of the light in its corner at f/1.4, 2, 2.8 and 4. Tolerance: two numbers of ours stand for
// four of theirs; a sixth of a stop, half of what a third-stop ring can set.
TEST_CASE("the typical fast prime darkens corners as a measured one does",
          "[scene_file][published]") {
    const auto typical = read_named_lens("typical-fast-prime", "");
    REQUIRE(typical);
    for (const auto& [f_number, kept] :
         {std::pair{1.4, .2270}, {2.0, .4088}, {2.8, .6862}, {4.0, .8327}}) {
        const auto lens = optics::focused_lens({.focal_length_mm = 50,
                                                .f_number = f_number,
                                                .focus_m = 1000,
                                                .profile = typical->profile});
        REQUIRE(lens);
        CHECK(std::log2(optics::light_share(*lens, 1) / kept) == Approx(0).margin(1.0 / 6));
    }
}

// Common practice, no source: fast primes are at their best two to three stops down, and wide open
// their corners are softer than the middle.
TEST_CASE("the typical fast prime is at its best two to three stops down",
          "[scene_file][practice]") {
    const auto typical = read_named_lens("typical-fast-prime", "");
    REQUIRE(typical);
    const auto rest_um = [&](double f_number, double image_height) {
        const auto lens = optics::focused_lens({.focal_length_mm = 50,
                                                .f_number = f_number,
                                                .focus_m = 3,
                                                .profile = typical->profile});
        REQUIRE(lens);
        // With the focus left where the middle is sharpest.
        const double best_m = 1 / (1.0 / 3 + optics::spot_at(*lens, 0).best_focus_dpt);
        return 1000 * optics::blur_diameter_mm(*lens, best_m, image_height);
    };
    CHECK(rest_um(1.4, 0) == Approx(21).margin(1));
    CHECK(rest_um(1.4, 1) > 1.3 * rest_um(1.4, 0));
    CHECK(rest_um(2.8, 0) < rest_um(1.4, 0) / 4);
    CHECK(rest_um(2.8, 1) < rest_um(1.4, 1) / 2);
    CHECK(rest_um(4.0, 1) < 10);
}

// Enlarged, the same lens blurs by as much more as it is longer. Tolerance: rounding, and the image
// distances at one magnification, which are in the same ratio.
TEST_CASE("on another focal length a lens is the same lens enlarged", "[scene_file][property]") {
    const auto typical = read_named_lens("typical-fast-prime", "");
    REQUIRE(typical);
    const auto rest_mm = [&](double focal_length_mm) {
        const auto lens = optics::focused_lens(
            {.focal_length_mm = focal_length_mm,
             .f_number = 1.4,
             .focus_m = focal_length_mm * 0.051,
             .profile = optics::at_focal_length(typical->profile, focal_length_mm)});
        REQUIRE(lens);
        return optics::blur_parts(*lens, 5, 0.8).lens_mm;
    };
    CHECK(rest_mm(85) / rest_mm(50) == Approx(85.0 / 50).epsilon(1e-9));
}

}  // namespace backrow::scene_file
