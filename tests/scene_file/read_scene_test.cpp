#include "scene_file/reading/read_scene.h"

#include "scene_folder.h"

#include <catch2/catch.hpp>

namespace backrow::scene_file {

using namespace backrow::scene;
namespace {

const Person& named(const Scene& scene, const std::string& name) {
    for (const Person& person : scene.people)
        if (person.name == name)
            return person;
    throw std::runtime_error{name + " is not in the picture"};
}

// Every key of the scene format once, each away from its default.
constexpr const char* every_key = R"(title = "Harbour choir"
[camera]
sensor_mm = [23.6, 15.7]
pixels = [4000, 2660]
orientation = "portrait"
focal_length_mm = 85
f_number = 1.4
distance_m = 6
height_m = 1.7
across_m = 0.25
aim = "Bram"
level = true
shutter_s = 0.002
iso = 400
filter_stops = 3
exposure = "as_set"
[focus]
point = [0.1, 1.6, 0.5]
[lens]
profile = "lenses/soft.toml"
blades = 9
[viewing]
print_long_side_cm = 60.0
viewing_distance_cm = 80
judge = "blur"
[[row]]
back_m = 0.1
up_m = 0.17
spacing_m = 0.6
stagger = true
people = ["Odile", "Bram"]
[[person]]
name = "Bram"
stature_m = 1.82
sex = "male"
posture = "kneeling"
hair = "curly"
beard = true
glasses = true
headwear = "hat"
top = "jacket"
bottom = "trousers"
top_colour = "#1F3a5f"
bottom_colour = "navy"
headwear_colour = "White"
across_m = 0.4
back_m = 0.2
up_m = 0.05
turn_deg = 15
head_turn_deg = -10
lean_m = 0.02
lean_sideways_m = -0.03
expression = "laugh"
gaze = "Odile"
speed_mps = 1.3
heading_deg = 90
[[person]]
name = "Ayo"
age_years = 7
sex = "female"
posture = "kneeling_both"
arms = "crossed"
expression = "eyes_closed"
gaze = [1, 0.5, -2]
across_m = -1.5
back_m = 1
[[person]]
name = "Uli"
posture = "on_step"
arms = "hand_on_shoulder"
across_m = 3
[[person]]
name = "Eni"
arms = "round_neighbours"
across_m = 5
[[person]]
name = "Mia"
age_years = 3
carried_by = "Eni"
carried = "shoulders"
head_turn_deg = 12
[setting]
ground = "boards"
[[setting.backdrop]]
kind = "lights"
back_m = 12
[[setting.backdrop]]
kind = "wall"
back_m = 20
finish = "plaster"
[[model]]
file = "models/bench.glb"
across_m = -1
up_m = 0.1
back_m = 0.3
scale = 2
turn_deg = 270
[odds]
sway_mm = 5
sideways_sway_mm = 3
camera_sway_mm = 4
autofocus_mm = 12
recompose_deg = 8
line_up_mm = 20
delay_s = 0.1
blinks_per_min = 10
blink_s = 0.3
[light]
scene_ev100 = 9
sun_elevation_deg = 20
sun_azimuth_deg = 200
kind = "window"
window_azimuth_deg = 60
window_distance_m = 2.5
window_width_m = 1.2
window_height_m = 1.4
window_sill_m = 0.9
)";

}  // namespace

