#pragma once

// A state of the scene kept to compare with, and how it looked.

#include "window/pictures/shown_pictures.h"

#include "rehearsal/sitting/facts.h"
#include "rehearsal/sitting/sitting.h"
#include "rehearsal/sitting/two_states.h"
#include "scene/scene.h"

#include <cstddef>
#include <map>
#include <optional>
#include <string>

namespace backrow::window {

struct KeptState {
    rehearsal::TwoStates two;
    Hung picture;
    std::map<std::size_t, Hung> faces;
    std::optional<rehearsal::Facts> facts;
    int edition = 0;           ///< Of the scene, when it was kept.
    std::string comparison;    ///< With the scene as it is, in words; empty for no difference …
    int compared_edition = 0;  ///< … when it was of this edition.
    bool is_shown = false;     ///< In place of the scene as it is.

    [[nodiscard]] const scene::Scene* scene() const noexcept { return two.kept(); }

    /// Keeps how the sitting's scene looks now. Needs the window's context.
    void keep_look(const rehearsal::Sitting& sitting, const ShownPictures& pictures);
    /// What is kept goes on getting better until the scene becomes another: takes copies of what
    /// was made of its edition.
    void take(const Prints& prints);
    /// Whether it can be shown in place of this scene: something is kept, of as many people.
    [[nodiscard]] bool can_stand_for(const scene::Scene& scene) const noexcept {
        return two.kept() != nullptr && two.kept()->people.size() == scene.people.size();
    }
    /// In words, once compared; null where nothing is kept or nothing differs.
    [[nodiscard]] const std::string* comparison_with(const rehearsal::Sitting& sitting) const {
        return two.kept() != nullptr && compared_edition == sitting.edition() && !comparison.empty()
                   ? &comparison
                   : nullptr;
    }
    /// Puts the difference into words, if that has not been done for this edition.
    void compare_with(const rehearsal::Sitting& sitting, Units units);
};

}  // namespace backrow::window
