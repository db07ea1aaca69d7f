#pragma once

// What the darkroom has made so far, where the window can draw it.

#include "window/frames_due.h"
#include "window/pictures/prints.h"
#include "window/pictures/screen_picture.h"

#include "render/passes/crop_rect.h"

#include <cstddef>
#include <map>
#include <string>

namespace backrow::window {

/// A print and the texture that shows it.
struct Hung {
    ScreenPicture picture;
    Print print;
    /// Needs the window's context.
    void take(Print&& print_);
};

struct ShownPictures {
    Hung picture;
    std::map<std::size_t, Hung> faces;
    std::map<std::size_t, FaceMeasures> measures;
    Work work = Work::none;  ///< Of the darkroom at this moment …
    double share = 0;        ///< … and how much of it is done.
    int faces_from_edition = 0;
    std::string complaint;  ///< Why there is no picture; mostly empty.

    /// Takes what has been made since. Faces and how far the work has come can wait; the picture
    /// under the hand, and that all is done, cannot.
    News take(Prints prints);

    /// Whether nothing is being made, and all that hangs is finished and of this edition.
    ///
    /// crop       of the picture, as it is to be shown
    /// has_faces  whether faces are shown beside it
    [[nodiscard]] bool is_settled(int edition, const render::CropRect& crop, bool has_faces) const;

    /// For other people, or the same in another order: faces go by their number in the scene. The
    /// picture hangs until the next is there.
    ///
    /// edition  of the scene from which on faces are theirs
    void forget_faces(int edition) {
        faces.clear();
        measures.clear();
        faces_from_edition = edition;
    }
};

}  // namespace backrow::window
