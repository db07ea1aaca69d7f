#include "window/pictures/kept_state.h"

#include "window/face_words.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

namespace backrow::window {

void KeptState::keep_look(const rehearsal::Sitting& sitting, const ShownPictures& pictures) {
    picture = {};
    faces.clear();
    if (!pictures.picture.picture.empty())
        picture.take(Print{pictures.picture.print});
    for (const auto& [person, hung] : pictures.faces)
        if (!hung.picture.empty())
            faces[person].take(Print{hung.print});
    facts = sitting.facts();
    edition = sitting.edition();
}

void KeptState::take(const Prints& prints) {
    if (!facts)
        return;
    if (prints.picture && prints.picture->edition == edition)
        picture.take(Print{*prints.picture});
    for (const auto& [person, print] : prints.faces)
        if (print.edition == edition)
            faces[person].take(Print{print});
}

void KeptState::compare_with(const rehearsal::Sitting& sitting, Units units) {
    if (scene() == nullptr || compared_edition == sitting.edition())
        return;
    compared_edition = sitting.edition();
    const rehearsal::Comparison compared = rehearsal::compare(*scene(), sitting.scene(), units);
    comparison.clear();
    if (compared.differences.empty())
        return;
    const auto standing = [](const rehearsal::Standing& s) {
        return s.worst_face.name + " " + blur_words(s.worst_face);
    };
    comparison =
        fmt::format("{}; {:.1f} stops of light lost; background {:.2f} → {:.2f} %; worst {} → {}",
                    fmt::join(compared.differences, ", "), compared.stops_lost,
                    compared.before.background_percent, compared.after.background_percent,
                    standing(compared.before), standing(compared.after));
}

}  // namespace backrow::window