TEST_CASE("a scene needs nothing but somebody in it", "[scene_file][property]") {
    const SceneFolder folder;
    const auto scene = folder.read("[[person]]\nname = \"Odile\"\n");
    REQUIRE(scene);
    const Camera& camera = scene->camera;
    CHECK(scene->title.empty());
    CHECK(camera.sensor_mm == std::array{36.0, 24.0});
    CHECK(camera.pixels == std::array{6000, 4000});
    CHECK(camera.orientation == Orientation::landscape);
    CHECK(camera.focal_length_mm == 85.0);
    CHECK(camera.f_number == 2.0);
    CHECK(camera.lens_to_mark_m == 6.0);
    CHECK(camera.height_m == 1.55);
    CHECK(camera.across_m == 0.0);
    CHECK(std::holds_alternative<AimAtGroup>(camera.aim));
    CHECK_FALSE(camera.level);
    CHECK(camera.shutter_s == 0.004);
    CHECK(camera.iso == 100);
    CHECK_FALSE(scene->lens.profile);
    CHECK(scene->lens.blades == 0);
    const auto* print = std::get_if<optics::PrintViewing>(&scene->viewing);
    REQUIRE(print);
    CHECK(print->long_side_cm == optics::album_viewing.long_side_cm);
    CHECK(print->distance_cm == optics::album_viewing.distance_cm);
    CHECK(scene->judge == Judge::sharpness);
    CHECK(scene->setting.ground == setting::Ground::grass);
    CHECK(scene->setting.backdrops.empty());
    CHECK(scene->models.empty());
    CHECK(scene->odds.sway_mm == 6.0);
    CHECK(scene->odds.camera_sway_mm == 8.0);
    CHECK(scene->odds.autofocus_mm == 0.0);
    CHECK(scene->odds.sideways_sway_mm == 3.6);
    CHECK(scene->odds.recompose_deg == 0.0);
    CHECK(scene->odds.line_up_mm == 0.0);
    CHECK(scene->odds.delay_s == 0.0);
    CHECK(scene->odds.blinks_per_min == 15.0);
    CHECK(scene->odds.blink_s == 0.25);
    CHECK(scene->light.scene_ev100 == 12.0);
    CHECK(scene->light.sun_elevation_deg == 35.0);
    CHECK(scene->light.sun_azimuth_deg == 140.0);
    CHECK(scene->light.kind == LightKind::open);
    CHECK(scene->light.window.azimuth_deg == 290.0);
    CHECK(scene->light.window.distance_m == 3.0);
    CHECK(scene->light.window.width_m == 2.0);
    CHECK(scene->light.window.height_m == 1.8);
    CHECK(scene->light.window.sill_m == 0.8);
    CHECK(scene->camera.exposure == ShownExposure::metered);

    REQUIRE(scene->people.size() == 1);
    const Person& odile = scene->people.front();
    CHECK(odile.measures.stature_m == 1.70);
    CHECK(odile.pose.posture == figures::Posture::standing);
    CHECK_FALSE(odile.pose.expression);
    CHECK_FALSE(odile.pose.arms);
    CHECK(odile.pose.lean_sideways_m == 0);
    CHECK(odile.carrier == -1);
    CHECK(std::holds_alternative<GazeAtCamera>(odile.gaze));
    CHECK_FALSE(odile.styling.hair);
    CHECK_FALSE(odile.styling.top_colour);
    CHECK_FALSE(odile.styling.bottom_colour);
    CHECK_FALSE(odile.styling.headwear_colour);
    CHECK_FALSE(odile.styling.beard);
    CHECK_FALSE(odile.styling.glasses);
    CHECK(odile.styling.headwear == figures::Headwear::none);
    CHECK_FALSE(odile.styling.top);
    CHECK_FALSE(odile.styling.bottom);
    CHECK(odile.place.across_m == 0.0);
    CHECK(odile.row == -1);
}

