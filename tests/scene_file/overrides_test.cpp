#include "scene_file/reading/read_scene.h"

#include "scene_folder.h"

#include <catch2/catch.hpp>

namespace backrow::scene_file {

using namespace backrow::scene;
namespace {

using Messages = std::vector<std::string>;

const std::string choir = R"([camera]
f_number = 1.2
[focus]
on = "Odile"
[[row]]
people = ["Odile", "Bram", "Anna Maria"]
[[row]]
back_m = 1
people = ["Sefu"]
[[person]]
name = "Odile"
stature_m = 1.6
[[setting.backdrop]]
kind = "hedge"
)";

Scene with(const std::vector<std::string>& overrides) {
    const SceneFolder folder;
    auto scene = folder.read(choir, overrides);
    if (!scene)
        throw std::runtime_error{folder.lines(scene.error()).front()};
    return *scene;
}

Messages wrong(const std::vector<std::string>& overrides) {
    return SceneFolder{}.messages(choir, overrides);
}

const Person& named(const Scene& scene, const std::string& name) {
    for (const Person& person : scene.people)
        if (person.name == name)
            return person;
    throw std::runtime_error{name + " is not in the picture"};
}

}  // namespace

TEST_CASE("an override replaces what the file says, or adds to it", "[scene_file][property]") {
    CHECK(with({"camera.f_number=2.8"}).camera.f_number == 2.8);
    CHECK(with({"camera.iso = 800"}).camera.iso == 800);
    CHECK(with({"title=Quay"}).title == "Quay");
    CHECK(with({"title=\"At the quay, noon\""}).title == "At the quay, noon");
    CHECK(with({"title=At the quay, noon"}).title == "At the quay, noon");
    CHECK(with({"title=a=b"}).title == "a=b");
    CHECK(with({"light.scene_ev100=9"}).light.scene_ev100 == 9);
    CHECK(with({"camera.sensor_mm=[23.6, 15.7]"}).camera.sensor_mm == std::array{23.6, 15.7});
    CHECK(with({"camera.sensor_mm=[1, 16]", "camera.sensor_mm.0=24"}).camera.sensor_mm ==
          std::array{24.0, 16.0});
    CHECK(with({"camera.f_number=2", "camera.f_number=4"}).camera.f_number == 4);
}

TEST_CASE("an override finds rows and backdrops by number", "[scene_file][property]") {
    CHECK(named(with({"row.1.back_m=2"}), "Sefu").place.back_m == 2);
    CHECK(with({"row.1.people.0=Ayo"}).people.back().name == "Ayo");
    CHECK(with({"setting.backdrop.0.kind=lights"}).setting.backdrops.at(0).kind ==
          setting::BackdropKind::lights);
    CHECK(wrong({"row.2.back_m=2"}) == Messages{"--set row.2.back_m=2: there is no `row` number 2; "
                                                "this scene has 2, counted from 0"});
    CHECK(
        wrong({"setting.backdrop.last.kind=wall"}) ==
        Messages{"--set setting.backdrop.last.kind=wall: there is no `backdrop` number last; this "
                 "scene has 1, counted from 0"});
}

TEST_CASE("an override finds people by name, described before or not", "[scene_file][property]") {
    const Scene scene = with({"person.Odile.lean_m=0.1", "person.Bram.posture=seated",
                              "person.Bram.lean_m=-0.1", "person.Anna Maria.stature_m=1.5",
                              "person.Bram.headwear=headscarf", "person.Bram.glasses=true"});
    CHECK(named(scene, "Bram").styling.headwear == figures::Headwear::headscarf);
    CHECK(named(scene, "Bram").styling.glasses);
    CHECK(scene.people.size() == 4);
    CHECK(named(scene, "Odile").pose.lean_m == 0.1);
    CHECK(named(scene, "Odile").measures.stature_m == 1.6);
    CHECK(named(scene, "Bram").pose.posture == figures::Posture::seated);
    CHECK(named(scene, "Bram").pose.lean_m == -0.1);
    CHECK(named(scene, "Bram").row == 0);
    CHECK(named(scene, "Anna Maria").measures.stature_m == 1.5);
    CHECK(named(with({"person.0.lean_m=0.2"}), "Odile").pose.lean_m == 0.2);
    CHECK(wrong({"person.Brma.lean_m=0.1"}) ==
          Messages{
              "--set person.Brma.lean_m=0.1: nobody in the picture is called `Brma`; did you mean "
              "`Bram`?"});
}

TEST_CASE("a name with dots stands in quotation marks", "[scene_file][property]") {
    const auto scene =
        SceneFolder{}.read("[[row]]\npeople = [\"J. R.\", \"a=b\"]\n",
                           {"person.\"J. R.\".lean_m=0.1", "person.\"a=b\".lean_m=0.2"});
    REQUIRE(scene);
    CHECK(scene->people[0].pose.lean_m == 0.1);
    CHECK(scene->people[1].pose.lean_m == 0.2);
}

TEST_CASE("an override decides between things of which only one may be given",
          "[scene_file][property]") {
    CHECK(std::holds_alternative<FocusBalanced>(with({"focus.balanced=true"}).focus));
    CHECK(std::get<FocusAtDistance>(with({"focus.distance_m=4"}).focus).axial_m == 4);
    CHECK(std::get<FocusOnPerson>(with({"focus.balanced=false"}).focus).name == "Odile");
    CHECK(named(with({"person.Odile.age_years=7"}), "Odile").measures.age_years == 7);
    // Two overrides that disagree are still a mistake.
    CHECK(wrong({"focus.balanced=true", "focus.distance_m=4"}) ==
          Messages{"--set focus.balanced=true: [focus] says where to focus more than once: "
                   "distance_m, balanced; keep one of them"});
}

