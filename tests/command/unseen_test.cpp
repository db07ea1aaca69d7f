#include "running.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

// What a photographer would see on the frame at once, and must therefore be told before it is
// taken: who is hidden or cut off, what the light does, what the lens does, and what mends it. One
// small scene for each.

namespace backrow::command {
namespace {

using Catch::Contains;
using nlohmann::json;

json answer_of(Words all, int exit_code = 0) {
    all.insert(all.end(), {"--format", "json"});
    const Ran ran = run(all);
    CAPTURE(all, ran.err);
    REQUIRE(ran.exit_code == exit_code);
    return json::parse(ran.out);
}

/// The people of `faces` with these words.
json people_of(const std::string& scene, const Words& more = {}) {
    return answer_of(words("faces", scene, more)).at("faces");
}

/// What `faces` says of the scene with an answer's own overrides.
json faces_with(const std::string& scene, const json& answer) {
    Words all{"faces", scene};
    for (const json& set : answer.at("set"))
        all.insert(all.end(), {"--set", set.get<std::string>()});
    return answer_of(all);
}

std::string text_with(const std::string& verb, const std::string& scene, const Words& more = {}) {
    const Ran ran = run(words(verb, scene, more));
    CAPTURE(verb, more, ran.err);
    REQUIRE(ran.exit_code == 0);
    return ran.out;
}

const std::string two_in_a_row = "[[row]]\npeople = [\"Odile\", \"Bram\"]\n";

// Children stand before the grown-ups, nearer to the lens and lower.
const std::string children_in_front = R"(
[camera]
distance_m = 3.0
focal_length_mm = 24.0
f_number = 8.0
[[row]]
spacing_m = 0.6
people = ["Odile", "Bram", "Sefu", "Yuki"]
[[row]]
back_m = -0.8
spacing_m = 0.6
people = ["Mia", "Ravi", "Enzo"]
[[person]]
name = "Mia"
age_years = 6
[[person]]
name = "Ravi"
age_years = 7
[[person]]
name = "Enzo"
age_years = 8
)";

// The middle of the opening and its edge focus apart, and so do the middle of the picture and its
// corners.
const std::string faulty_lens = R"(
widest_f_number = 1.4
spherical_dpt = 0.03
field_curvature_dpt = 0.04
)";

const std::string through_a_faulty_lens = R"(
[camera]
distance_m = 3.5
focal_length_mm = 50.0
f_number = 1.4
[lens]
profile = "lens.toml"
[focus]
on = "Bram"
[[row]]
spacing_m = 0.6
people = ["Odile", "Sefu", "Bram"]
[[person]]
name = "Odile"
back_m = 0.5
)";

// One of them wears a hat with a brim.
const std::string in_the_sun = R"(
[light]
scene_ev100 = 15.0
sun_elevation_deg = 25.0
sun_azimuth_deg = 0.0
[[person]]
name = "Odile"
headwear = "hat"
[[person]]
name = "Bram"
across_m = 1.0
headwear = "none"
)";

}  // namespace

TEST_CASE("a man behind another is hidden, by whom is told, and no advice proposes it",
          "[command][regression]") {
    const Folder folder;
    const std::string scene = folder.write("x.toml", R"(
[camera]
distance_m = 5.0
f_number = 8.0
height_m = 1.6
[[person]]
name = "Bram"
stature_m = 1.9
[[person]]
name = "Sefu"
stature_m = 1.6
back_m = 0.7
)");
    const json sefu = people_of(scene)[1];
    CHECK(sefu.at("verdict") == "hidden");
    CHECK(sefu.at("hidden_by") == json{"Bram"});
    CHECK_THAT(text_with("faces", scene), Contains("\nSefu is hidden by Bram: "));
    const Ran advice = run({"advise", scene});
    CHECK(advice.exit_code == 4);
    CHECK_THAT(advice.out, Contains("Sefu is hidden by Bram"));
}