TEST_CASE("every key of a scene file arrives", "[scene_file][property]") {
    const SceneFolder folder;
    folder.write("lenses/soft.toml", "widest_f_number = 1.2\nspherical_dpt = 0.1\n");
    folder.write("models/bench.glb", "");
    const auto scene = folder.read(every_key);
    REQUIRE(scene);
    const Camera& camera = scene->camera;
    CHECK(scene->title == "Harbour choir");
    CHECK(camera.sensor_mm == std::array{23.6, 15.7});
    CHECK(camera.pixels == std::array{4000, 2660});
    CHECK(camera.orientation == Orientation::portrait);
    CHECK(camera.focal_length_mm == 85);
    CHECK(camera.f_number == 1.4);
    CHECK(camera.lens_to_mark_m == 6);
    CHECK(camera.height_m == 1.7);
    CHECK(camera.across_m == 0.25);
    CHECK(std::get<AimAtPerson>(camera.aim).name == "Bram");
    CHECK(camera.level);
    CHECK(camera.shutter_s == 0.002);
    CHECK(camera.iso == 400);
    CHECK(camera.exposure == ShownExposure::as_set);
    const auto& point = std::get<FromMark>(scene->focus);
    CHECK(point.across_m == 0.1);
    CHECK(point.up_m == 1.6);
    CHECK(point.back_m == 0.5);
    REQUIRE(scene->lens.profile);
    CHECK(scene->lens.profile->widest_f_number == 1.2);
    CHECK(scene->lens.profile->spherical_dpt == 0.1);
    CHECK(scene->lens.profile_file == "lenses/soft.toml");
    CHECK(scene->camera.filter_stops == 3);
    CHECK(scene->lens.blades == 9);
    CHECK(std::get<optics::PrintViewing>(scene->viewing).long_side_cm == 60);
    CHECK(std::get<optics::PrintViewing>(scene->viewing).distance_cm == 80);
    CHECK(scene->judge == Judge::blur);

    REQUIRE(scene->people.size() == 6);
    const Person& bram = named(*scene, "Bram");
    CHECK(bram.row == 0);
    CHECK(bram.measures.stature_m == 1.82);
    CHECK(bram.measures.sex == figures::Sex::male);
    CHECK(bram.pose.posture == figures::Posture::kneeling);
    CHECK(bram.styling.hair == figures::Hair::curly);
    CHECK(bram.styling.beard);
    CHECK(bram.styling.glasses);
    CHECK(bram.styling.headwear == figures::Headwear::hat);
    CHECK(bram.styling.top == figures::Top::jacket);
    CHECK(bram.styling.bottom == figures::Bottom::trousers);
    // 0x1f, 0x3a and 0x5f as sRGB, decoded by hand: ((c/255 + 0.055) / 1.055)^2.4.
    REQUIRE(bram.styling.top_colour);
    CHECK(bram.styling.top_colour->r == Approx(0.01370).margin(0.00001));
    CHECK(bram.styling.top_colour->g == Approx(0.04231).margin(0.00001));
    CHECK(bram.styling.top_colour->b == Approx(0.11443).margin(0.00001));
    REQUIRE(bram.styling.bottom_colour);
    CHECK(bram.styling.bottom_colour->b > 2 * bram.styling.bottom_colour->r);
    REQUIRE(bram.styling.headwear_colour);
    CHECK(bram.styling.headwear_colour->g > 0.7);
    CHECK(bram.pose.turn_deg == 15);
    CHECK(bram.pose.head_turn_deg == -10);
    CHECK(bram.pose.lean_m == 0.02);
    CHECK(bram.pose.lean_sideways_m == -0.03);
    CHECK(bram.pose.expression == figures::Expression::laugh);
    CHECK_FALSE(bram.pose.arms);
    CHECK(std::get<GazeAtPerson>(bram.gaze).name == "Odile");
    CHECK(bram.speed_mps == 1.3);
    CHECK(bram.heading_deg == 90);
    // Second of two at 0.6 m: +0.3; staggered by half of 0.6: +0.3; his own +0.4.
    CHECK(bram.place.across_m == Approx(1.0).margin(1e-12));
    CHECK(bram.place.back_m == Approx(0.3).margin(1e-12));
    CHECK(bram.place.up_m == Approx(0.22).margin(1e-12));
    const Person& ayo = named(*scene, "Ayo");
    CHECK(ayo.row == -1);
    CHECK(ayo.measures.age_years == 7);
    CHECK(ayo.measures.stature_m == figures::stature_m_from_age(7, figures::Sex::female));
    CHECK(ayo.pose.posture == figures::Posture::kneeling_both);
    CHECK(ayo.pose.arms == figures::Arms::crossed);
    CHECK(ayo.pose.expression == figures::Expression::eyes_closed);
    CHECK(std::get<FromMark>(ayo.gaze).up_m == 0.5);
    CHECK(ayo.place.across_m == -1.5);
    CHECK(ayo.place.back_m == 1);
    CHECK(ayo.carrier == -1);
    CHECK(named(*scene, "Uli").pose.posture == figures::Posture::on_step);
    CHECK(named(*scene, "Uli").pose.arms == figures::Arms::hand_on_shoulder);
    CHECK(named(*scene, "Eni").pose.arms == figures::Arms::round_neighbours);
    const Person& mia = named(*scene, "Mia");
    CHECK(scene->people[static_cast<std::size_t>(mia.carrier)].name == "Eni");
    CHECK(mia.pose.posture == figures::Posture::on_shoulders);
    CHECK(mia.pose.head_turn_deg == 12);
    CHECK(mia.place.across_m == 5);

    CHECK(scene->setting.ground == setting::Ground::boards);
    REQUIRE(scene->setting.backdrops.size() == 2);
    CHECK(scene->setting.backdrops[0].kind == setting::BackdropKind::lights);
    CHECK(scene->setting.backdrops[0].back_m == 12);
    CHECK(scene->setting.backdrops[0].finish == setting::Finish::brick);
    CHECK(scene->setting.backdrops[1].kind == setting::BackdropKind::wall);
    CHECK(scene->setting.backdrops[1].finish == setting::Finish::plaster);
    REQUIRE(scene->models.size() == 1);
    CHECK(scene->models[0].file == folder.path("models/bench.glb"));
    CHECK(scene->models[0].place.across_m == -1);
    CHECK(scene->models[0].place.up_m == 0.1);
    CHECK(scene->models[0].place.back_m == 0.3);
    CHECK(scene->models[0].scale == 2);
    CHECK(scene->models[0].turn_deg == 270);
    CHECK(scene->odds.sway_mm == 5);
    CHECK(scene->odds.camera_sway_mm == 4);
    CHECK(scene->odds.autofocus_mm == 12);
    CHECK(scene->odds.sideways_sway_mm == 3);
    CHECK(scene->odds.recompose_deg == 8);
    CHECK(scene->odds.line_up_mm == 20);
    CHECK(scene->odds.delay_s == 0.1);
    CHECK(scene->odds.blinks_per_min == 10);
    CHECK(scene->odds.blink_s == 0.3);
    CHECK(scene->light.scene_ev100 == 9);
    CHECK(scene->light.sun_elevation_deg == 20);
    CHECK(scene->light.sun_azimuth_deg == 200);
    CHECK(scene->light.kind == LightKind::window);
    CHECK(scene->light.window.azimuth_deg == 60);
    CHECK(scene->light.window.distance_m == 2.5);
    CHECK(scene->light.window.width_m == 1.2);
    CHECK(scene->light.window.height_m == 1.4);
    CHECK(scene->light.window.sill_m == 0.9);
}

