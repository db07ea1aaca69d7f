#include "scene_file/reading/lens_database.h"

#include "scene_file/reading/lens_profile_file.h"
#include "scene_folder.h"

#include "optics/lens/light_loss.h"

#include "base/problem.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <string>

namespace backrow::scene_file {
namespace {

double corner_light(const optics::LensProfile& profile, double f_number, double image_height) {
    const auto lens = optics::focused_lens({.focal_length_mm = profile.focal_length_mm,
                                            .f_number = f_number,
                                            .focus_m = 1000,
                                            .profile = profile});
    REQUIRE(lens);
    return optics::light_share(*lens, image_height);
}

}  // namespace

TEST_CASE("without the lens database a profile that asks for it says how to get it",
          "[scene_file][property]") {
    if (has_lens_database())
        return;
    const SceneFolder folder;
    const auto read = read_lens_profile(
        folder.write("own.toml", "widest_f_number = 1.4\ndatabase = \"Any lens\"\n"));
    REQUIRE_FALSE(read);
    CHECK(to_line(read.error().front())
              .find("own.toml:2:12: this program was built without a lens "
                    "database; build it where liblensfun-dev is "
                    "installed") != std::string::npos);
}

// [LENSFUN] has a fifty that opens to f/1.4 with .227 of the light in the corners there, .409 at
// f/2, .686 at f/2.8 and .833 at f/4. Tolerance: rims and cos⁴ follow a measured lens that closely.
TEST_CASE("the light that the lens database knows of fills a profile", "[scene_file][published]") {
    if (!has_lens_database())
        return;
    const auto names = lenses_in_database();
    REQUIRE(names.size() > 20);
    const bool is_there = std::ranges::any_of(names, [](const std::string& name) {
        const auto found = find_in_database(name);
        if (!found || std::abs(found->focal_length_mm - 50) > 0.5 ||
            std::abs(found->widest_f_number - 1.4) > 0.05)
            return false;
        return std::abs(corner_light(*found, 1.4, 1) - 0.227) < 0.03 &&
               std::abs(corner_light(*found, 2, 1) - 0.409) < 0.05 &&
               std::abs(corner_light(*found, 2.8, 1) - 0.686) < 0.05 &&
               std::abs(corner_light(*found, 4, 1) - 0.833) < 0.05;
    });
    CHECK(is_there);
}

TEST_CASE("what a profile says itself the lens database does not change",
          "[scene_file][property]") {
    if (!has_lens_database())
        return;
    const SceneFolder folder;
    const std::string name = lenses_in_database().front();
    const auto theirs = find_in_database(name);
    REQUIRE(theirs);
    const auto filled = read_lens_profile(
        folder.write("filled.toml", "spherical_dpt = 0.02\ndatabase = '" + name + "'\n"));
    REQUIRE(filled);
    CHECK(filled->profile.widest_f_number == theirs->widest_f_number);
    CHECK(filled->profile.vignetting == theirs->vignetting);
    CHECK(filled->profile.spherical_dpt == 0.02);
    const auto own = read_lens_profile(folder.write(
        "own.toml", "widest_f_number = 31\nvignetting = 0.123\ndatabase = '" + name + "'\n"));
    REQUIRE(own);
    CHECK(own->profile.widest_f_number == 31);
    CHECK(own->profile.vignetting == 0.123);
    CHECK(own->profile.natural_falloff == 0);
    const auto unknown = read_lens_profile(
        folder.write("none.toml", "widest_f_number = 2\ndatabase = \"Qqqq zzzz 7 mm\"\n"));
    REQUIRE_FALSE(unknown);
    CHECK(to_line(unknown.error().front()).find("none.toml:2:12: the lens database has no lens") !=
          std::string::npos);
}

}  // namespace backrow::scene_file
