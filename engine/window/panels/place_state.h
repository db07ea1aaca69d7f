#pragma once

// What the panel of the place shows, and a photo whose size is being told.

#include "window/pictures/screen_picture.h"

#include "rehearsal/hands/place_handling.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace backrow::window {

enum class PlacePage { light, backdrops, models };

/// A photo on the sheet on which two of its points are clicked.
struct PhotoOnSheet {
    std::size_t number;  ///< Of the backdrop.
    ScreenPicture picture;
    std::vector<rehearsal::PicturePoint> points{};  ///< Two at most.
    std::optional<rehearsal::PicturePoint> mark{};  ///< Led by arrows: where Enter sets a point.
    bool has_keys = false;                          ///< Arrows and Enter are for the photo.
    std::string typed_apart{};                      ///< How far apart they are.
};

struct PlaceState {
    PlacePage page = PlacePage::light;
    std::size_t backdrop = 0;  ///< Which of several is looked at …
    std::size_t model = 0;     ///< … and which model.
    std::optional<PhotoOnSheet> photo{};
};

}  // namespace backrow::window