TEST_CASE("an override is checked like the file, and named in the complaint",
          "[scene_file][property]") {
    CHECK(wrong({"camera.f_number=0"}) ==
          Messages{
              "--set camera.f_number=0: `f_number` cannot be 0; write a number from 0.5 to 128"});
    CHECK(wrong({"camera.f_numbr=2"}) ==
          Messages{"--set camera.f_numbr=2: unknown key `f_numbr`; did you mean `f_number`?"});
    CHECK(wrong({"camra.f_number=2"}) ==
          Messages{"--set camra.f_number=2: unknown key `camra`; did you mean `camera`?"});
    CHECK(wrong({"focus.on=Odil"}) ==
          Messages{"--set focus.on=Odil: nobody in the picture is called `Odil`; did you mean "
                   "`Odile`?"});
    CHECK(wrong({"person.Bram.posture=seatd"}) ==
          Messages{
              "--set person.Bram.posture=seatd: `seatd` is no posture this program knows; did you "
              "mean `seated`? posture is one of standing, seated, kneeling, crouching, "
              "kneeling_both, on_ground, on_step"});
    CHECK(wrong({"camera.f_number=2;8"}) ==
          Messages{"--set camera.f_number=2;8: `f_number` is text, not a number; write a number "
                   "from 0.5 to 128, without quotation marks"});
    CHECK(wrong({"camera.iso=1,600"}) ==
          Messages{"--set camera.iso=1,600: `1,600` may mean two things; write 1600 or 1.600, "
                   "without a comma"});
    CHECK(wrong({"row.1.people=[\"Bram\"]"}) ==
          Messages{"--set row.1.people=[\"Bram\"]: `Bram` stands in a row already (line 6); nobody "
                   "stands in two places; give namesakes different names"});
    CHECK(
        wrong({"focus.distance_m=0.04"}) ==
        Messages{"--set focus.distance_m=0.04: focus at 0.04 m lies inside the 85 mm focal length; "
                 "focus farther than 0.085 m from the lens"});
    CHECK(wrong({"person=7"}) ==
          Messages{
              "--set person=7: `person` is a number, not a list of tables; write [[person]] with "
              "double brackets, once for each"});
    CHECK(wrong({"camera.f_number.x=7"}) ==
          Messages{
              "--set camera.f_number.x=7: `f_number` is a number and holds no `x`; write the key "
              "without that part"});
}

TEST_CASE("an override is a key and a value on one line", "[scene_file][property]") {
    const std::string form =
        ": an override needs a key and a value; write key=value, as in camera.f_number=2.8";
    CHECK(wrong({"camera.f_number"}) == Messages{"--set camera.f_number" + form});
    CHECK(wrong({"camera.f_number="}) == Messages{"--set camera.f_number=" + form});
    CHECK(wrong({"=2.8"}) == Messages{"--set =2.8" + form});
    CHECK(wrong({""}) == Messages{"--set " + form});
    CHECK(wrong({"camera..f_number=2"}) ==
          Messages{
              "--set camera..f_number=2: `camera..f_number` is no key of a scene; write the table "
              "and the key, as in camera.f_number"});
    CHECK(wrong({"camera.iso=1\niso=2"}) ==
          Messages{
              "--set camera.iso=1 iso=2: an override is one line; give each value its own --set"});
}

TEST_CASE("mistakes in overrides come before those in the file", "[scene_file][property]") {
    CHECK(
        SceneFolder{}.messages("[[row]]\npeople = [\"Odile\"]\nspcing_m = 1\n", {"camera.iso=0"}) ==
        Messages{"--set camera.iso=0: `iso` cannot be 0; write a number from 1 to 10000000",
                 "x.toml:3:1: unknown key `spcing_m`; did you mean `spacing_m`?"});
}

TEST_CASE("somebody put down or picked up on the command line loses what went with it",
          "[scene_file][property]") {
    const SceneFolder folder;
    const std::string family = "[[row]]\npeople = [\"Odile\"]\n[[person]]\nname = \"Mia\"\n"
                               "age_years = 3\n";
    const auto with_mia = [&](const std::string& lines, const std::string& set) {
        const auto scene = folder.read(family + lines, {set});
        INFO((scene ? "" : folder.lines(scene.error()).front()));
        REQUIRE(scene);
        return named(*scene, "Mia");
    };
    const Person down =
        with_mia("carried_by = \"Odile\"\ncarried = \"shoulders\"\n", "person.Mia.across_m=0.5");
    CHECK(down.carrier == -1);
    CHECK(down.place.across_m == 0.5);
    CHECK(down.pose.posture == figures::Posture::standing);
    const Person up = with_mia("posture = \"seated\"\nback_m = 1\n", "person.Mia.carried_by=Odile");
    CHECK(up.carrier == 0);
    CHECK(up.place.back_m == 0);
    // Ages are no rivals of it.
    CHECK(up.measures.age_years == 3);
    CHECK(with_mia("carried_by = \"Odile\"\n", "person.Mia.stature_m=1.1").carrier == 0);
}

}  // namespace backrow::scene_file
