#include "scene_file/reading/read_scene.h"

#include "scene_folder.h"

#include <catch2/catch.hpp>

// Every mistake a scene file can hold: the words, and the line and column an editor would jump to.
// The mistakes start in line 3, below a row of two people; where they need a row of their own,
// in 1.

namespace backrow::scene_file {

using namespace backrow::scene;
namespace {

using Messages = std::vector<std::string>;

const std::string two_people = "[[row]]\npeople = [\"Odile\", \"Bram\"]\n";

Messages below(const std::string& text) {
    return SceneFolder{}.messages(two_people + text);
}
Messages alone(const std::string& text) {
    return SceneFolder{}.messages(text);
}

}  // namespace

TEST_CASE("a mistyped key is pointed at, with the key that was meant", "[scene_file][property]") {
    CHECK(below("[camera]\nf_numbr = 2.8\n") ==
          Messages{"x.toml:4:1: unknown key `f_numbr`; did you mean `f_number`?"});
    CHECK(below("[camra]\nf_number = 2.8\n") ==
          Messages{"x.toml:3:2: unknown key `camra`; did you mean `camera`?"});
    CHECK(below("[[person]]\nname = \"Bram\"\nstature_cm = 182\n") ==
          Messages{"x.toml:5:1: unknown key `stature_cm`; did you mean `stature_m`?"});
    CHECK(below("[focus]\non = \"Bram\"\n  at = 3\n") ==
          Messages{"x.toml:5:3: unknown key `at`; [focus] knows on, balanced, distance_m, "
                   "point, found_at"});
    CHECK(below("[lens]\nblade = 9\n") ==
          Messages{"x.toml:4:1: unknown key `blade`; did you mean `blades`?"});
    CHECK(below("[viewing]\nuse = \"wall\"\nsize_cm = 9\n") ==
          Messages{"x.toml:5:1: unknown key `size_cm`; [viewing] knows use, print_long_side_cm, "
                   "viewing_distance_cm, judge"});
    CHECK(alone("[[row]]\nspacing = 1\npeople = [\"Odile\"]\n") ==
          Messages{"x.toml:2:1: unknown key `spacing`; did you mean `spacing_m`?"});
    CHECK(below("[setting]\ngrund = \"grass\"\n") ==
          Messages{"x.toml:4:1: unknown key `grund`; did you mean `ground`?"});
    CHECK(below("[[setting.backdrop]]\nkind = \"wall\"\ncolour = 3\n") ==
          Messages{"x.toml:5:1: unknown key `colour`; [[setting.backdrop]] knows kind, back_m, "
                   "finish, file, width_m, across_m, up_m, highlight_gain"});
    CHECK(below("[odds]\nsway_m = 0.006\n") ==
          Messages{"x.toml:4:1: unknown key `sway_m`; did you mean `sway_mm`?"});
    CHECK(below("[light]\nsun_elevation = 3\n") ==
          Messages{"x.toml:4:1: unknown key `sun_elevation`; did you mean `sun_elevation_deg`?"});
}

// Published sizes of full frame, two half formats, a compact and a medium format, from memory.
TEST_CASE("pixels that makers' round numbers leave a little oblong are taken for square",
          "[scene_file][from-memory]") {
    for (const char* camera : {"sensor_mm = [36.0, 24.0]\npixels = [6000, 4000]\n",
                               "sensor_mm = [35.9, 23.9]\npixels = [6048, 4024]\n",
                               "sensor_mm = [23.5, 15.6]\npixels = [6000, 4000]\n",
                               "sensor_mm = [17.3, 13.0]\npixels = [4608, 3456]\n",
                               "sensor_mm = [6.17, 4.55]\npixels = [4000, 3000]\n",
                               "sensor_mm = [43.8, 32.9]\npixels = [11648, 8736]\n"}) {
        INFO(camera);
        CHECK(below(std::string{"[camera]\n"} + camera).empty());
    }
}

TEST_CASE("pixels that are not square are refused, for every blur would be wrong",
          "[scene_file][property]") {
    CHECK(below("[camera]\nsensor_mm = [36, 24]\npixels = [6000, 3375]\n") ==
          Messages{"x.toml:5:10: 6000 × 3375 pixels on 36 × 24 mm would not be square but 0.844 "
                   "times as wide as high; write the part of the sensor that the picture uses, as "
                   "in sensor_mm = [36.0, 20.2]"});
    CHECK(below("[camera]\nsensor_mm = [17.3, 13.0]\n") ==
          Messages{"x.toml:4:13: 6000 × 4000 pixels on 17.3 × 13 mm would not be square but 0.887 "
                   "times as wide as high; write the part of the sensor that the picture uses, as "
                   "in sensor_mm = [17.3, 11.5]"});
    CHECK(below("[camera]\npixels = [4000, 6000]\n") ==
          Messages{"x.toml:4:10: 4000 × 6000 pixels on 36 × 24 mm would not be square but 2.25 "
                   "times as wide as high; write both as held for landscape: pixels = [6000, "
                   "4000]"});
}

TEST_CASE("clothes that do not go together are pointed at", "[scene_file][property]") {
    CHECK(
        below("[[person]]\nname = \"Bram\"\ntop = \"dress\"\nbottom = \"trousers\"\n") ==
        Messages{"x.toml:6:10: a dress goes with no trousers; leave out bottom, or choose another "
                 "top"});
    CHECK(below("[[person]]\nname = \"Bram\"\nposture = \"kneeling\"\nbottom = \"skirt\"\n") ==
          Messages{"x.toml:6:10: whoever kneels, crouches, sits on the ground or a step, or is "
                   "carried wears trousers here; choose trousers, or let the person stand or sit"});
}

TEST_CASE("a gaze goes to the camera, ahead, to somebody else or to a point",
          "[scene_file][property]") {
    CHECK(below("[[person]]\nname = \"Bram\"\ngaze = \"Odil\"\n") ==
          Messages{"x.toml:5:8: nobody in the picture is called `Odil`; did you mean `Odile`?"});
    CHECK(below("[[person]]\nname = \"Bram\"\ngaze = \"camra\"\n") ==
          Messages{"x.toml:5:8: nobody in the picture is called `camra`; did you mean `camera`?"});
    CHECK(below("[[person]]\nname = \"Bram\"\ngaze = \"Bram\"\n") ==
          Messages{"x.toml:5:8: `Bram` cannot look at themselves; write \"camera\", \"ahead\", "
                   "somebody else, or [across, up, back]"});
    CHECK(below("[[person]]\nname = \"Bram\"\ngaze = true\n") ==
          Messages{"x.toml:5:8: `gaze` is true or false; write \"camera\", \"ahead\", a person's "
                   "name, or [across, up, back]"});
}

TEST_CASE("hands that rest on the legs can only be crossed on the chest",
          "[scene_file][property]") {
    CHECK(below("[[person]]\nname = \"Bram\"\nposture = \"seated\"\narms = \"behind\"\n") ==
          Messages{"x.toml:6:8: with the posture seated the hands rest on the legs; leave out "
                   "arms, or write \"crossed\", \"round_neighbours\" or \"hand_on_shoulder\""});
    CHECK(below("[[person]]\nname = \"Bram\"\nposture = \"seated\"\narms = \"crossed\"\n") ==
          Messages{});
}

TEST_CASE("whoever is carried needs somebody who stands and is tall enough",
          "[scene_file][property]") {
    const std::string mia = "[[person]]\nname = \"Mia\"\nage_years = 3\n";
    CHECK(below(mia + "carried_by = \"Bram\"\ncarried = \"shoulders\"\n") == Messages{});
    CHECK(below(mia + "carried_by = \"Brm\"\n") ==
          Messages{"x.toml:6:14: nobody in the picture is called `Brm`; did you mean `Bram`?"});
    CHECK(below(mia + "carried_by = \"Mia\"\n") ==
          Messages{"x.toml:6:14: `Mia` cannot carry themselves; name who carries them"});
    CHECK(below(mia + "carried_by = 3\n") ==
          Messages{"x.toml:6:14: `carried_by` is a number, not text; write it in quotation marks"});
    CHECK(below(mia + "carried = \"hip\"\n") ==
          Messages{"x.toml:6:11: `carried` needs `carried_by`; write who carries this child"});
    CHECK(below(mia + "carried_by = \"Bram\"\nback_m = 1\nposture = \"seated\"\n") ==
          Messages{"x.toml:7:10: `back_m` is said of somebody who is carried; leave it out; it "
                   "follows whoever carries",
                   "x.toml:8:11: `posture` is said of somebody who is carried; leave it out; it "
                   "follows whoever carries"});
    CHECK(below("[[person]]\nname = \"Odile\"\nage_years = 3\ncarried_by = \"Bram\"\n") ==
          Messages{"x.toml:6:14: `Odile` stands in a row and is carried as well; take the name out "
                   "of the row, or leave out carried_by"});
    CHECK(below("[[person]]\nname = \"Mia\"\nstature_m = 1.3\ncarried_by = \"Bram\"\n") ==
          Messages{"x.toml:6:14: `Mia` is 1.30 m tall, too tall and heavy to be carried; up to "
                   "1.25 m are carried here"});
    CHECK(below(mia + "carried_by = \"Bram\"\n[[person]]\nname = \"Bram\"\nage_years = 6\n") ==
          Messages{"x.toml:6:14: `Bram`, 1.15 m tall, is too small to carry `Mia`, 0.94 m; name "
                   "somebody taller"});
    CHECK(
        below(mia + "carried_by = \"Bram\"\n[[person]]\nname = \"Bram\"\nposture = \"seated\"\n") ==
        Messages{"x.toml:6:14: `Bram` does not stand and cannot carry `Mia`; let them stand, or "
                 "name somebody who does"});
    CHECK(below(mia + "carried_by = \"Bram\"\n[[person]]\nname = \"Leo\"\nage_years = 2\n"
                      "carried_by = \"Bram\"\n") ==
          Messages{"x.toml:10:14: `Bram` carries somebody already; nobody carries two children "
                   "here"});
    // In a ring, nobody has feet on the ground.
    CHECK(below(mia + "carried_by = \"Leo\"\n[[person]]\nname = \"Leo\"\nage_years = 2\n"
                      "carried_by = \"Mia\"\n") ==
          Messages{"x.toml:6:14: `Leo` is carried and cannot carry `Mia`; name somebody who stands",
                   "x.toml:10:14: `Mia` is carried and cannot carry `Leo`; name somebody who "
                   "stands"});
    CHECK(below(mia + "carried_by = \"Bram\"\nbottom = \"skirt\"\n") ==
          Messages{"x.toml:7:10: whoever kneels, crouches, sits on the ground or a step, or is "
                   "carried wears trousers here; choose trousers, or let the person stand or sit"});
}

TEST_CASE("a photo of the place says which file and how wide, and the file is there",
          "[scene_file][property]") {
    const std::string photo = "[[setting.backdrop]]\nkind = \"photo\"\n";
    CHECK(below(photo + "width_m = 6\n") ==
          Messages{"x.toml:3:1: a photo lacks `file`; name the picture of the place"});
    CHECK(below(photo + "file = \"x.toml\"\n") ==
          Messages{"x.toml:3:1: a photo lacks `width_m`; say how wide the place is that the "
                   "picture shows, in metres"});
    const Messages missing = below(photo + "width_m = 6\nfile = \"gone.jpg\"\n");
    REQUIRE(missing.size() == 1);
    CHECK(missing[0].rfind("x.toml:6:8: picture file ", 0) == 0);
    CHECK(missing[0].find("gone.jpg does not exist") != std::string::npos);
    const Messages no_panorama = below("[setting]\npanorama = \"gone.jpg\"\n");
    REQUIRE(no_panorama.size() == 1);
    CHECK(no_panorama[0].rfind("x.toml:4:12: picture file ", 0) == 0);
    const Messages narrow = below(photo + "file = \"x.toml\"\nwidth_m = 0.01\n");
    REQUIRE(narrow.size() == 1);
    CHECK(narrow[0].rfind("x.toml:6:11: `width_m` cannot be 0.01", 0) == 0);
}

TEST_CASE("a mistyped word is pointed at, with the words there are", "[scene_file][property]") {
    CHECK(below("[[person]]\nname = \"Bram\"\nposture = \"seatd\"\n") ==
          Messages{"x.toml:5:11: `seatd` is no posture this program knows; did you mean `seated`? "
                   "posture is one of standing, seated, kneeling, crouching, kneeling_both, "
                   "on_ground, on_step"});
    CHECK(below("[[person]]\nname = \"Bram\"\nposture = \"lying\"\n") ==
          Messages{"x.toml:5:11: `lying` is no posture this program knows; posture is one of "
                   "standing, seated, kneeling, crouching, kneeling_both, on_ground, on_step"});
    CHECK(below("[[person]]\nname = \"Bram\"\nexpression = \"smle\"\n") ==
          Messages{"x.toml:5:14: `smle` is no expression this program knows; did you mean "
                   "`smile`? expression is one of neutral, smile, laugh, eyes_closed"});
    CHECK(below("[[person]]\nname = \"Bram\"\nheadwear = \"hut\"\n") ==
          Messages{"x.toml:5:12: `hut` is no headwear this program knows; did you mean `hat`? "
                   "headwear is one of none, hat, headscarf"});
    CHECK(below("[[person]]\nname = \"Bram\"\ntop = \"jaket\"\n") ==
          Messages{"x.toml:5:7: `jaket` is no top this program knows; did you mean `jacket`? top "
                   "is one of shirt, blouse, jumper, tee, jacket, dress"});
    const std::string colours =
        "write \"#rrggbb\", or one of white, cream, tan, brown, grey, charcoal, black, yellow, "
        "mustard, orange, pink, red, burgundy, purple, sky, blue, navy, teal, green, olive";
    CHECK(below("[[person]]\nname = \"Bram\"\ntop_colour = \"navvy\"\n") ==
          Messages{"x.toml:5:14: `navvy` is no colour this program knows; did you mean `navy`? " +
                   colours});
    CHECK(below("[[person]]\nname = \"Bram\"\nheadwear_colour = \"#12345\"\n") ==
          Messages{"x.toml:5:19: `#12345` is no colour this program knows; " + colours});
    CHECK(below("[[person]]\nname = \"Bram\"\nbottom_colour = 7\n").size() == 1);
    CHECK(below("[[person]]\nname = \"Bram\"\nbeard = \"full\"\n") ==
          Messages{"x.toml:5:9: `beard` is text, not true or false; write true or false, without "
                   "quotation marks"});
    CHECK(
        below("[camera]\norientation = \"upright\"\n") ==
        Messages{"x.toml:4:15: `upright` is no orientation this program knows; orientation is one "
                 "of landscape, portrait"});
    CHECK(below("[viewing]\nuse = \"albun\"\n") ==
          Messages{"x.toml:4:7: `albun` is no use this program knows; did you mean `album`? use is "
                   "one of phone, album, wall, pixels"});
    CHECK(below("[camera]\nexposure = \"set\"\n") ==
          Messages{"x.toml:4:12: `set` is no exposure this program knows; exposure is one of "
                   "metered, as_set"});
    CHECK(below("[light]\nkind = \"windows\"\n") ==
          Messages{"x.toml:4:8: `windows` is no kind this program knows; did you mean `window`? "
                   "kind is one of open, window"});
    CHECK(below("[setting]\nground = \"gras\"\n") ==
          Messages{
              "x.toml:4:10: `gras` is no ground this program knows; did you mean `grass`? ground "
              "is one of grass, paving, sand, boards"});
    CHECK(
        below("[[setting.backdrop]]\nkind = \"forest\"\n") ==
        Messages{"x.toml:4:8: `forest` is no kind this program knows; kind is one of wall, hedge, "
                 "trees, lights, water, bookshelf, hall, beach, street, photo"});
    CHECK(below("[[person]]\nname = \"Bram\"\nsex = \"m\"\n") ==
          Messages{"x.toml:5:7: `m` is no sex this program knows; sex is one of female, male"});
}

TEST_CASE("a value of the wrong kind is told what it is", "[scene_file][property]") {
    CHECK(below("[camera]\nf_number = \"2.8\"\n") ==
          Messages{"x.toml:4:12: `f_number` is text, not a number; write a number from 0.5 to 128, "
                   "without quotation marks"});
    CHECK(below("[camera]\niso = true\n") ==
          Messages{"x.toml:4:7: `iso` is true or false, not a number; write a number from 1 to "
                   "10000000"});
    CHECK(
        below("[camera]\nshutter_s = 2026-06-01\n") ==
        Messages{"x.toml:4:13: `shutter_s` is a date or a time, not a number; write a number from "
                 "1e-05 to 60"});
    CHECK(
        below("[camera]\nlevel = 1\n") ==
        Messages{"x.toml:4:9: `level` is a number, not true or false; write true or false, without "
                 "quotation marks"});
    CHECK(
        below("[camera]\norientation = 90\n") ==
        Messages{"x.toml:4:15: `orientation` is a number, not text; write it in quotation marks"});
    CHECK(alone("title = 3\n" + two_people) ==
          Messages{"x.toml:1:9: `title` is a number, not text; write it in quotation marks"});
    CHECK(below("[camera]\nsensor_mm = 36\n") ==
          Messages{"x.toml:4:13: `sensor_mm` is a number; write 2 numbers, [width, height]"});
    CHECK(below("[camera]\nsensor_mm = [36.0]\n") ==
          Messages{"x.toml:4:13: `sensor_mm` is a list of 1; write 2 numbers, [width, height]"});
    CHECK(below("[camera]\nsensor_mm = [36.0, \"24\"]\n") ==
          Messages{"x.toml:4:20: `sensor_mm` is text, not a number; write a number from 1 to 300, "
                   "without quotation marks"});
    CHECK(below("[camera]\naim = true\n") ==
          Messages{
              "x.toml:4:7: `aim` is true or false; write \"group\", a person's name, or [across, "
              "up, back]"});
    CHECK(
        alone("camera = 50\n" + two_people) ==
        Messages{"x.toml:1:10: `camera` is a number, not a table; write [camera] once, with single "
                 "brackets, and its keys below it"});
    CHECK(below("[[camera]]\nf_number = 2\n") ==
          Messages{"x.toml:3:1: `camera` is a list, not a table; write [camera] once, with single "
                   "brackets, and its keys below it"});
    CHECK(alone("[row]\npeople = [\"Odile\"]\n") ==
          Messages{"x.toml:1:1: `row` is a table, not a list of tables; write [[row]] with double "
                   "brackets, once for each"});
    CHECK(alone("row = [1]\n") ==
          Messages{
              "x.toml:1:8: `row` holds a number, not a table; write [[row]] with double brackets, "
              "once for each"});
    CHECK(below("[setting.backdrop]\nkind = \"wall\"\n") ==
          Messages{"x.toml:3:1: `backdrop` is a table, not a list of tables; write "
                   "[[setting.backdrop]] with double brackets, once for each"});
}

TEST_CASE("numbers in words are taken where they can mean one thing only",
          "[scene_file][property]") {
    const auto scene =
        SceneFolder{}.read(two_people + "[camera]\nf_number = \"f/2.8\"\nshutter_s = \"1/200\"\n"
                                        "distance_m = \"30 ft\"\nfocal_length_mm = \"85 mm\"\n"
                                        "[[person]]\nname = \"Bram\"\nstature_m = \"6'2\\\"\"\n"
                                        "[[person]]\nname = \"Odile\"\nstature_m = 164\n");
    REQUIRE(scene);
    CHECK(scene->camera.f_number == 2.8);
    CHECK(scene->camera.shutter_s == 0.005);
    CHECK(scene->camera.lens_to_mark_m == Approx(9.144));
    CHECK(scene->camera.focal_length_mm == 85);
    CHECK(scene->people[0].measures.stature_m == 1.64);
    CHECK(scene->people[1].measures.stature_m == Approx(1.8796));
    CHECK(
        below("[camera]\niso = \"1,600\"\n") ==
        Messages{"x.toml:4:7: `1,600` may mean two things; write 1600 or 1.600, without a comma"});
    CHECK(below("[camera]\ndistance_m = \"1/200\"\n") ==
          Messages{"x.toml:4:14: `distance_m` is text, not a number; write a number from 0.05 to "
                   "300, without quotation marks"});
    CHECK(below("[camera]\nf_number = \"f/0.1\"\n") ==
          Messages{"x.toml:4:12: `f_number` cannot be 0.1; write a number from 0.5 to 128"});
}

TEST_CASE("a number out of range is told the range", "[scene_file][property]") {
    struct Case {
        std::string table, line, place, range;
    };
    const std::vector<Case> cases{
        {"camera", "f_number = 0", "4:12: `f_number` cannot be 0", "0.5 to 128"},
        {"camera", "f_number = nan", "4:12: `f_number` cannot be nan", "0.5 to 128"},
        {"camera", "f_number = inf", "4:12: `f_number` cannot be inf", "0.5 to 128"},
        {"camera", "focal_length_mm = -50", "4:19: `focal_length_mm` cannot be -50", "1 to 2000"},
        {"camera", "distance_m = 0", "4:14: `distance_m` cannot be 0", "0.05 to 300"},
        {"camera", "height_m = -0.2", "4:12: `height_m` cannot be -0.2", "0.01 to 100"},
        {"camera", "across_m = 1e9", "4:12: `across_m` cannot be 1000000000", "-300 to 300"},
        {"camera", "shutter_s = 0", "4:13: `shutter_s` cannot be 0", "1e-05 to 60"},
        {"camera", "iso = 0", "4:7: `iso` cannot be 0", "1 to 10000000"},
        {"camera", "sensor_mm = [36, 0]", "4:18: `sensor_mm` cannot be 0", "1 to 300"},
        {"camera", "pixels = [15, 4000]", "4:11: `pixels` cannot be 15", "16 to 65535"},
        {"camera", "pixels = [6000, 65536]", "4:17: `pixels` cannot be 65536", "16 to 65535"},
        {"camera", "aim = [0, -inf, 0]", "4:11: `aim` cannot be -inf", "-300 to 300"},
        {"focus", "distance_m = -1", "4:14: `distance_m` cannot be -1", "0.001 to 100000"},
        {"focus", "point = [0, 1.6, 400]", "4:18: `point` cannot be 400", "-300 to 300"},
        {"lens", "blades = 21", "4:10: `blades` cannot be 21", "0 to 20"},
        {"odds", "sway_mm = -1", "4:11: `sway_mm` cannot be -1", "0 to 500"},
        {"odds", "camera_sway_mm = 501", "4:18: `camera_sway_mm` cannot be 501", "0 to 500"},
        {"odds", "autofocus_mm = -1", "4:16: `autofocus_mm` cannot be -1", "0 to 10000"},
        {"odds", "sideways_sway_mm = -1", "4:20: `sideways_sway_mm` cannot be -1", "0 to 500"},
        {"odds", "recompose_deg = 46", "4:17: `recompose_deg` cannot be 46", "0 to 45"},
        {"odds", "line_up_mm = 1001", "4:14: `line_up_mm` cannot be 1001", "0 to 1000"},
        {"odds", "delay_s = -0.1", "4:11: `delay_s` cannot be -0.1", "0 to 10"},
        {"odds", "blinks_per_min = 61", "4:18: `blinks_per_min` cannot be 61", "0 to 60"},
        {"odds", "blink_s = 2", "4:11: `blink_s` cannot be 2", "0 to 1"},
        {"light", "scene_ev100 = 26", "4:15: `scene_ev100` cannot be 26", "-10 to 25"},
        {"light", "sun_elevation_deg = 91", "4:21: `sun_elevation_deg` cannot be 91", "-90 to 90"},
        {"light", "sun_azimuth_deg = 361", "4:19: `sun_azimuth_deg` cannot be 361", "-360 to 360"},
        {"[setting.backdrop]", "back_m = 0.2", "4:10: `back_m` cannot be 0.2", "0.3 to 400"},
        {"[setting.backdrop]", "back_m = 401", "4:10: `back_m` cannot be 401", "0.3 to 400"},
        {"[person]", "name = \"Bram\"\nstature_m = 18.2", "5:13: `stature_m` cannot be 18.2",
         "0.6 to 2.6"},
        {"[person]", "name = \"Bram\"\nage_years = 1", "5:13: `age_years` cannot be 1", "2 to 110"},
        {"[person]", "name = \"Bram\"\nturn_deg = 181", "5:12: `turn_deg` cannot be 181",
         "-180 to 180"},
        {"[person]", "name = \"Bram\"\nhead_turn_deg = 81", "5:17: `head_turn_deg` cannot be 81",
         "-80 to 80"},
        {"[person]", "name = \"Bram\"\nlean_m = 0.7", "5:10: `lean_m` cannot be 0.7",
         "-0.6 to 0.6"},
        {"[person]", "name = \"Bram\"\nspeed_mps = -1", "5:13: `speed_mps` cannot be -1",
         "0 to 12"},
        {"[person]", "name = \"Bram\"\nheading_deg = 400", "5:15: `heading_deg` cannot be 400",
         "-360 to 360"},
        {"[person]", "name = \"Bram\"\nacross_m = 301", "5:12: `across_m` cannot be 301",
         "-300 to 300"},
        {"[person]", "name = \"Bram\"\nback_m = -301", "5:10: `back_m` cannot be -301",
         "-300 to 300"},
        {"[person]", "name = \"Bram\"\nup_m = -6", "5:8: `up_m` cannot be -6", "-5 to 100"},
        {"[row]", "people = [\"Sefu\"]\nspacing_m = 0", "5:13: `spacing_m` cannot be 0",
         "0.05 to 20"},
    };
    for (const Case& wrong : cases)
        CHECK(below("[" + wrong.table + "]\n" + wrong.line + "\n") ==
              Messages{"x.toml:" + wrong.place + "; write a number from " + wrong.range});
}

TEST_CASE("pixels are whole and within what can be rendered", "[scene_file][property]") {
    CHECK(below("[camera]\npixels = [6000.5, 4000]\n") ==
          Messages{"x.toml:4:10: a camera has no parts of pixels; write whole numbers"});
    CHECK(below("[camera]\npixels = [20000, 10001]\n") ==
          Messages{
              "x.toml:4:10: 20000 × 10001 pixels are 200 megapixels; this program goes up to 200 "
              "megapixels"});
    CHECK(SceneFolder{}.read(two_people +
                             "[camera]\nsensor_mm = [36, 18]\npixels = [20000, 10000]\n"));
    CHECK(SceneFolder{}.read(two_people + "[camera]\npixels = [6000.0, 4000.0]\n"));
}

TEST_CASE("a name is somebody's, and once", "[scene_file][property]") {
    CHECK(alone("[[row]]\npeople = [\"Odile\", \"Bram\", \"Odile\"]\n") ==
          Messages{"x.toml:2:28: `Odile` stands in a row already (line 2); nobody stands in two "
                   "places; give namesakes different names"});
    CHECK(below("[[row]]\nback_m = 1\npeople = [\"Sefu\", \"Bram\"]\n") ==
          Messages{
              "x.toml:5:19: `Bram` stands in a row already (line 2); nobody stands in two places; "
              "give namesakes different names"});
    CHECK(below("[[person]]\nname = \"Bram\"\n[[person]]\nname = \"Bram\"\nlean_m = 0.1\n") ==
          Messages{"x.toml:6:8: a second [[person]] is called `Bram` (the first: line 4); put "
                   "everything about one person in one place"});
    CHECK(below("[[person]]\nlean_m = 0.1\n") ==
          Messages{"x.toml:3:1: [[person]] lacks `name`; write whom it is about"});
    CHECK(alone("[[row]]\npeople = [\"Odile\", \" \"]\n") ==
          Messages{"x.toml:2:20: a name is empty; write who stands here"});
    CHECK(alone("[[row]]\npeople = [\"Odile\", 7]\n") ==
          Messages{"x.toml:2:20: a name is text, not a number; write it in quotation marks"});
    CHECK(alone("[[row]]\npeople = [\"O\\ndile\"]\n") ==
          Messages{"x.toml:2:11: a name holds line breaks or other control characters; write it on "
                   "one line"});
    // Sixty letters are counted as letters, not as bytes.
    std::string sixty;
    for (int i = 0; i < 60; ++i)
        sixty += "\xc3\xa9";
    CHECK(SceneFolder{}.read("[[row]]\npeople = [\"" + sixty + "\"]\n"));
    CHECK(alone("[[row]]\npeople = [\"" + sixty + "e\"]\n") ==
          Messages{"x.toml:2:11: a name of 61 characters is too long; write at most 60"});
}

TEST_CASE("a row has people, and somebody is in the picture", "[scene_file][property]") {
    CHECK(alone("[[row]]\nback_m = 1\n") ==
          Messages{"x.toml:1:1: this row has no people; write people = [\"…\", \"…\"] from picture "
                   "left to right"});
    CHECK(alone("[[row]]\npeople = []\n") ==
          Messages{"x.toml:2:10: this row has no people; write at least one name"});
    CHECK(alone("[[row]]\npeople = \"Odile\"\n") ==
          Messages{"x.toml:2:10: `people` is text, not a list; write it in square brackets"});
    CHECK(
        alone("title = \"nobody\"\n") ==
        Messages{"x.toml:1:1: nobody is in the picture; add a [[row]] with people = [\"…\"], or a "
                 "[[person]]"});
    CHECK(alone("").size() == 1);
}

TEST_CASE("of stature and age together one decides the height, the other the proportions",
          "[scene_file][property]") {
    const auto scene = SceneFolder{}.read(
        "[[person]]\nname = \"Boy\"\nstature_m = 1.85\nage_years = 16\n"
        "[[person]]\nname = \"Grandmother\"\nstature_m = 1.48\nage_years = 78\n"
        "across_m = 1\n[[person]]\nname = \"Small\"\nstature_m = 1.48\nacross_m = 2\n");
    REQUIRE(scene);
    CHECK(scene->people[0].measures.stature_m == 1.85);
    CHECK(scene->people[0].measures.age_years == 16);
    CHECK(scene->people[1].measures.stature_m == 1.48);
    CHECK(scene->people[1].measures.age_years == 78);
    // Without the age so small a stature is taken for a child's.
    CHECK(scene->people[2].measures.age_years < 16);
}

TEST_CASE("words of skin, hair and build are those of the list", "[scene_file][property]") {
    CHECK(below("[[person]]\nname = \"Bram\"\nskin = \"pale\"\n") ==
          Messages{"x.toml:5:8: `pale` is no skin this program knows; skin is one of very light, "
                   "light, medium light, medium dark, dark, very dark"});
    CHECK(below("[[person]]\nname = \"Bram\"\nhair_colour = \"blonde\"\n") ==
          Messages{"x.toml:5:15: `blonde` is no hair_colour this program knows; did you mean "
                   "`blond`? hair_colour is one of black, dark brown, brown, light brown, blond, "
                   "red, grey, white"});
    CHECK(below("[[person]]\nname = \"Bram\"\nbuild = \"huge\"\n") ==
          Messages{"x.toml:5:9: `huge` is no build this program knows; build is one of slim, "
                   "medium, broad, stout"});
    CHECK(below("[[person]]\nname = \"Bram\"\nfamily = \"\"\n") ==
          Messages{"x.toml:5:10: a name is empty; write who stands here"});
    const auto scene = SceneFolder{}.read(
        two_people + "[[person]]\nname = \"Bram\"\nskin = \"very dark\"\nhair_colour = "
                     "\"grey\"\nbuild = \"stout\"\nfamily = \"Larch\"\n");
    REQUIRE(scene);
    const auto& bram = scene->people[1];
    CHECK(bram.styling.skin == figures::Skin::very_dark);
    CHECK(bram.styling.hair_colour == figures::HairColour::grey);
    CHECK(bram.styling.family == "Larch");
    CHECK(bram.measures.chest_depth_m > scene->people[0].measures.chest_depth_m);
}

TEST_CASE("who stays beside whom is somebody of the picture", "[scene_file][property]") {
    CHECK(below("[[person]]\nname = \"Bram\"\nwith = \"Odil\"\n") ==
          Messages{"x.toml:5:8: nobody in the picture is called `Odil`; did you mean `Odile`?"});
    CHECK(
        below("[[person]]\nname = \"Bram\"\nwith = [\"Odile\", \"Bram\"]\n") ==
        Messages{"x.toml:5:18: `Bram` cannot stay beside themselves; name somebody else, or leave "
                 "it out"});
    CHECK(below("[[person]]\nname = \"Bram\"\nwith = 7\n") ==
          Messages{"x.toml:5:8: a name is text, not a number; write it in quotation marks"});
    CHECK(below("[[person]]\nname = \"Bram\"\npinned = 1\n").size() == 1);
    const auto scene = SceneFolder{}.read(
        two_people + "[[person]]\nname = \"Bram\"\nwith = \"Odile\"\npinned = true\n");
    REQUIRE(scene);
    const scene::Company& company = scene->people[1].company;
    CHECK(company.with == std::vector<std::string>{"Odile"});
    CHECK(company.pinned);
    CHECK_FALSE(company.celebrated);
}

TEST_CASE("words in a name's place are not told as people, and nobody is told twice",
          "[scene_file][property]") {
    CHECK(below("[camera]\naim = \"Zuzanna\"\n") ==
          Messages{"x.toml:4:7: nobody in the picture is called `Zuzanna`; in the picture are "
                   "Odile, Bram; or write \"group\""});
    CHECK(below("[[person]]\nname = \"Bram\"\ngaze = \"Zuzanna\"\n") ==
          Messages{"x.toml:5:8: nobody in the picture is called `Zuzanna`; in the picture are "
                   "Odile, Bram; or write \"camera\" or \"ahead\""});
    CHECK(below("[focus]\non = \"group\"\n") ==
          Messages{"x.toml:4:6: a group is not a person to focus on; write balanced = true in "
                   "place of on, or a person's name"});
    CHECK(SceneFolder{}.messages(two_people + "[[person]]\nname = \"Bram\"\n",
                                 {"person.Zuzanna.lean_m=0.1"}) ==
          Messages{"--set person.Zuzanna.lean_m=0.1: nobody in the picture is called `Zuzanna`; in "
                   "the picture are Bram, Odile"});
}

TEST_CASE("names that point at people must find them", "[scene_file][property]") {
    CHECK(below("[focus]\non = \"Odil\"\n") ==
          Messages{"x.toml:4:6: nobody in the picture is called `Odil`; did you mean `Odile`?"});
    CHECK(
        below("[focus]\non = \"Zuzanna\"\n") ==
        Messages{"x.toml:4:6: nobody in the picture is called `Zuzanna`; in the picture are Odile, "
                 "Bram"});
    CHECK(below("[camera]\naim = \"Brma\"\n") ==
          Messages{"x.toml:4:7: nobody in the picture is called `Brma`; did you mean `Bram`?"});
    CHECK(below("[camera]\naim = \"groop\"\n") ==
          Messages{"x.toml:4:7: nobody in the picture is called `groop`; did you mean `group`?"});
}

TEST_CASE("a title stands over a picture on one line", "[scene_file][property]") {
    CHECK(alone("title = \"" + std::string(401, 'x') + "\"\n" + two_people) ==
          Messages{"x.toml:1:9: the title is too long to stand over a picture; write one line"});
    CHECK(SceneFolder{}.read("title = \"" + std::string(400, 'x') + "\"\n" + two_people));
}

TEST_CASE("a focus is said once", "[scene_file][property]") {
    const std::string choices = "write one of on, balanced = true, distance_m, point";
    CHECK(below("[focus]\n") ==
          Messages{"x.toml:3:1: [focus] does not say where to focus; " + choices});
    CHECK(below("[focus]\nbalanced = false\n") ==
          Messages{"x.toml:4:12: `balanced = false` does not say where to focus; " + choices});
    CHECK(below("[focus]\non = \"Bram\"\ndistance_m = 3\n") ==
          Messages{
              "x.toml:5:14: [focus] says where to focus more than once: on, distance_m; keep one "
              "of them"});
    CHECK(below("[focus]\nbalanced = true\npoint = [0, 1, 0]\n") ==
          Messages{
              "x.toml:4:12: [focus] says where to focus more than once: point, balanced; keep one "
              "of them"});
    // A wrong value was meant as a focus all the same: one complaint, not two.
    CHECK(below("[focus]\non = 3\n") ==
          Messages{"x.toml:4:6: `on` is a number, not text; write it in quotation marks"});
    CHECK(
        below("[focus]\nbalanced = \"yes\"\n") ==
        Messages{"x.toml:4:12: `balanced` is text, not true or false; write true or false, without "
                 "quotation marks"});
}

TEST_CASE("a focus lies in front of the lens and beyond its focal length",
          "[scene_file][property]") {
    CHECK(below("[focus]\ndistance_m = 0.04\n") ==
          Messages{"x.toml:4:14: focus at 0.04 m lies inside the 85 mm focal length; focus farther "
                   "than 0.085 m from the lens"});
    // At the focal length exactly, the image would form at infinity.
    CHECK(
        below("[focus]\ndistance_m = 0.085\n") ==
        Messages{"x.toml:4:14: focus at 0.085 m lies inside the 85 mm focal length; focus farther "
                 "than 0.085 m from the lens"});
    CHECK(SceneFolder{}.read(two_people + "[focus]\ndistance_m = 0.0851\n"));
    CHECK(
        below("[focus]\npoint = [0, 1.5, -7]\n") ==
        Messages{"x.toml:4:9: the focus lies behind the camera; focus on something in front of the "
                 "lens"});
}

TEST_CASE("nobody stands at the lens or behind it", "[scene_file][property]") {
    const std::string mend =
        "; keep everybody at least 0.3 m in front of the camera; move the person "
        "back or raise camera.distance_m";
    CHECK(below("[[person]]\nname = \"Sefu\"\nback_m = -7\n") ==
          Messages{"x.toml:4:8: `Sefu` stands behind the lens or beside it" + mend});
    CHECK(below("[camera]\naim = [0, 1.55, 5]\n[[person]]\nname = \"Sefu\"\nacross_m = 2\n"
                "back_m = -6\n") ==
          Messages{"x.toml:6:8: `Sefu` stands behind the lens or beside it" + mend});
    // Half a metre from the lens: in front of it, but no torso is thinner than 0.2 m to its middle.
    const Messages close = below("[camera]\naim = [0, 1.55, 5]\n[[person]]\nname = \"Sefu\"\n"
                                 "stature_m = 1.9\nback_m = -5.56\n");
    REQUIRE(close.size() == 1);
    CHECK_THAT(close[0], Catch::StartsWith("x.toml:6:8: `Sefu` comes within 0.") &&
                             Catch::EndsWith(" m of the lens" + mend));
    CHECK(SceneFolder{}.read(two_people + "[camera]\ndistance_m = 1\n"));
    // All in one row: each is named at the place in the row.
    CHECK(below("[[person]]\nname = \"Bram\"\nback_m = -7\n") ==
          Messages{"x.toml:2:20: `Bram` stands behind the lens or beside it" + mend});
}

TEST_CASE("an aim gives the camera a direction", "[scene_file][property]") {
    const std::string said =
        "the camera would look straight up or down, or at itself; aim at a point "
        "in front of the lens";
    CHECK(below("[camera]\naim = [0, 1.55, -6]\n") == Messages{"x.toml:4:7: " + said});
    CHECK(below("[camera]\naim = [0, 9, -6]\n") == Messages{"x.toml:4:7: " + said});
    CHECK(below("[camera]\nlevel = true\naim = [0, 0, -6]\n") == Messages{"x.toml:5:7: " + said});
}

TEST_CASE("a picture is looked at in one way", "[scene_file][property]") {
    const std::string choices =
        "; write use alone, or print_long_side_cm and viewing_distance_cm together";
    CHECK(below("[viewing]\n") ==
          Messages{"x.toml:3:1: [viewing] does not say how the picture is looked at" + choices});
    CHECK(below("[viewing]\nprint_long_side_cm = 60\n") ==
          Messages{"x.toml:4:22: [viewing] lacks `viewing_distance_cm`" + choices});
    CHECK(below("[viewing]\nviewing_distance_cm = 60\n") ==
          Messages{"x.toml:4:23: [viewing] lacks `print_long_side_cm`" + choices});
    CHECK(below("[viewing]\nuse = \"wall\"\nviewing_distance_cm = 60\n") ==
          Messages{"x.toml:5:23: [viewing] names a use and a print as well" + choices});
}

TEST_CASE("a lens has blades that make an opening, and a profile that is there",
          "[scene_file][property]") {
    CHECK(below("[lens]\nblades = 4\n") ==
          Messages{"x.toml:4:10: an aperture of 4 blades is none this program draws; write 0 for a "
                   "round opening, or 5 to 20"});
    CHECK(below("[lens]\nblades = 7.5\n") ==
          Messages{"x.toml:4:10: `blades` cannot be 7.5; write a whole number"});
    CHECK(below("[lens]\nprofile = \"soft.toml\"\n") ==
          Messages{
              "x.toml:4:11: lens profile soft.toml: there is no such lens profile file; check the "
              "name and the folder"});
    const SceneFolder folder;
    folder.write("soft.toml", "widest_f_number = 1.2\nsperical_dpt = 0.1\n");
    CHECK(folder.messages(two_people + "[lens]\nprofile = \"soft.toml\"\nblades = 3\n") ==
          Messages{"x.toml:5:10: an aperture of 3 blades is none this program draws; write 0 for a "
                   "round opening, or 5 to 20",
                   "soft.toml:2:1: unknown key `sperical_dpt`; did you mean `spherical_dpt`?"});
}

TEST_CASE("nobody opens a lens further than it goes, or closes it", "[scene_file][property]") {
    const SceneFolder folder;
    folder.write("fast.toml", "widest_f_number = 1.4\nsmallest_f_number = 16\n");
    const auto at = [&](const std::string& f_number) {
        return folder.messages(two_people + "[camera]\nf_number = " + f_number +
                               "\n[lens]\nprofile = \"fast.toml\"\n");
    };
    CHECK(at("1.2") == Messages{"x.toml:4:12: the lens does not open to f/1.2: its profile begins "
                                "at f/1.4; set camera.f_number to 1.4, or take another "
                                "lens.profile"});
    CHECK(at("22") == Messages{"x.toml:4:12: the lens does not close to f/22: its profile ends at "
                               "f/16; set camera.f_number to 16, or take another lens.profile"});
    CHECK(at("1.4").empty());
    CHECK(at("16").empty());
}

TEST_CASE("a model is a file of bearable size", "[scene_file][property]") {
    CHECK(below("[[model]]\nscale = 2\n") ==
          Messages{"x.toml:3:1: [[model]] lacks `file`; name the model file to import"});
    CHECK(
        below("[[model]]\nfile = \"bench.glb\"\n") ==
        Messages{"x.toml:4:8: model file bench.glb does not exist; paths start at the scene file's "
                 "folder"});
    const SceneFolder folder;
    folder.write("models/bench.glb", "");
    CHECK(folder.messages(two_people + "[[model]]\nfile = \"models\"\n") ==
          Messages{"x.toml:4:8: model file models is not a file; name the model itself, not its "
                   "folder"});
    CHECK(folder.messages(two_people + "[[model]]\nfile = \"models/bench.glb\"\nscale = 0\n") ==
          Messages{"x.toml:5:9: `scale` cannot be 0; write a number from 0.0001 to 10000"});
    // A file with a hole in it takes no room on the disk.
    std::filesystem::resize_file(folder.path("models/bench.glb"), (512u << 20) + 1);
    CHECK(
        folder.messages(two_people + "[[model]]\nfile = \"models/bench.glb\"\n") ==
        Messages{"x.toml:4:8: model file models/bench.glb is larger than 512 MB; export a lighter "
                 "model"});
}

TEST_CASE("all mistakes are told together, down the file", "[scene_file][property]") {
    CHECK(alone("[light]\n"
                "scene_ev100 = 99\n"
                "[camera]\n"
                "f_number = 0\n"
                "isso = 100\n"
                "[focus]\n"
                "on = \"Odil\"\n"
                "[[row]]\n"
                "people = [\"Odile\", \"\"]\n") ==
          Messages{"x.toml:2:15: `scene_ev100` cannot be 99; write a number from -10 to 25",
                   "x.toml:4:12: `f_number` cannot be 0; write a number from 0.5 to 128",
                   "x.toml:5:1: unknown key `isso`; did you mean `iso`?",
                   "x.toml:7:6: nobody in the picture is called `Odil`; did you mean `Odile`?",
                   "x.toml:9:20: a name is empty; write who stands here"});
}

}  // namespace backrow::scene_file
