#include "delivery/choices.h"

#include "../base/folder.h"

#include "delivery/outputs.h"

#include <catch2/catch.hpp>

#include <cstdlib>
#include <set>
#include <string>

using namespace backrow;
using namespace backrow::delivery;

namespace {

Choices unusual() {
    Choices choices = usual_choices("/scenes/choir.toml");
    choices.folder = "/pictures/for the choir";
    choices.format = PictureFormat::png;
    choices.jpeg_quality = 71;
    choices.size = PictureSize::own;
    choices.own_width_px = 2500;
    choices.with_captions = true;
    choices.pieces[0].is_wanted = false;
    choices.pieces[3].is_wanted = true;
    choices.pieces[3].tail = " at four apertures";
    return choices;
}

}  // namespace

TEST_CASE("at first a picture is given away, beside the scene and by its name",
          "[delivery][property]") {
    const Choices choices = usual_choices("/scenes/choir.toml");
    CHECK(choices.folder == "/scenes");
    REQUIRE(choices.pieces.size() == outputs().size());
    CHECK(file_name(choices, 0) == "choir-picture.jpg");
    CHECK(is_wanted(choices, "picture"));
    CHECK_FALSE(is_wanted(choices, "strip"));
}

TEST_CASE("what was chosen last is chosen again, under the name of the scene that is open",
          "[delivery][property]") {
    const std::string kept = text_of(unusual());
    const Choices again = choices_from(kept, "/scenes/duo.toml");
    CHECK(text_of(again) == kept);
    CHECK(again.stem == "duo");
    CHECK(again.folder == "/pictures/for the choir");
    CHECK(again.format == PictureFormat::png);
    CHECK(again.size == PictureSize::own);
    CHECK(again.own_width_px == 2500);
    CHECK(again.with_captions);
    CHECK_FALSE(is_wanted(again, "picture"));
    CHECK(file_name(again, 3) == "duo at four apertures.png");
}

TEST_CASE("a damaged note of choices is as far as it goes, and the rest as usual",
          "[delivery][property]") {
    const std::string usual = text_of(usual_choices("/scenes/duo.toml"));
    for (const char* damaged :
         {"", "\n\n", "format", "format gif", "jpeg-quality 101", "jpeg-quality 9x", "width -5",
          "width 99999999999999999999", "captions perhaps", "nothing known", "\xff\xfe\n\x01"})
        CHECK(text_of(choices_from(damaged, "/scenes/duo.toml")) == usual);
    const std::string kept = text_of(unusual());
    for (std::size_t end = 0; end < kept.size(); ++end)
        CHECK(choices_from(kept.substr(0, end), "/scenes/duo.toml").pieces.size() ==
              outputs().size());
}

TEST_CASE("a name over two lines is not kept", "[delivery][property]") {
    Choices choices = unusual();
    choices.pieces[0].tail = "-a\nformat jpeg";
    const Choices again = choices_from(text_of(choices), "/scenes/duo.toml");
    CHECK(again.format == PictureFormat::png);
    CHECK(again.pieces[0].tail == "-picture");
}

TEST_CASE("choices are kept between runs, but for a folder that is gone", "[delivery][property]") {
    const Folder folder;
    ::setenv("XDG_STATE_HOME", (folder / "state").c_str(), 1);
    Choices choices = unusual();
    keep(choices);
    CHECK(kept_choices("/scenes/duo.toml").folder == "/scenes");
    CHECK(kept_choices("/scenes/duo.toml").jpeg_quality == 71);
    choices.folder = folder / "";
    keep(choices);
    CHECK(kept_choices("/scenes/duo.toml").folder == folder / "");
    ::unsetenv("XDG_STATE_HOME");
}

TEST_CASE("every output has a key and a name of its own", "[delivery][property]") {
    std::set<std::string> keys;
    std::set<std::string> names;
    const Choices choices = usual_choices("/scenes/choir.toml");
    for (std::size_t i = 0; i < outputs().size(); ++i) {
        CHECK(keys.insert(outputs()[i].key).second);
        CHECK(names.insert(file_name(choices, i)).second);
    }
}
