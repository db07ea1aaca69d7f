#include "running.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>

#include <sys/stat.h>

// Every way to go wrong, as the shell and the eye see it: the code, the words and their place on
// stderr, nothing on stdout, no file left behind and none touched.

namespace backrow::command {
namespace {

namespace fs = std::filesystem;
using Catch::Contains;
using Catch::StartsWith;

const std::string two_people = "[[row]]\npeople = [\"Odile\", \"Bram\"]\n";

struct Mistake {
    std::string text;  ///< Of x.toml.
    std::string told;  ///< What stderr must hold; a place is counted from the folder.
};

// Both verbs refuse the scene in the same words, and the folder stays as it was.
void check_refused(const Folder& folder, const Mistake& mistake) {
    CAPTURE(mistake.text.substr(0, 200));
    folder.write("x.toml", mistake.text);
    const auto before = folder.entries();
    const Circumstances here{.folder = folder / "."};
    for (const Words& verb : {Words{"faces", "x.toml", "--format", "json"},
                              Words{"preview", "x.toml", "-o", "x.png", "--width", "64"}}) {
        const Ran ran = run(verb, here);
        CHECK(ran.exit_code == 1);
        CHECK_THAT(ran.err, Contains(mistake.told));
        CHECK(ran.out.empty());
    }
    CHECK(folder.entries() == before);
}

struct WrongWords {
    Words arguments;
    int exit_code;
    std::string told;
};

// A folder with a good scene and outputs of an earlier day.
class Desk {
public:
    Desk() {
        folder_.write("x.toml", two_people);
        folder_.write("old.png", "precious");
        fs::create_directory(folder_ / "folder.png");
        before_ = folder_.entries();
    }
    void check_refused(const WrongWords& wrong, const Circumstances& circumstances = {}) const {
        CAPTURE(wrong.arguments);
        Circumstances here = circumstances;
        here.folder = folder_ / ".";
        const Ran ran = run(wrong.arguments, here);
        CHECK(ran.exit_code == wrong.exit_code);
        CHECK_THAT(ran.err, Contains(wrong.told));
        CHECK(ran.out.empty());
        CHECK(folder_.entries() == before_);
        CHECK(text_of(folder_ / "old.png") == "precious");
        CHECK(text_of(folder_ / "x.toml") == two_people);
    }
    [[nodiscard]] const Folder& folder() const { return folder_; }

private:
    Folder folder_;
    std::vector<std::string> before_;
};

const Words small{"--width", "32", "--samples", "1"};

Words preview(const Words& more, const std::string& scene = "x.toml") {
    Words all = words("preview", scene, small);
    all.insert(all.end(), more.begin(), more.end());
    return all;
}

std::string many_people(int count) {
    std::string text = "[camera]\ndistance_m = 90\n[[row]]\nspacing_m = 0.05\npeople = [";
    for (int i = 0; i < count; ++i)
        text += "\"P" + std::to_string(i) + "\",";
    return text + "]\n";
}

}  // namespace

TEST_CASE("a wrong scene is pointed at and leaves nothing", "[command][property]") {
    const Folder folder;
    const std::vector<Mistake> mistakes{
        {"[camera]\nf_numbr = 2\n" + two_people,
         "x.toml:2:1: unknown key `f_numbr`; did you mean `f_number`?"},
        {"[camera]\nf_number = \"2\"\n" + two_people, "x.toml:2:12: `f_number` is text"},
        {"[camera]\nf_number = 0.1\n" + two_people, "x.toml:2:12: `f_number` cannot be 0.1"},
        {"[camera]\nf_number = nan\n" + two_people, "x.toml:2:12: `f_number` cannot be nan"},
        {"[camera]\nheight_m = inf\n" + two_people, "x.toml:2:12: `height_m` cannot be inf"},
        {"[camera\n", "x.toml:1:8: cannot read this as TOML"},
        {"\xff\xfe", "x.toml:1:1: cannot read this as TOML"},
        {"", "x.toml:1:1: nobody is in the picture"},
        {"[[row]]\npeople = [\"Odile\", \"Odile\"]\n", "x.toml:2:20: `Odile` stands in a row"},
        {two_people + "[camera]\naim = [0, 1.5, 0]\n[[person]]\nname = \"Sefu\"\nback_m = -9\n",
         "x.toml:6:8: `Sefu` stands behind the lens"},
        {"[camera]\ndistance_m = 0.2\n" + two_people, "x.toml:4:11: `Odile` "},
        {"[focus]\ndistance_m = 0.04\n" + two_people,
         "x.toml:2:14: focus at 0.04 m lies inside the 85 mm focal length"},
        {"[focus]\non = \"Odil\"\n" + two_people,
         "x.toml:2:6: nobody in the picture is called `Odil`; did you mean `Odile`?"},
        {two_people + "[[model]]\nfile = \"bench.glb\"\n", "x.toml:4:8: model file bench.glb"},
        {"[lens]\nprofile = \"none.toml\"\n" + two_people, "x.toml:2:11: lens profile none.toml"},
        {"[camera]\npixels = [20000, 10001]\n" + two_people, "x.toml:2:10: 20000 × 10001 pixels"},
        {many_people(2001), ": more than 2000 people"},
        {"[camera]\nf_numbr = 2\n[light]\nsun = 3\n" + two_people, "x.toml:4:1: unknown key `sun`"},
    };
    for (const Mistake& mistake : mistakes)
        check_refused(folder, mistake);
}

TEST_CASE("a broken lens profile is pointed at in its own file", "[command][property]") {
    const Folder folder;
    folder.write("lens.toml", "widest_f_number = 1.4\nspherical = 3\n");
    check_refused(folder, {"[lens]\nprofile = \"lens.toml\"\n" + two_people,
                           "lens.toml:2:1: unknown key `spherical`"});
}

TEST_CASE("a broken model is told where the scene names it", "[command][property]") {
    const Desk desk;
    const Folder folder;
    folder.write("noise.glb", std::string(4096, '\x81'));
    folder.write("x.toml", two_people + "[[model]]\nfile = \"noise.glb\"\n");
    const auto before = folder.entries();
    const Ran ran = run(preview({"-o", "x.png"}), {.folder = folder / "."});
    CHECK(ran.exit_code == 1);
    CHECK_THAT(ran.err, StartsWith("x.toml:4:8: model file noise.glb: "));
    CHECK(ran.out.empty());
    CHECK(folder.entries() == before);
}

TEST_CASE("a scene that is no file is refused at once", "[command][property]") {
    const Desk desk;
    desk.check_refused({{"faces", "/dev/zero"}, 1, "/dev/zero: this is not an ordinary file"},
                       {.limit = std::chrono::seconds{5}});
    desk.check_refused({{"faces", "folder.png"}, 1, "folder.png: this is a folder"});
    desk.check_refused({{"faces", "nowhere.toml"}, 1, "nowhere.toml: there is no such scene file"});
    desk.check_refused({{"faces", "far/away.toml"}, 1, "far/away.toml: there is no folder far"});
    desk.check_refused(
        {preview({"-o", "x.png"}, "nowhere.toml"), 1, "nowhere.toml: there is no such scene"});

    const Folder folder;
    const std::string pipe = folder / "pipe.toml";
    REQUIRE(::mkfifo(pipe.c_str(), 0600) == 0);
    desk.check_refused({{"faces", pipe}, 1, "this is not an ordinary file"},
                       {.limit = std::chrono::seconds{5}});
}

TEST_CASE("a wrong --set is told by its own words", "[command][property]") {
    const Desk desk;
    for (const WrongWords& wrong : std::vector<WrongWords>{
             {{"faces", "x.toml", "--set", "camera.f_numbr=2"}, 1, "did you mean `f_number`?"},
             {{"faces", "x.toml", "--set", "person.Brm.turn_deg=9"}, 1, "did you mean `Bram`?"},
             {{"faces", "x.toml", "--set", "camera.f_number=wide"},
              1,
              "--set camera.f_number=wide: `f_number` is text, not a number"},
             {preview({"-o", "x.png", "--set", "row.7.back_m=1"}), 1, "--set row.7.back_m=1: "}})
        desk.check_refused(wrong);
}

TEST_CASE("the program by its name alone greets, and help of a verb is that verb's",
          "[command][property]") {
    const Ran alone = run({});
    CHECK(alone.exit_code == 0);
    CHECK(alone.err.empty());
    CHECK_THAT(alone.out, StartsWith("Backrow rehearses a group photograph before the shoot"));
    CHECK_THAT(alone.out, Contains("  faces     How blurred each face will be, predicted\n"));
    CHECK_THAT(alone.out, Contains("backrow arrange -o group.toml --people 5"));
    CHECK(run({"help"}).out == alone.out);
    const Ran faces = run({"help", "faces"});
    CHECK(faces.exit_code == 0);
    CHECK(faces.out == run({"faces", "--help"}).out);
    CHECK(run({"help", "fces"}).exit_code == 2);
}

TEST_CASE("numbers are taken as photographers write them", "[command][property]") {
    const Folder folder;
    const std::string scene = folder.write("x.toml", two_people);
    const auto faces = [&](const Words& set) { return run(words("faces", scene, set)).out; };
    const std::string plain =
        faces({"--set", "camera.f_number=2.8", "--set", "camera.shutter_s=0.005", "--set",
               "camera.distance_m=9.144", "--set", "person.Bram.stature_m=1.8796"});
    CHECK_THAT(plain, Contains("f/2.8"));
    CHECK(faces({"--set", "camera.f_number=f/2.8", "--set", "camera.shutter_s=1/200", "--set",
                 "camera.distance_m=30 ft", "--set", "person.Bram.stature_m=6'2\""}) == plain);
    CHECK(faces({"--set", "camera.f_number=2,8", "--set", "camera.shutter_s=0,005", "--set",
                 "camera.distance_m=30ft", "--set", "person.Bram.stature_m=6ft2"}) == plain);

    const auto advise = [&](const Words& more) { return run(words("advise", scene, more)); };
    const Ran lens = advise({"--lens", "85/1.8", "--distance-max", "9.144"});
    CHECK(lens.exit_code != 2);
    CHECK(advise({"--lens", "85mm f/1,8", "--distance-max", "30 ft"}).out == lens.out);
    CHECK(advise({"--lens", "85"}).exit_code == 2);
    const auto arrange = [&](const char* heights) {
        const Ran ran = run({"arrange", "-o", folder / "a.toml", "--replace", "--people", "2",
                             "--heights", heights});
        CHECK(ran.exit_code == 0);
        return text_of(folder / "a.toml");
    };
    CHECK(arrange("182,6ft2") == arrange("1.82,1.8796"));
}

TEST_CASE("a wrong command line is told, with code 2", "[command][property]") {
    const Desk desk;
    for (const WrongWords& wrong : std::vector<WrongWords>{
             {{"prview", "x.toml"}, 2, "there is no verb `prview`; did you mean `preview`?"},
             {{"faces"}, 2, "SCENE is required"},
             {{"faces", "x.toml", "x.toml"}, 2, "x.toml"},
             {{"faces", "x.toml", "--nope"}, 2, "--nope"},
             {{"faces", "x.toml", "-o", "x.png"}, 2, "-o"},
             {{"faces", "x.toml", "--format", "xml"}, 2, "xml not in {text,json,csv}"},
             {{"faces", "x.toml", "--format", "1"}, 2, "1 not in {text,json,csv}"},
             {{"faces", "x.toml", "--set"}, 2, "--set"},
             {{"faces", "x.toml", "--set", "camera.f_number"}, 2, "write key=value, as in"},
             {{"faces", "x.toml", "--set", "=2"}, 2, "write key=value, as in"},
             {{"faces", "x.toml", "--set", "camera.f_number="}, 2, "write key=value, as in"},
             {{"--format", "json"}, 2, "there is no verb `--format`; the verbs are preview"},
             {preview({}), 2, "--output is required"},
             {preview({"-o"}), 2, "--output"},
             {preview({"-o", ""}), 2, "needs the name of a file"},
             {preview({"-o", "x.png", "--export", ""}), 2, "needs the name of a file"},
             {preview({"-o", "x.gif"}), 2, "-o x.gif must end in .png or .jpg or .jpeg"},
             {preview({"-o", "x.jpg", "--jpeg-quality", "0"}), 2, "--jpeg-quality"},
             {preview({"-o", "x.jpg", "--jpeg-quality", "101"}), 2, "--jpeg-quality"},
             {preview({"-o", "x.png", "--linear", "x.exr"}), 2, ".pfm or .hdr"},
             {preview({"-o", "x.png", "--export", "x.gltf"}), 2, "x.gltf must end in .glb"},
             {preview({"-o", "x.png", "--faces-sheet", "y.pdf"}), 2, "y.pdf must end in .png"},
             {preview({"-o", "x.png", "--faces-sheet", "./x.png"}), 2, "--faces-sheet ./x.png"},
             {preview({"-o", "x.png", "--camera-json", "./x.toml"}), 2, "./x.toml is the scene"},
             {preview({"-o", "x.png", "--quality", "best"}), 2, "draft"},
             {preview({"-o", "x.png", "--quality", "2"}), 2, "draft"},
             {words("preview", "x.toml", {"-o", "x.png", "--width", "15"}), 2, "--width"},
             {words("preview", "x.toml", {"-o", "x.png", "--width", "1.5e3x"}), 2, "--width"},
             {words("preview", "x.toml", {"-o", "x.png", "--width", "65536"}), 2, "--width"},
             {words("preview", "x.toml", {"-o", "x.png", "--width", "20000"}), 2,
              "more than 200 megapixels"},
             {words("preview", "x.toml", {"-o", "x.png", "--samples", "0"}), 2, "--samples"}})
        desk.check_refused(wrong);
}

TEST_CASE("the table's own stream is no place for a file", "[command][property]") {
    const Desk desk;
    desk.check_refused({preview({"-o", "old.png", "--camera-json", "/dev/stdout"}), 2,
                        "--camera-json /dev/stdout is where the table goes"});
}

TEST_CASE("a place that cannot be written to is told before any work", "[command][property]") {
    const Desk desk;
    for (const WrongWords& wrong : std::vector<WrongWords>{
             {preview({"-o", "nowhere/x.png"}), 3, "nowhere/x.png: there is no folder nowhere"},
             {preview({"-o", "folder.png"}), 3, "folder.png: Is a directory"},
             {preview({"-o", "old.png/x.png"}), 3, "old.png/x.png: Not a directory"},
             {preview({"-o", "/proc/x.png"}), 3, "cannot write /proc/x.png"},
             {preview({"-o", "old.png", "--camera-json", "nowhere/x.json"}), 3, "nowhere/x.json"}})
        desk.check_refused(wrong);
}

TEST_CASE("a model that the scene shows is no place for an export", "[command][property]") {
    const Folder folder;
    folder.write("x.toml", two_people);
    const Circumstances here{.folder = folder / "."};
    REQUIRE(run(preview({"-o", "x.png", "--export", "bench.glb"}), here).exit_code == 0);
    const std::string bench = text_of(folder / "bench.glb");
    folder.write("x.toml", two_people + "[[model]]\nfile = \"bench.glb\"\n");
    const Ran ran = run(preview({"-o", "x.png", "--export", "bench.glb"}), here);
    CHECK(ran.exit_code == 2);
    CHECK_THAT(ran.err, Contains("--export bench.glb"));
    CHECK(text_of(folder / "bench.glb") == bench);
}

// The picture comes out well; the disk is full when it is to be written. A limit on the size of
// files makes writes fail likewise.
TEST_CASE("a full disk leaves the files of before and none half written", "[command][property]") {
    const Desk desk;
    // Shader caches of the driver would be cut as well; their loss is none of ours.
    desk.check_refused(
        {preview({"-o", "old.png", "--linear", "x.pfm"}), 3, "cannot write x.pfm: File too large"},
        {.largest_file_bytes = 4096});
}

TEST_CASE("a table that cannot be printed leaves no files", "[command][property]") {
    const Desk desk;
    const WrongWords full{preview({"-o", "old.png"}), 3,
                          "cannot write to standard output: No space left"};
    desk.check_refused(full, {.stdout_to = "/dev/full"});
    const WrongWords closed{preview({"-o", "old.png"}), 3,
                            "cannot write to standard output: Bad file descriptor"};
    desk.check_refused(closed, {.stdout_closed = true});
    for (const Words& asked : std::vector<Words>{{"faces", "x.toml"}, {"--help"}, {"--version"}}) {
        desk.check_refused({asked, 3, "No space left"}, {.stdout_to = "/dev/full"});
        desk.check_refused({asked, 3, "Bad file descriptor"}, {.stdout_closed = true});
    }
}

TEST_CASE("a machine without OpenGL is told how to get it", "[command][property]") {
    const Desk desk;
    const WrongWords no_opengl{
        preview({"-o", "old.png"}), 3,
        "install a graphics driver, or Mesa's software one: libegl1 and libgl1-mesa-dri"};
    desk.check_refused(no_opengl,
                       {.environment = {{"__EGL_VENDOR_LIBRARY_DIRS", "/nonexistent"},
                                        {"__EGL_VENDOR_LIBRARY_FILENAMES", "/nonexistent"}}});
}

}  // namespace backrow::command
