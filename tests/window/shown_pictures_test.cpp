#include "window/pictures/shown_pictures.h"

#include <catch2/catch.hpp>

using namespace backrow;
using namespace backrow::window;

namespace {

const render::CropRect crop{0, 0, 6000, 4000, 600, 400};

Print finished(int edition) {
    return {.pixels = {}, .edition = edition, .part = crop, .samples = 64, .samples_wanted = 64};
}

}  // namespace

TEST_CASE("a window is settled when nothing is made and all that hangs is finished and of now",
          "[window][property]") {
    ShownPictures pictures;
    CHECK_FALSE(pictures.is_settled(3, crop, true));
    pictures.picture.print = finished(3);
    pictures.faces[0].print = finished(3);
    CHECK(pictures.is_settled(3, crop, true));
    CHECK_FALSE(pictures.is_settled(4, crop, true));
    render::CropRect enlarged = crop;
    enlarged.width_px = 600;
    CHECK_FALSE(pictures.is_settled(3, enlarged, true));

    pictures.faces[1].print = finished(2);
    CHECK_FALSE(pictures.is_settled(3, crop, true));
    CHECK(pictures.is_settled(3, crop, false));  // none are shown, so none are made anew
    pictures.faces[1].print = finished(3);
    pictures.faces[1].print.samples = 4;
    CHECK_FALSE(pictures.is_settled(3, crop, true));
    pictures.faces[1].print = finished(3);
    pictures.work = Work::lighting;
    CHECK_FALSE(pictures.is_settled(3, crop, true));
}

TEST_CASE("what the darkroom tells is new once, and faces may wait where the picture may not",
          "[window][property]") {
    ShownPictures pictures;
    Prints prints;
    prints.work = Work::lighting;
    prints.share = 0.5;
    prints.complaint = "no more pictures: tired";
    CHECK(pictures.take(prints) == News::at_once);
    CHECK(pictures.share == 0.5);
    CHECK(pictures.complaint == "no more pictures: tired");
    CHECK(pictures.take(prints) == News::none);
    prints.measures[2] = {.edition = 7, .blur_px = 8.4, .visible_fraction = 0.5};
    CHECK(pictures.take(prints) == News::can_wait);
    CHECK(pictures.measures.at(2).blur_px == 8.4);
    prints.measures.clear();
    CHECK(pictures.take(prints) == News::none);
    CHECK(pictures.measures.contains(2));
    prints.share = 0.6;
    CHECK(pictures.take(prints) == News::can_wait);
    prints.work = Work::none;
    CHECK(pictures.take(prints) == News::at_once);
}