TEST_CASE("a row stands centred on the mark, listed from picture left", "[scene_file][property]") {
    const SceneFolder folder;
    const auto scene = folder.read("[[row]]\n"
                                   "spacing_m = 0.5\n"
                                   "people = [\"a\", \"b\", \"c\", \"d\"]\n"
                                   "[[row]]\n"
                                   "back_m = 0.75\n"
                                   "up_m = 0.3\n"
                                   "spacing_m = 0.5\n"
                                   "stagger = true\n"
                                   "people = [\"e\", \"f\", \"g\"]\n");
    REQUIRE(scene);
    // Multiples of a quarter metre: exact in binary.
    const double across_m[] = {-0.75, -0.25, 0.25, 0.75, -0.25, 0.25, 0.75};
    REQUIRE(scene->people.size() == 7);
    for (std::size_t i = 0; i < 7; ++i) {
        CHECK(scene->people[i].name == std::string(1, static_cast<char>('a' + i)));
        CHECK(scene->people[i].place.across_m == across_m[i]);
        CHECK(scene->people[i].place.back_m == (i < 4 ? 0.0 : 0.75));
        CHECK(scene->people[i].place.up_m == (i < 4 ? 0.0 : 0.3));
        CHECK(scene->people[i].row == (i < 4 ? 0 : 1));
    }
}