TEST_CASE("whoever stands behind a thing is hidden by it", "[command][regression]") {
    const Folder folder;
    folder.write("board.obj", "v -1 0 0\nv 1 0 0\nv 1 2.2 0\nv -1 2.2 0\nf 1 2 3 4\n");
    const std::string scene = folder.write(
        "x.toml", "[[person]]\nname = \"Odile\"\n[[model]]\nfile = \"board.obj\"\nback_m = -1\n");
    const json odile = people_of(scene)[0];
    CHECK(odile.at("verdict") == "hidden");
    CHECK(odile.at("hidden_by") == json{"board"});
}

TEST_CASE("torsos without heads are cut off, not crisp, and how to get the heads is told",
          "[command][regression]") {
    const Folder folder;
    const std::string scene =
        folder.write("x.toml", "[camera]\ndistance_m = 1.5\nfocal_length_mm = 50\nf_number = 8\n"
                               "aim = [0.0, 0.9, 0.0]\n" +
                                   two_in_a_row);
    const json table = answer_of({"faces", scene});
    for (const json& face : table.at("faces")) {
        CHECK(face.at("verdict") == "cut off");
        CHECK(face.at("cut_at") == "crown");
    }
    CHECK_THAT(text_with("faces", scene),
               Contains("Head not whole in the picture: Odile and Bram.\nEverybody would be whole "
                        "in the picture from "));
    for (const char* key : {"distance_m", "focal_length_mm"})
        for (const json& face :
             people_of(scene, {"--set", fmt::format("camera.{}={}", key,
                                                    table.at("whole_group").at(key).dump())}))
            CHECK(face.at("cut_at").is_null());
}

TEST_CASE("aimed at the group the frame keeps heads rather than feet", "[command][regression]") {
    const Folder folder;
    const std::string scene =
        folder.write("x.toml", "[camera]\ndistance_m = 1.5\nfocal_length_mm = 50\n" + two_in_a_row);
    for (const json& face : people_of(scene))
        CHECK(face.at("in_frame") == true);
}

TEST_CASE("a strip says once for each lens whom its frame cuts, and what mends it",
          "[command][regression]") {
    const Folder folder;
    const std::string scene = folder.write("x.toml", children_in_front);
    const Words asked{"--focal-lengths", "24,35", "--f-numbers", "4,8",           "--samples", "1",
                      "--width",         "700",   "-o",          folder / "x.png"};
    const std::string text = text_with("strip", scene, asked);
    CHECK_THAT(text, Contains("3 bodies cut"));
    CHECK_THAT(text, Contains("\nFrom 3 m with 35 mm: The frame cuts 3 at the feet. Everybody "
                              "would be whole in the picture from "));
    CHECK(text.find("Everybody would be") == text.rfind("Everybody would be"));

    Words all = words("strip", scene, asked);
    const json told = answer_of(all);
    CHECK(told.at("places")[0].at("amiss").empty());
    CHECK(told.at("places")[0].at("whole_group").is_null());
    CHECK(told.at("frames")[2].at("bodies_cut") == json{"Mia", "Ravi", "Enzo"});
    const json whole = told.at("places")[1].at("whole_group");
    for (const Words& mend :
         {Words{"--set", "camera.focal_length_mm=35", "--set",
                "camera.distance_m=" + whole.at("distance_m").dump()},
          Words{"--set", "camera.focal_length_mm=" + whole.at("focal_length_mm").dump()}})
        for (const json& face : people_of(scene, mend))
            CHECK(face.at("cut_at").is_null());
}

