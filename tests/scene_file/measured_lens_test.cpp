#include "scene_file/reading/measured_lens.h"

#include "scene_folder.h"

#include "optics/fitting/profile_fit.h"

#include "base/problem.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <cmath>
#include <string>

namespace backrow::scene_file {
namespace {

const optics::LensProfile lens{.widest_f_number = 1.4,
                               .focal_length_mm = 50,
                               .spherical_dpt = 0.03,
                               .field_curvature_dpt = -0.03,
                               .astigmatism_dpt = 0.03,
                               .coma_dpt = 0.02};

/// Where half of the contrast is left of lines both ways, with a pixel or without.
double mtf50_cy_per_mm(double f_number, double height, double pixel_mm) {
    const optics::TestShots shots{.distance_m = 2, .pixel_mm = pixel_mm};
    double low = 0, high = pixel_mm > 0 ? 1 / pixel_mm : 400;
    for (int i = 0; i < 40; ++i) {
        const double middle = (low + high) / 2;
        const double left = optics::modelled_mtf(shots, lens,
                                                 {.f_number = f_number,
                                                  .image_height = height,
                                                  .tangential_share = 0.5,
                                                  .cy_per_mm = middle});
        (left > 0.5 ? low : high) = middle;
    }
    return low;
}

std::string profile_text(double pixel_mm) {
    std::string text = "focal_length_mm = 50\nwidest_f_number = 1.4\n";
    if (pixel_mm > 0)
        text += fmt::format("measured_pixel_mm = {}\n", pixel_mm);
    for (const double f_number : {1.4, 2.0, 2.8, 4.0})
        for (const double height : {0.0, 0.3, 0.5, 0.7, 0.9})
            text += fmt::format(
                "[[measured]]\nf_number = {}\nimage_height = {}\nmtf50_cy_per_mm = {:.1f}\n",
                f_number, height, mtf50_cy_per_mm(f_number, height, pixel_mm));
    return text;
}

}  // namespace

// Tolerance: three of the standard errors that are told, which are those of numbers known to 3 %.
TEST_CASE("the errors of a lens follow from its sharpness by aperture and place",
          "[scene_file][property]") {
    const SceneFolder folder;
    for (const double pixel_mm : {0.0, 0.005}) {
        const auto read = read_lens_profile(folder.write("measured.toml", profile_text(pixel_mm)));
        REQUIRE(read);
        REQUIRE(read->fit);

        const double truth[] = {0.03, -0.03, 0.03, 0.02};
        for (std::size_t i = 0; i < 4; ++i) {
            const optics::FittedTerm& term = read->fit->terms[i];
            INFO(term.key << " " << term.dpt << " ± " << term.error_dpt);
            // MTF50 of lines both ways together tells of astigmatism no more than its size.
            const double found = i == 2 ? std::abs(term.dpt) : term.dpt;
            if (term.is_told())
                CHECK(std::abs(found - truth[i]) < 3 * term.error_dpt);
        }
        CHECK(read->fit->terms[0].is_told());
        CHECK(read->profile.spherical_dpt == read->fit->profile.spherical_dpt);
        CHECK(read->fit->typical_misfit < 0.01);
    }
}

TEST_CASE("who writes the errors of a lens has them taken as written", "[scene_file][property]") {
    const SceneFolder folder;
    const auto read =
        read_lens_profile(folder.write("both.toml", "coma_dpt = 0.001\n" + profile_text(0)));
    REQUIRE(read);
    CHECK_FALSE(read->fit);
    CHECK(read->profile.coma_dpt == 0.001);
    CHECK(read->profile.spherical_dpt == 0);
}

TEST_CASE("from a few measurements no errors are told", "[scene_file][property]") {
    const SceneFolder folder;
    const auto read = read_lens_profile(
        folder.write("few.toml", "widest_f_number = 1.4\n[[measured]]\nf_number = 2\n"
                                 "image_height = 0\nmtf50_cy_per_mm = 40\n"));
    REQUIRE_FALSE(read);
    REQUIRE(read.error().size() == 1);
    CHECK(to_line(read.error().front())
              .find("few.toml:2:1: from 1 measurement no errors of a lens can be told; give 6 or "
                    "more") != std::string::npos);
}

}  // namespace backrow::scene_file
