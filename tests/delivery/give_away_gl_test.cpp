#include "group_of_two.h"

#include "delivery/picture_file.h"
#include "plan/faces/face_table.h"

#include "base/image_files.h"

using namespace backrow;
using namespace backrow::delivery;

namespace {

std::string as_text(const Bytes& bytes) {
    return {reinterpret_cast<const char*>(bytes.data()), bytes.size()};
}

}  // namespace

TEST_CASE("the picture given away is the one that the renderer makes, as PNG and as JPEG",
          "[delivery][property]") {
    GroupOfTwo group;
    group.tick({"picture"});
    group.choices.size = PictureSize::own;
    group.choices.own_width_px = 120;
    group.choices.format = PictureFormat::png;
    REQUIRE(group.give());
    const auto view = camera_view(group.scene);
    const auto picture = window::previewed(group.scene, render::whole_frame(view, 120));
    CHECK(group.text("duo-picture.png") == as_text(png_bytes(picture)));

    group.choices.format = PictureFormat::jpeg;
    group.choices.jpeg_quality = 80;
    REQUIRE(group.give());
    CHECK(group.text("duo-picture.jpg") == as_text(jpeg_bytes(picture, 80)));

    group.choices.with_captions = true;
    REQUIRE(group.give());
    const auto lettered =
        with_captions(picture, group.scene, view, plan::face_table(group.scene, view).faces);
    CHECK(lettered.height_px() > picture.height_px());
    CHECK(group.text("duo-picture.jpg") == as_text(jpeg_bytes(lettered, 80)));
}

TEST_CASE("picture, faces and strip, on screen and on paper, come from one order",
          "[delivery][property]") {
    GroupOfTwo group;
    group.scene.camera.pixels = {1200, 800};
    group.tick({"picture", "faces", "strip", "strip-page"});
    group.choices.size = PictureSize::own;
    group.choices.own_width_px = 120;
    double last = 0;
    const auto given = group.give([&](double share, const char*) {
        CHECK(share >= last - 1e-9);
        last = share;
        return true;
    });
    REQUIRE(given);
    CHECK(group.folder.entries() == 4);
    CHECK(last == Approx(1));
    CHECK(group.text("duo-strip-page.pdf").starts_with("%PDF"));
    for (const char* name : {"duo-faces.png", "duo-strip.png"})
        CHECK(group.text(name).starts_with("\x89PNG"));
}

TEST_CASE("a picture that is stopped while it is drawn leaves the file that was there",
          "[delivery][property]") {
    GroupOfTwo group;
    group.tick({"picture"});
    group.choices.size = PictureSize::camera;
    group.write("duo-picture.jpg", "what was there");
    const auto given = group.give([](double share, const char*) { return share < 0.2; });
    REQUIRE_FALSE(given);
    CHECK(group.folder.entries() == 1);
    CHECK(group.text("duo-picture.jpg") == "what was there");
}

TEST_CASE("a card and a lesson are given away with their pictures in them",
          "[delivery][property]") {
    GroupOfTwo group;
    group.tick({"card", "lesson"});
    const auto given = group.give();
    REQUIRE(given);
    for (const char* name : {"duo-card.pdf", "duo-lesson.pdf"}) {
        const std::string page = group.text(name);
        CHECK(page.starts_with("%PDF"));
        CHECK_THAT(page, Catch::Contains("/DCTDecode"));
    }
}

TEST_CASE("a page for the client is given away with its pictures in it", "[delivery][property]") {
    GroupOfTwo group;
    group.scene.camera.pixels = {300, 200};
    group.tick({"client"});
    REQUIRE(group.give());
    const std::string page = group.text("duo-client.html");
    CHECK(page.starts_with("<!doctype html>"));
    CHECK_THAT(page, Catch::Contains("data:image/webp;base64,") && Catch::Contains("Odile"));
}