TEST_CASE("a trade-off says from where on heads are whole, as the table of faces has it",
          "[command][regression]") {
    const Folder folder;
    const std::string scene = folder.write("x.toml", children_in_front);
    const Words asked{"-o", folder / "x.svg", "--set", "camera.focal_length_mm=50", "--lens", "35"};
    CHECK_THAT(text_with("tradeoff", scene, asked),
               Contains("\nWith 50 mm every head is whole in the picture from ") &&
                   Contains("heads cut"));
    const json told = answer_of(words("tradeoff", scene, asked));
    REQUIRE(told.at("heads_whole_from_distance_m").is_number());
    const auto heads_cut = [&](const json& row, const json& focal_length_mm) {
        std::vector<std::string> names;
        for (const json& face :
             people_of(scene, {"--set", "camera.distance_m=" + row.at("distance_m").dump(), "--set",
                               "camera.focal_length_mm=" + focal_length_mm.dump()}))
            if (face.at("in_frame") == false)
                names.push_back(face.at("name"));
        return names;
    };
    bool some = false;
    for (const json& row : told.at("distances")) {
        CAPTURE(row.at("distance_m"));
        CHECK(row.at("heads_cut") == heads_cut(row, 50));
        CHECK(row.at("heads_cut").empty() ==
              (row.at("distance_m") >= told.at("heads_whole_from_distance_m")));
        some = some || !row.at("heads_cut").empty();
    }
    CHECK(some);
    for (const json& lens : told.at("lenses"))
        CHECK(lens.at("heads_cut") == heads_cut(lens, lens.at("focal_length_mm")));
    CHECK(run(words("tradeoff", scene, {"-o", folder / "x.svg", "--format", "csv"}))
              .out.substr(0, 200)
              .find(",heads_cut,bodies_cut") != std::string::npos);
}

// f/2 at EV 12 wants 1/1024 s; 1/80 s is 3⅔ stops longer. Marks lie a third of a stop apart.
TEST_CASE("overexposed as it is set, every answer is right for the light",
          "[command][regression]") {
    const Folder folder;
    const std::string scene =
        folder.write("x.toml", "[camera]\nf_number = 2.0\nshutter_s = 0.0125\niso = 100\n[light]\n"
                               "scene_ev100 = 12.0\n" +
                                   two_in_a_row);
    const json advice = answer_of({"advise", scene});
    CHECK(advice.at("present").at("stops_over").get<double>() == Approx(11.0 / 3).margin(0.1));
    REQUIRE_FALSE(advice.at("answers").empty());
    for (const json& answer : advice.at("answers")) {
        const json exposure = faces_with(scene, answer).at("exposure");
        CHECK(std::abs(exposure.at("stops_over").get<double>()) < 1.0 / 3);
        CHECK(exposure.at("shutter_s") <= exposure.at("handheld_limit_s"));
    }
}

// Any other plane of focus would blur him more: a centimetre apart, half a metre to either side.
TEST_CASE("who is focused on through a faulty lens is as sharp as it can draw him",
          "[command][regression]") {
    const Folder folder;
    folder.write("lens.toml", faulty_lens);
    const std::string scene = folder.write("x.toml", through_a_faulty_lens);
    const json table = answer_of({"faces", scene});
    const double focus_m = table.at("focus").at("distance_m");
    const double blur_px = table.at("faces")[2].at("predicted_blur_px");
    for (int cm = -50; cm <= 50; ++cm) {
        const double other_m = focus_m + cm / 100.0;
        CAPTURE(other_m);
        const json bram =
            people_of(scene, {"--set", fmt::format("focus.distance_m={:.6f}", other_m)})[2];
        CHECK(bram.at("predicted_blur_px").get<double>() >= blur_px - 1e-3);
    }
}

// Tolerance: a hundredth of a pixel, of blurs of several.
TEST_CASE("balanced through a faulty lens, the nearest and the farthest are equally blurred",
          "[command][regression]") {
    const Folder folder;
    folder.write("lens.toml", faulty_lens);
    const std::string scene = folder.write("x.toml", through_a_faulty_lens);
    const json faces = people_of(scene, {"--set", "focus.balanced=true"});
    const auto blur_px = [&](std::size_t i) {
        return faces[i].at("predicted_blur_px").get<double>();
    };
    CHECK(blur_px(0) > 1);
    CHECK(std::max(blur_px(1), blur_px(2)) == Approx(blur_px(0)).margin(0.01));
}

// The promise: within 2 % or a quarter of a pixel.
TEST_CASE("blades in a faulty lens blur as foretold", "[command][measured]") {
    const Folder folder;
    folder.write("lens.toml", faulty_lens);
    const std::string scene = folder.write("x.toml", through_a_faulty_lens);
    for (const char* blades : {"5", "9"}) {
        const json made =
            answer_of({"preview", scene, "-o", folder / "x.png", "--width", "64", "--samples",
                       "512", "--set", std::string{"lens.blades="} + blades});
        for (const json& face : made.at("faces")) {
            const double foretold_px = face.at("predicted_blur_px");
            CAPTURE(blades, foretold_px);
            CHECK(std::abs(face.at("measured_blur_px").get<double>() - foretold_px) <=
                  std::max(0.25, 0.02 * foretold_px));
        }
    }
}

