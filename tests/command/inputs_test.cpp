#include "running.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <string>
#include <vector>

// Whatever a run has read is an input, and no output of it takes its place.

namespace backrow::command {
namespace {

namespace fs = std::filesystem;
using Catch::Contains;

const std::string scene = R"([camera]
focal_length_mm = 50
[setting]
panorama = "sky.png"
[[setting.backdrop]]
kind = "photo"
file = "place.png"
back_m = 4
width_m = 5
[lens]
profile = "lens.toml"
[[model]]
file = "box.obj"
[[row]]
people = ["Odile"]
)";

const std::string profile = "widest_f_number = 1.2\nspherical_dpt = 0.1\n";

const std::string box = "mtllib box.mtl\nv 0 0 0\nv 1 0 0\nv 0 1 0\nvt 0 0\nvt 1 0\nvt 0 1\n"
                        "usemtl paint\nf 1/1 2/2 3/3\n";

/// A folder in which a scene and everything that it names lie.
class Desk {
public:
    Desk() {
        folder_.write("plain.toml", "[[row]]\npeople = [\"Odile\"]\n");
        make_picture("place.png", {});
        make_picture("paint.png", {});
        // Twice as wide as high.
        make_picture("sky.png",
                     {"--set", "camera.sensor_mm=[36,18]", "--set", "camera.pixels=[6000,3000]"});
        folder_.write("lens.toml", profile);
        folder_.write("box.obj", box);
        folder_.write("box.mtl", "newmtl paint\nKd 1 1 1\nmap_Kd paint.png\n");
        folder_.write("x.toml", scene);
        fs::create_symlink("place.png", folder_ / "link.png");
        fs::create_hard_link(folder_ / "place.png", folder_ / "second.png");
        before_ = folder_.entries();
    }

    void check_refused(const Words& arguments) const {
        CAPTURE(arguments);
        std::vector<std::string> texts;
        for (const std::string& name : before_)
            texts.push_back(text_of(folder_ / name));
        const Ran ran = run(arguments, here());
        CHECK(ran.exit_code == 2);
        CHECK_THAT(ran.err, Contains("is the scene or something in it; choose another name"));
        CHECK(ran.out.empty());
        CHECK(folder_.entries() == before_);
        for (std::size_t i = 0; i < before_.size(); ++i)
            CHECK(text_of(folder_ / before_[i]) == texts[i]);
    }

    [[nodiscard]] Circumstances here() const { return {.folder = folder_ / "."}; }

private:
    void make_picture(const std::string& name, const Words& more) const {
        Words all{"preview", "plain.toml", "-o", name, "--width", "32", "--samples", "1"};
        all.insert(all.end(), more.begin(), more.end());
        REQUIRE(run(all, here()).exit_code == 0);
    }

    Folder folder_;
    std::vector<std::string> before_;
};

const Words small{"--width", "32", "--samples", "1"};

Words preview(const Words& outputs) {
    Words all = words("preview", "x.toml", small);
    all.insert(all.end(), outputs.begin(), outputs.end());
    return all;
}

}  // namespace

TEST_CASE("a preview writes over nothing that it was made of", "[command][regression]") {
    const Desk desk;
    REQUIRE(run(preview({"-o", "/dev/null"}), desk.here()).exit_code == 0);
    for (const char* picture :
         {"place.png", "sky.png", "paint.png", "link.png", "second.png", "./place.png"})
        desk.check_refused(preview({"-o", picture}));
    for (const char* file : {"x.toml", "lens.toml", "box.obj", "box.mtl"})
        desk.check_refused(preview({"-o", "x.png", "--camera-json", file}));
}

TEST_CASE("nor does a window's list of places", "[command][regression]") {
    const Desk desk;
    for (const char* file : {"x.toml", "link.png", "box.obj"})
        desk.check_refused({"rehearse", "x.toml", "--places", file});
}

TEST_CASE("nor do a chart and a strip", "[command][regression]") {
    const Desk desk;
    for (const char* picture : {"place.png", "link.png", "second.png"}) {
        desk.check_refused({"tradeoff", "x.toml", "-o", picture});
        desk.check_refused({"strip", "x.toml", "-o", picture, "--width", "900", "--samples", "1"});
    }
    desk.check_refused({"strip", "x.toml", "-o", "paint.png", "--width", "900", "--samples", "1"});
}

}  // namespace backrow::command