TEST_CASE("unasked, the camera focuses on the middle of the front row", "[scene_file][property]") {
    const SceneFolder folder;
    const auto focused_on = [&](const std::string& text) {
        const auto scene = folder.read(text);
        REQUIRE(scene);
        return std::get<FocusOnPerson>(scene->focus).name;
    };
    CHECK(focused_on("[[row]]\nback_m = 1\npeople = [\"d\"]\n[[row]]\npeople = [\"a\", \"b\", "
                     "\"c\"]\n") == "b");
    CHECK(focused_on("[[row]]\npeople = [\"a\", \"b\", \"c\", \"d\"]\n") == "c");
    CHECK(focused_on("[[person]]\nname = \"x\"\n[[person]]\nname = \"y\"\nacross_m = 1\n") == "x");
}

TEST_CASE("each way to say where to focus is understood", "[scene_file][property]") {
    const SceneFolder folder;
    const auto focus = [&](const std::string& line) {
        const auto scene = folder.read("[[row]]\npeople = [\"Odile\"]\n[focus]\n" + line + "\n");
        REQUIRE(scene);
        return scene->focus;
    };
    CHECK(std::get<FocusOnPerson>(focus("on = \"Odile\"")).name == "Odile");
    CHECK(std::holds_alternative<FocusBalanced>(focus("balanced = true")));
    CHECK(std::get<FocusAtDistance>(focus("distance_m = 4")).axial_m == 4);
    CHECK(std::get<FromMark>(focus("point = [0, 1.6, 0.5]")).back_m == 0.5);
    CHECK(std::get<FocusAtDistance>(focus("distance_m = 4\nbalanced = false")).axial_m == 4);
}

TEST_CASE("each way to look at a picture is understood", "[scene_file][property]") {
    const SceneFolder folder;
    const auto viewing = [&](const std::string& use) {
        const auto scene =
            folder.read("[[row]]\npeople = [\"Odile\"]\n[viewing]\nuse = \"" + use + "\"\n");
        REQUIRE(scene);
        return scene->viewing;
    };
    CHECK(std::get<optics::PrintViewing>(viewing("phone")).long_side_cm == 14);
    CHECK(std::get<optics::PrintViewing>(viewing("album")).long_side_cm == 30);
    CHECK(std::get<optics::PrintViewing>(viewing("wall")).distance_cm == 100);
    CHECK(std::holds_alternative<PixelViewing>(viewing("pixels")));
}

TEST_CASE("what is judged may be said without saying how the picture is looked at",
          "[scene_file][property]") {
    const SceneFolder folder;
    const auto scene = folder.read("[[row]]\npeople = [\"Odile\"]\n[viewing]\njudge = \"blur\"\n");
    REQUIRE(scene);
    CHECK(scene->judge == Judge::blur);
    CHECK(std::get<optics::PrintViewing>(scene->viewing).distance_cm ==
          optics::album_viewing.distance_cm);
}

TEST_CASE("two thousand people fit, one more does not", "[scene_file][property]") {
    const SceneFolder folder;
    const auto crowd = [](int people) {
        std::string text = "[[row]]\nspacing_m = 0.1\npeople = [\n";
        for (int i = 0; i < people; ++i)
            text += "\"p" + std::to_string(i) + "\",\n";
        return text + "]\n";
    };
    const auto full = folder.read(crowd(2000));
    REQUIRE(full);
    CHECK(full->people.size() == 2000);
    // The first name stands in line 4, so the 2001st in line 2004.
    CHECK(folder.messages(crowd(2001)) ==
          std::vector<std::string>{
              "x.toml:2004:1: more than 2000 people; this program goes up to 2000"});
}

// As --set lens.profile="" has it, for a lens of which nothing is known.
TEST_CASE("a lens whose profile is empty is a perfect one", "[scene_file][property]") {
    const SceneFolder folder;
    folder.write("soft.toml", "widest_f_number = 1.2\nspherical_dpt = 0.1\n");
    const std::string scene =
        folder.write("x.toml", "[lens]\nprofile = \"soft.toml\"\n[[row]]\npeople = [\"Odile\"]\n");
    const auto soft = read_scene(scene);
    REQUIRE(soft);
    CHECK(soft->lens.profile);
    const auto perfect = read_scene(scene, {"lens.profile=\"\""});
    REQUIRE(perfect);
    CHECK_FALSE(perfect->lens.profile);
    CHECK(perfect->lens.profile_file.empty());
}

}  // namespace backrow::scene_file