TEST_CASE("advice leaves everybody five centimetres to drift, either way",
          "[command][regression]") {
    const Folder folder;
    const std::string scene =
        folder.write("x.toml", two_in_a_row + "[[person]]\nname = \"Bram\"\nback_m = 0.4\n");
    const json advice = answer_of({"advise", scene});
    REQUIRE_FALSE(advice.at("answers").empty());
    for (const json& answer : advice.at("answers")) {
        CAPTURE(answer.at("set").dump());
        const json table = faces_with(scene, answer);
        for (const json& face : table.at("faces")) {
            CHECK(face.at("margin_front_m").get<double>() >= 0.05);
            CHECK(face.at("margin_back_m").get<double>() >= 0.05);
        }
    }
}

TEST_CASE("advice asks no more than a third of a group to move", "[command][regression]") {
    const Folder folder;
    const std::string scene = folder.write("x.toml", R"(
[camera]
focal_length_mm = 50.0
f_number = 2.8
[[row]]
people = ["A", "B", "C", "D", "E", "F", "G"]
[[row]]
back_m = 0.9
up_m = 0.4
people = ["H", "I", "J", "K", "L", "M"]
)");
    const json advice = answer_of({"advise", scene, "--grade", "crisp"});
    REQUIRE_FALSE(advice.at("answers").empty());
    for (const json& answer : advice.at("answers"))
        CHECK(answer.at("moves").size() <= 4);
}

TEST_CASE("whatever the picture is for, how many faces are crisp at 100 % is told",
          "[command][regression]") {
    const Folder folder;
    const std::string scene =
        folder.write("x.toml", "[focus]\non = \"Odile\"\n" + two_in_a_row +
                                   "[[person]]\nname = \"Bram\"\nback_m = 0.12\n");
    const json faces = people_of(scene);
    CHECK(faces[1].at("grade") == "crisp");
    CHECK(faces[1].at("predicted_blur_px") > 1.5);
    CHECK_THAT(text_with("faces", scene),
               Contains("At 100 %: 1 of 2 faces crisp pixel by pixel (blur to 1.5 px)."));
}

TEST_CASE("pixels that would not be square are refused, with what to write",
          "[command][regression]") {
    const Folder folder;
    const std::string scene =
        folder.write("x.toml", "[camera]\npixels = [6000, 3000]\n" + two_in_a_row);
    const Ran ran = run({"faces", scene});
    CHECK(ran.exit_code == 1);
    CHECK_THAT(ran.err, Contains("x.toml:2:10: ") && Contains("not be square") &&
                            Contains("sensor_mm = [36.0, 18.0]"));
}

TEST_CASE("who is in the picture is listed once each, and a group is nobody",
          "[command][regression]") {
    const Folder folder;
    const std::string scene =
        folder.write("x.toml", two_in_a_row + "[[person]]\nname = \"Bram\"\nstature_m = 1.8\n");
    const auto refused = [&](const char* set) {
        const Ran ran = run({"faces", scene, "--set", set});
        CHECK(ran.exit_code == 1);
        return ran.err;
    };
    const std::string person = refused("person.Nadia.turn_deg=3");
    CHECK_THAT(person, Contains("in the picture are "));
    for (const char* name : {"Odile", "Bram"})
        CHECK(person.find(name) == person.rfind(name));
    CHECK_THAT(refused("camera.aim=Nadia"),
               Contains("in the picture are Odile, Bram; or write \"group\"\n"));
}

TEST_CASE("a small grandmother and a tall boy are written with age and height",
          "[command][regression]") {
    const Folder folder;
    const std::string scene = folder.write(
        "x.toml", two_in_a_row + "[[person]]\nname = \"Odile\"\nage_years = 78\nstature_m = 1.48\n"
                                 "[[person]]\nname = \"Bram\"\nage_years = 16\nstature_m = 1.9\n");
    const json faces = people_of(scene);
    CHECK(faces[0].at("eye_m")[1] < 1.48);
    CHECK(faces[1].at("eye_m")[1] > 1.7);
    CHECK(faces[1].at("eye_m")[1] < 1.9);
}

