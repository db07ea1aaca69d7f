#include "window/pictures/shown_pictures.h"

#include <algorithm>
#include <utility>

namespace backrow::window {

void Hung::take(Print&& print_) {
    print = std::move(print_);
    picture.take(print.pixels);
}

News ShownPictures::take(Prints prints) {
    News news = News::none;
    if (!prints.faces.empty() || !prints.measures.empty() || prints.share != share)
        news = News::can_wait;
    if (prints.picture || prints.work != work || prints.complaint != complaint)
        news = News::at_once;
    if (prints.picture)
        picture.take(std::move(*prints.picture));
    for (auto& [person, print] : prints.faces)
        if (print.edition >= faces_from_edition)
            faces[person].take(std::move(print));
    for (const auto& [person, measured] : prints.measures)
        if (measured.edition >= faces_from_edition)
            measures[person] = measured;
    work = prints.work;
    share = prints.share;
    complaint = std::move(prints.complaint);
    return news;
}

bool ShownPictures::is_settled(int edition, const render::CropRect& crop, bool has_faces) const {
    const auto is_done = [&](const Print& print) {
        return print.edition == edition && print.is_finished();
    };
    return work == Work::none && is_done(picture.print) && picture.print.part == crop &&
           (!has_faces || std::ranges::all_of(
                              faces, [&](const auto& face) { return is_done(face.second.print); }));
}

}  // namespace backrow::window
