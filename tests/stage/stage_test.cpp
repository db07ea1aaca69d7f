#include "stage/stage.h"

#include "../scene/fifty.h"
#include "stage/stage_people.h"

#include "../scene/group.h"
#include "../scene_file/scene_folder.h"
#include "glb_reading.h"

#include "scene/reach.h"
#include "stage/export_gltf.h"

#include "base/image_files.h"

#include <catch2/catch.hpp>

#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <set>
#include <span>
#include <string>
#include <vector>

using Catch::Matchers::WithinAbs;
using Catch::Matchers::WithinRel;

namespace backrow::stage {

using namespace scene;
namespace {

Scene group_scene() {
    Scene scene;
    scene.camera = scene::fifty_wide_open();
    scene.people = rows_at({0, 0.2, 0.4});
    scene.focus = FocusOnPerson{"p1"};
    scene.setting.backdrops = {{setting::BackdropKind::hedge, 12},
                               {setting::BackdropKind::wall, 9}};
    return scene;
}

Stage built(const Scene& scene) {
    auto stage = build_stage(scene, camera_view(scene));
    REQUIRE(stage);
    return std::move(*stage);
}

/// The mean place of both pupils, the one black thing of a face, in the figure's own space.
glm::dvec3 pupils_m(const Stage& stage, int person) {
    glm::dvec3 sum{0};
    double count = 0;
    for (const Part& part : stage.parts)
        if (part.person == person && part.role == Role::face)
            for (const shapes::Vertex& v : part.mesh.vertices)
                if (v.colour.r < 0.0065f && v.colour.g < 0.0065f && v.colour.b < 0.0065f) {
                    sum += glm::dvec3{v.position_m};
                    ++count;
                }
    REQUIRE(count > 0);
    return sum / count;
}

bool same_part(const Part& a, const Part& b) {
    const auto same = [](const shapes::Vertex& v, const shapes::Vertex& w) {
        return v.position_m == w.position_m && v.normal == w.normal && v.colour == w.colour &&
               v.ambient_visibility == w.ambient_visibility && v.uv == w.uv;
    };
    return a.name == b.name && a.person == b.person && a.role == b.role &&
           a.world_from_part == b.world_from_part && a.mesh.indices == b.mesh.indices &&
           std::ranges::equal(a.mesh.vertices, b.mesh.vertices, same);
}

}  // namespace

TEST_CASE("people seen large wear skin detail, those of one kind the same, and small ones none",
          "[stage][property]") {
    Scene scene;
    scene.camera = scene::fifty_wide_open();
    scene.people = rows_at({0});
    scene.focus = FocusOnPerson{scene.people.front().name};
    for (Person& person : scene.people)
        person.measures = figures::body_measures(1.7, 25.0);
    const auto faces_of = [](const Stage& stage) {
        std::set<int> textures;
        for (const Part& part : stage.parts)
            if (part.person >= 0)
                textures.insert(part.material.texture);
        return textures;
    };
    scene.camera.lens_to_mark_m = 3;
    const Stage near_stage = built(scene);
    const std::set<int> worn = faces_of(near_stage);
    CHECK(worn.count(-1) == 0);
    CHECK(worn.size() == near_stage.textures.size());
    // Of one age: freckles, shaving and curls make eight kinds at most.
    CHECK(worn.size() <= 8);
    scene.camera.lens_to_mark_m = 40;
    const Stage far_stage = built(scene);
    CHECK(faces_of(far_stage) == std::set<int>{-1});
    CHECK(far_stage.textures.empty());
}

// Azimuth 165° is behind the group to picture right, 195° as far to the left of it.
TEST_CASE("water glitters on the side where the sun stands", "[stage][property]") {
    const auto middle_of_glitter_m = [](double sun_azimuth_deg) {
        Scene scene = group_scene();
        scene.setting.backdrops = {{setting::BackdropKind::water, 9}};
        scene.light.sun_azimuth_deg = sun_azimuth_deg;
        double sum_m = 0;
        int count = 0;
        for (const Part& part : built(scene).parts)
            if (part.role == Role::highlight)
                for (const shapes::Vertex& vertex : part.mesh.vertices) {
                    sum_m += static_cast<double>(vertex.position_m.x);
                    ++count;
                }
        REQUIRE(count > 0);
        return sum_m / count;
    };
    CHECK(middle_of_glitter_m(165) > 0.5);
    CHECK(middle_of_glitter_m(195) < -0.5);
}

TEST_CASE("everybody is on the stage once, with a face and a body of their own",
          "[stage][property]") {
    const Scene scene = group_scene();
    const Stage stage = built(scene);
    for (const Role role : {Role::face, Role::body}) {
        std::multiset<int> found;
        for (const Part& part : stage.parts)
            if (part.role == role)
                found.insert(part.person);
        std::multiset<int> expected;
        for (std::size_t i = 0; i < scene.people.size(); ++i)
            expected.insert(static_cast<int>(i));
        CHECK(found == expected);
    }
    for (const Part& part : stage.parts) {
        const bool of_person = part.role == Role::face || part.role == Role::body;
        CHECK((part.person >= 0) == of_person);
        if (of_person) {
            const Person& person = scene.people[static_cast<std::size_t>(part.person)];
            CHECK(part.name.starts_with(person.name + " "));
            CHECK(glm::dvec3{part.world_from_part[3]} == engine_from_mark(person.place));
            CHECK_FALSE(part.mesh.indices.empty());
        }
    }
}

TEST_CASE("the stage is ordered from what hides to what is hidden", "[stage][property]") {
    const Scene scene = group_scene();
    const CameraView view = camera_view(scene);
    const Stage stage = built(scene);
    const auto place_of = [&](const std::string& word) {
        const auto found = std::ranges::find_if(
            stage.parts, [&](const Part& part) { return part.name.find(word) != part.name.npos; });
        REQUIRE(found != stage.parts.end());
        return found - stage.parts.begin();
    };
    const auto people = static_cast<std::ptrdiff_t>(2 * scene.people.size());
    CHECK(std::all_of(stage.parts.begin(), stage.parts.begin() + people,
                      [](const Part& part) { return part.person >= 0; }));
    CHECK(place_of("risers") == people);
    CHECK(place_of("backdrop at 9 m") < place_of("backdrop at 12 m"));
    CHECK(place_of("backdrop at 12 m") < place_of("ground"));
    CHECK(place_of("ground") < place_of("sky"));
    CHECK(stage.parts.back().name == "sky");
    for (std::ptrdiff_t i = 1; i < people; ++i) {
        const auto axial = [&](std::ptrdiff_t part) {
            const int person = stage.parts[static_cast<std::size_t>(part)].person;
            return axial_m(view,
                           engine_from_mark(scene.people[static_cast<std::size_t>(person)].place));
        };
        CHECK(axial(i - 1) <= axial(i));
    }
}

TEST_CASE("the same scene gives the same stage", "[stage][property]") {
    const Scene scene = group_scene();
    const Stage once = built(scene);
    const Stage again = built(scene);
    REQUIRE(once.parts.size() == again.parts.size());
    for (std::size_t i = 0; i < once.parts.size(); ++i) {
        CAPTURE(once.parts[i].name);
        CHECK(same_part(once.parts[i], again.parts[i]));
    }
}

TEST_CASE("after a change a stage takes over what did not change, and is as if built alone",
          "[stage][property]") {
    Scene scene = group_scene();
    scene.people[1].place.up_m = 0.3;
    scene.camera.aim = FromMark{0, 1, 0};  // Not at the group, whoever moves.
    const Stage before = built(scene);
    const auto taken_over = [&](const auto& change) {
        Scene other = scene;
        change(other);
        const Stage alone = built(other);
        const CameraView view = camera_view(other);
        const auto after =
            build_stage(other, std::span{&view, 1}, figures::HasSkinDetail::yes, before);
        REQUIRE(after);
        REQUIRE(after->parts.size() == alone.parts.size());
        CHECK(after->textures.size() == alone.textures.size());
        std::set<std::string> names;
        for (std::size_t i = 0; i < alone.parts.size(); ++i) {
            const Part& part = after->parts[i];
            CHECK(same_part(part, alone.parts[i]));
            CHECK(part.material.texture == alone.parts[i].material.texture);
            for (const Part& old : before.parts)
                if (part.made_from && part.made_from == old.made_from)
                    names.insert(part.name);
        }
        return names;
    };
    std::set<std::string> all;
    for (const Part& part : before.parts)
        all.insert(part.name);
    const auto all_but = [&](const std::set<std::string>& changed) {
        std::set<std::string> left;
        std::ranges::set_difference(all, changed, std::inserter(left, left.end()));
        return left;
    };
    CHECK(taken_over([](Scene&) {}) == all);
    CHECK(taken_over([](Scene& s) { s.people[2].pose.turn_deg = 20; }) ==
          all_but({"p2 face", "p2 body"}));
    CHECK(taken_over([](Scene& s) { s.people[1].place.up_m = 0.4; }).count("risers and seats") ==
          0);
    CHECK(taken_over([](Scene& s) { s.setting.backdrops[1].back_m = 10; }) ==
          all_but({"backdrop at 9 m"}));
    CHECK(taken_over([](Scene& s) { s.setting.ground = setting::Ground::sand; }) ==
          all_but({"ground"}));
    // Another row before and after it: whoever is there is taken by who they are.
    CHECK(taken_over([](Scene& s) { s.people.erase(s.people.begin()); }).count("p2 face") == 1);
    // The sun is in the sky, in the water and in the eyes.
    CHECK(taken_over([](Scene& s) { s.light.sun_elevation_deg += 5; }) ==
          std::set<std::string>{"ground", "risers and seats"});
}

TEST_CASE("the sun stands where the scene says", "[stage][property]") {
    // Behind the camera's back, from picture right, behind the group, from picture left, overhead.
    CHECK(glm::distance(towards_sun(0, 0), {0, 0, 1}) < 1e-15);
    CHECK(glm::distance(towards_sun(0, 90), {1, 0, 0}) < 1e-15);
    CHECK(glm::distance(towards_sun(0, 180), {0, 0, -1}) < 1e-15);
    CHECK(glm::distance(towards_sun(0, 270), {-1, 0, 0}) < 1e-15);
    CHECK(glm::distance(towards_sun(90, 33), {0, 1, 0}) < 1e-15);
    CHECK(towards_sun(-5, 0).y < 0);

    Scene scene = group_scene();
    scene.light.sun_elevation_deg = 30;
    scene.light.sun_azimuth_deg = 90;
    const Stage day = built(scene);
    CHECK(day.sun_is_up);
    CHECK_THAT(day.towards_sun.y, WithinAbs(0.5, 1e-15));
    CHECK(day.towards_sun.x > 0);
    scene.light.sun_elevation_deg = -2;
    CHECK_FALSE(built(scene).sun_is_up);
}

TEST_CASE("a head's height in the picture falls with its distance", "[stage][property]") {
    Scene scene = group_scene();
    const CameraView view = camera_view(scene);
    Person person = somebody("a", {});
    const double near_px = head_height_px(view, person);
    // By hand: chin to crown from 4.5 m through about 50 mm onto 6000 pixels in 36 mm.
    const double axial = axial_m(view, reference_points(person).chin_m);
    CHECK_THAT(near_px, WithinRel(person.measures.head_height_m / axial * view.image_distance_mm() *
                                      6000.0 / 36.0,
                                  1e-12));
    person.place.back_m = 20;
    CHECK(head_height_px(view, person) < near_px / 4);
    person.place.back_m = -10;
    CHECK(head_height_px(view, person) == 0);
}

TEST_CASE("figures are as fine as the camera can see", "[stage][property]") {
    CHECK(detail_for(420, 8) == figures::Detail::close);
    CHECK(detail_for(420, 9) == figures::Detail::near);
    CHECK(detail_for(419.9, 1) == figures::Detail::near);
    CHECK(detail_for(140, 1) == figures::Detail::near);
    CHECK(detail_for(139.9, 1) == figures::Detail::middle);
    CHECK(detail_for(40, 1) == figures::Detail::middle);
    CHECK(detail_for(39.9, 1) == figures::Detail::far);

    Scene scene = group_scene();
    scene.people = {somebody("near", {}), somebody("far", {0, 0, 200})};
    scene.focus = FocusOnPerson{"near"};
    const Stage stage = built(scene);
    for (const Part& part : stage.parts)
        if (part.role == Role::body) {
            const Person& person = scene.people[static_cast<std::size_t>(part.person)];
            const auto expected =
                figures::build_figure(figure_of(person), part.person == 0 ? figures::Detail::close
                                                                          : figures::Detail::far);
            CHECK(part.mesh.indices == expected.body.indices);
        }
}

TEST_CASE("a backdrop fills the frame, blur included", "[stage][property]") {
    Scene scene = group_scene();
    const bool upright = GENERATE(false, true);
    const double across_m = GENERATE(-3.0, 0.0, 2.0);
    const double height_m = GENERATE(0.5, 1.55, 4.0);
    CAPTURE(upright, across_m, height_m);
    scene.camera.orientation = upright ? Orientation::portrait : Orientation::landscape;
    scene.camera.across_m = across_m;
    scene.camera.height_m = height_m;
    const CameraView view = camera_view(scene);
    const double back_m = 9;
    const setting::Reach reach = reach_of(view, back_m);
    CHECK_THAT(reach.lens_to_backdrop_m, WithinAbs(13.5, 1e-12));
    // Nothing on the border of what is filled may be in the frame, from the foot to the top.
    const auto in_frame = [&](double x_m, double up_m) {
        const Seen seen = project(view, {x_m, up_m, -back_m});
        return seen.axial_m > 0 && seen.at_px.x >= 0 && seen.at_px.x <= view.width_px &&
               seen.at_px.y >= 0 && seen.at_px.y <= view.height_px;
    };
    for (double up_m = 0; up_m <= reach.top_m; up_m += 0.25)
        CHECK_FALSE((in_frame(reach.left_m, up_m) || in_frame(reach.right_m, up_m)));
    for (double x_m = reach.left_m; x_m <= reach.right_m; x_m += 0.25)
        CHECK_FALSE(in_frame(x_m, reach.top_m));
    const double axis_x_m = view.position_m.x + 13.5 * view.forward.x / -view.forward.z;
    CHECK((reach.left_m < axis_x_m && axis_x_m < reach.right_m));
}

// The disc of confusion in the backdrop's plane, from similar triangles: an opening of 50/1.2 mm
// focused at s spreads to (50/1.2)·|d − s|/s at d; a lens stopped down to a point spreads to none.
TEST_CASE("the margin of a backdrop is half the blur of the open lens", "[stage][property]") {
    const Scene scene = group_scene();
    CameraView view = camera_view(scene);
    view.position_m = {0, 1.5, 4.5};
    view.forward = {0, 0, -1};
    view.right = {1, 0, 0};
    view.up = {0, 1, 0};
    view.lens.focus_m = 4.5;
    view.lens.f_number = 1.2;
    const double open_m = reach_of(view, 9).right_m;
    view.lens.f_number = 1e12;
    const double closed_m = reach_of(view, 9).right_m;
    CHECK_THAT(open_m - closed_m, WithinAbs(0.5 * (0.050 / 1.2) * (13.5 - 4.5) / 4.5, 1e-9));
    CHECK_THAT(closed_m, WithinAbs(13.5 * 18 / view.image_distance_mm(), 1e-9));
}

TEST_CASE("a stage for several pictures reaches as far as each needs, as fine as the finest",
          "[stage][property]") {
    Scene scene = group_scene();
    scene.camera.pixels = {1200, 800};
    const CameraView here = camera_view(scene);
    scene.camera.lens_to_mark_m *= 3;
    const CameraView far = camera_view(scene);
    scene.camera.focal_length_mm *= 4;
    const CameraView close = camera_view(scene);
    const std::vector<CameraView> views{here, far, close};
    const setting::Reach reach = reach_of(views, 9);
    for (const CameraView& view : views) {
        const setting::Reach one = reach_of(view, 9);
        CHECK(reach.left_m <= one.left_m);
        CHECK(reach.right_m >= one.right_m);
        CHECK(reach.top_m >= one.top_m);
        CHECK(reach.lens_to_backdrop_m <= one.lens_to_backdrop_m);
    }
    const auto vertices = [&](std::span<const CameraView> seen_from) {
        const auto stage = build_stage(scene, seen_from);
        REQUIRE(stage);
        std::size_t count = 0;
        for (const Part& part : stage->parts)
            if (part.role == Role::face)
                count += part.mesh.vertices.size();
        return count;
    };
    const std::span all{views};
    CHECK(vertices(all.subspan(1, 1)) < vertices(all.subspan(0, 1)));
    CHECK(vertices(all.subspan(0, 2)) == vertices(all.subspan(0, 1)));
    CHECK(vertices(all) == vertices(all.subspan(2, 1)));
}

TEST_CASE("models stand on the stage with their own textures", "[stage][property]") {
    const scene_file::SceneFolder folder;
    const std::string square =
        "v 0 0 0\nv 1 0 0\nv 1 1 0\nv 0 1 0\nvt 0 0\nvt 1 0\nvt 1 1\nvt 0 1\n"
        "f 1/1 2/2 3/3 4/4\n";
    const auto model = [&](const std::string& name, Rgba8 colour) {
        const Bytes png = png_bytes(Image<Rgba8>{1, 1, colour});
        folder.write(name + ".png", {reinterpret_cast<const char*>(png.data()), png.size()});
        folder.write(name + ".mtl", "newmtl m\nmap_Kd " + name + ".png\n");
        return folder.write(name + ".obj", "mtllib " + name + ".mtl\nusemtl m\n" + square);
    };
    Scene scene = group_scene();
    const std::string red = model("red", {255, 0, 0, 255});
    const std::string blue = model("blue", {0, 0, 255, 255});
    scene.models = {{.file = red, .place = {1, 0.5, 2}},
                    {.file = blue, .place = {}},
                    {.file = red, .place = {-1, 0, 3}}};
    // People too small for skin detail, which is a texture as well.
    scene.camera.lens_to_mark_m = 40;
    const Stage stage = built(scene);
    CHECK(stage.textures.size() == 2);
    std::vector<const Part*> parts;
    for (const Part& part : stage.parts)
        if (part.name.find(".obj") != part.name.npos)
            parts.push_back(&part);
    REQUIRE(parts.size() == 3);
    for (const std::size_t i : {0U, 1U, 2U}) {
        const auto texture = static_cast<std::size_t>(parts[i]->material.texture);
        CHECK(stage.textures.at(texture).at(0, 0).r == (i == 1 ? 0 : 255));
        CHECK(glm::dvec3{parts[i]->world_from_part[3]} == engine_from_mark(scene.models[i].place));
    }

    // What is wrong with a model is told where the scene names it, once a file.
    const auto named = [&](const std::string& file, int line) {
        return Model{.file = file, .place = {}, .named_at = {"group.toml", line, 8}};
    };
    const std::string broken = folder.write("a.obj", "nothing");
    const std::string missing = folder.path("b.obj");
    scene.models.push_back(named(broken, 20));
    scene.models.push_back(named(missing, 30));
    scene.models.push_back(named(missing, 40));
    const auto refused = build_stage(scene, camera_view(scene));
    REQUIRE_FALSE(refused);
    REQUIRE(refused.error().size() == 2);
    CHECK(to_line(refused.error()[0]).rfind("group.toml:20:8: model file " + broken, 0) == 0);
    CHECK(to_line(refused.error()[1]).rfind("group.toml:30:8: model file " + missing, 0) == 0);
}

TEST_CASE("pictures of the place go to the stage and by the rules of glTF to the export",
          "[stage][property]") {
    const scene_file::SceneFolder folder;
    Image<Rgba8> evening{64, 32, {40, 50, 80}};
    evening.at(20, 10) = {255, 240, 200};
    const Bytes png = png_bytes(evening);
    const std::string file =
        folder.write("evening.png", {reinterpret_cast<const char*>(png.data()), png.size()});
    Scene scene = group_scene();
    scene.setting.backdrops = {
        {setting::BackdropKind::photo, 9, {.file = file, .width_m = 6, .named_at = {}}}};
    scene.setting.panorama = file;
    // People too small for skin detail, which is a texture as well.
    scene.camera.lens_to_mark_m = 40;
    const Stage stage = built(scene);
    REQUIRE(stage.textures.size() == 2);
    int lights = 0;
    int pictures = 0;
    for (const Part& part : stage.parts) {
        pictures += part.material.texture >= 0 ? 1 : 0;
        lights += part.role == Role::highlight ? 1 : 0;
        CHECK(part.name.rfind("sky", 0) != 0);
    }
    CHECK(pictures == 2);
    CHECK(lights == 2);
    const auto bytes = glb_from_stage(stage, camera_view(scene));
    REQUIRE(bytes);
    CHECK(broken_rules(glb_from(*bytes)) == std::vector<std::string>{});
}

TEST_CASE("a panorama of another shape is refused where the scene names it", "[stage][property]") {
    const scene_file::SceneFolder folder;
    const Bytes png = png_bytes(Image<Rgba8>{30, 20});
    Scene scene = group_scene();
    scene.setting.panorama =
        folder.write("square.png", {reinterpret_cast<const char*>(png.data()), png.size()});
    scene.setting.panorama_at = {"group.toml", 7, 12};
    const auto refused = build_stage(scene, camera_view(scene));
    REQUIRE_FALSE(refused);
    REQUIRE(refused.error().size() == 1);
    CHECK(to_line(refused.error()[0]) ==
          "group.toml:7:12: picture file " + scene.setting.panorama +
              " has 30 × 20 pixels; a panorama all round (equirectangular) is twice as wide as "
              "high");
}

// At picture left a window 3 m away stands at x = −3 and faces +x; from 0.8 to 2.6 m up.
TEST_CASE("a window stands where the scene says and faces the mark", "[stage][property]") {
    Scene scene = group_scene();
    CHECK_FALSE(built(scene).window);
    scene.light.kind = LightKind::window;
    scene.light.window.azimuth_deg = 270;
    const auto window = built(scene).window;
    REQUIRE(window);
    CHECK(glm::distance(window->middle_m, {-3, 1.7, 0}) < 1e-14);
    CHECK(glm::distance(window->facing, {1, 0, 0}) < 1e-14);
    CHECK(glm::length(window->half_across_m) == Approx(1));
    CHECK(std::abs(glm::dot(window->half_across_m, window->facing)) < 1e-14);
    CHECK(glm::distance(window->half_up_m, {0, 0.9, 0}) < 1e-14);
}

TEST_CASE("eyes turn to the lens, or to whom they are told to look at", "[stage][property]") {
    Scene scene = group_scene();
    Person& person = scene.people[1];
    const Person& left = scene.people[0];
    REQUIRE(left.place.across_m < person.place.across_m);
    person.pose.turn_deg = 25;
    const auto looking = [&](const Gaze& gaze) {
        person.gaze = gaze;
        return pupils_m(built(scene), 1);
    };
    const glm::dvec3 ahead = looking(GazeAhead{});
    // Turned to picture right, the eyes come back to the lens, and further to a neighbour at left.
    const double to_lens_m = ahead.x - looking(GazeAtCamera{}).x;
    const double to_left_m = ahead.x - looking(GazeAtPerson{left.name}).x;
    CHECK(to_lens_m > 0.002);
    CHECK(to_left_m > to_lens_m);
    const glm::dvec3 down = looking(FromMark{person.place.across_m + 1, 0, -0.5});
    CHECK(down.y < ahead.y - 0.002);
}

TEST_CASE("a whole stage exports by the rules of glTF 2.0", "[stage][property]") {
    Scene scene = group_scene();
    scene.people[2].pose.posture = figures::Posture::seated;
    scene.setting.backdrops.push_back({setting::BackdropKind::lights, 14});
    scene.setting.backdrops.push_back({setting::BackdropKind::trees, 16});
    scene.setting.backdrops.push_back({setting::BackdropKind::water, 18});
    for (const auto kind : {setting::BackdropKind::bookshelf, setting::BackdropKind::hall,
                            setting::BackdropKind::beach, setting::BackdropKind::street})
        scene.setting.backdrops.push_back({kind, 20});
    const CameraView view = camera_view(scene);
    const Stage stage = built(scene);
    const auto bytes = glb_from_stage(stage, view);
    REQUIRE(bytes);
    const Glb glb = glb_from(*bytes);
    CHECK(broken_rules(glb) == std::vector<std::string>{});
    std::size_t ours = 0;
    for (const Part& part : stage.parts)
        ours += part.mesh.indices.size();
    std::size_t theirs = 0;
    for (const auto& node : glb.json["nodes"])
        if (node.contains("mesh")) {
            const auto mesh = node["mesh"].get<std::size_t>();
            const auto indices =
                glb.json["meshes"][mesh]["primitives"][0]["indices"].get<std::size_t>();
            theirs += glb.json["accessors"][indices]["count"].get<std::size_t>();
        }
    CHECK(theirs == ours);
}

}  // namespace backrow::stage