// 85 mm, f/2 and 6 m are the contract's; the eyes are some centimetres before the mark.
TEST_CASE("a scene of people alone has the portrait lens six metres away",
          "[command][regression]") {
    const Folder folder;
    const json table = answer_of({"faces", folder.write("x.toml", two_in_a_row)});
    CHECK(table.at("camera").at("focal_length_mm") == 85);
    CHECK(table.at("camera").at("f_number") == 2);
    CHECK(table.at("focus").at("distance_m").get<double>() == Approx(5.9).margin(0.1));
}

// 1/cos of the angle off the axis: a head 1.8 m aside and 2 m away is drawn a third too long.
TEST_CASE("a wide lens stretches the head at its edge, and what mends it is told",
          "[command][regression]") {
    const Folder folder;
    const std::string scene =
        folder.write("x.toml", "[camera]\nfocal_length_mm = 16\ndistance_m = 2\nlevel = true\n"
                               "aim = [0.0, 1.5, 0.0]\n"
                               "[focus]\non = \"Odile\"\n[[person]]\nname = \"Odile\"\n[[person]]\n"
                               "name = \"Bram\"\nacross_m = 1.8\n");
    const json faces = people_of(scene);
    CHECK(faces[0].at("stretch") < 1.01);
    CHECK(faces[1].at("stretch").get<double>() == Approx(1.34).margin(0.05));
    CHECK_THAT(text_with("faces", scene),
               Contains("The wide angle stretches Bram by ") && Contains("heads as large"));
}

TEST_CASE("what the sun does to faces is told", "[command][regression]") {
    const Folder folder;
    const std::string scene = folder.write("x.toml", in_the_sun);
    const auto light = [&](const char* elevation, const char* azimuth) {
        return text_with("faces", scene,
                         {"--set", std::string{"light.sun_elevation_deg="} + elevation, "--set",
                          std::string{"light.sun_azimuth_deg="} + azimuth});
    };
    CHECK_THAT(light("25", "0"), Contains("\nSun in the eyes: everybody.\n"));
    CHECK_THAT(light("25", "180"), Contains("\nBacklit: everybody.\n"));
    CHECK_THAT(light("45", "0"), Contains("\nThe hat's shadow on the eyes: Odile.\n") &&
                                     Contains("\nSun in the eyes: Bram.\n"));
}

TEST_CASE("somebody's shadow across a face is told", "[command][regression]") {
    const Folder folder;
    // From picture right and low, the sun draws Bram's shadow towards Odile.
    const std::string scene = folder.write("x.toml", R"(
[light]
scene_ev100 = 15.0
sun_elevation_deg = 7.0
sun_azimuth_deg = 70.0
[[person]]
name = "Odile"
stature_m = 1.7
[[person]]
name = "Bram"
stature_m = 1.7
across_m = 0.7
back_m = -0.27
)");
    CHECK_THAT(text_with("faces", scene), Contains("A shadow across the face: Odile.\n"));
}

TEST_CASE("whoever is asked to step back is told to look behind", "[command][regression]") {
    const Folder folder;
    const std::string scene = folder.write("x.toml", two_in_a_row);
    const auto told = [&](const Words& all) {
        const json cautions = answer_of(all).at("cautions");
        return std::ranges::any_of(cautions, [](const json& sentence) {
            return sentence.get<std::string>().find("look behind") != std::string::npos;
        });
    };
    CHECK(told({"advise", scene, "--set", "person.Bram.back_m=0.6", "--grade", "crisp",
                "--narrowest", "2", "--move-max", "0", "--distance-max", "20"}));
    CHECK(told({"tradeoff", scene, "-o", folder / "x.svg", "--lens", "135"}));
    const Words strip{"strip", scene,     "-o",  folder / "x.png", "--samples",
                      "1",     "--width", "700", "--distances",    "6,9"};
    CHECK(told(strip));
    CHECK_THAT(run(strip).out, Contains("\nMind: The camera goes back"));
}

}  // namespace backrow::command
