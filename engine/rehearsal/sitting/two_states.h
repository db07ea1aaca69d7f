#pragma once

// A state of the scene kept to compare with: flip between it and the present one, see what differs
// and what each costs, take it back.

#include "rehearsal/sitting/edited_scene.h"

#include "plan/faces/face_table.h"
#include "scene/scene.h"

#include "base/length_words.h"

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace backrow::rehearsal {

class TwoStates {
public:
    /// Keeps what the scene is now; what was kept before is forgotten.
    void keep(const EditedScene& edited) { kept_ = Kept{edited.text(), edited.scene()}; }
    void forget() noexcept { kept_.reset(); }

    /// The scene that was kept, or null.
    [[nodiscard]] const scene::Scene* kept() const noexcept {
        return kept_ ? &kept_->scene : nullptr;
    }

    /// The scene takes what was kept, as one change that can be undone, and what it was is kept
    /// instead; so doing it twice changes nothing. Something must be kept. Tells why where what was
    /// kept is no scene any more, as when a model's file is gone.
    [[nodiscard]] Checked<void> exchange(EditedScene& edited);

private:
    struct Kept {
        std::string text;
        scene::Scene scene;
    };
    std::optional<Kept> kept_;
};

/// How a state does.
struct Standing {
    std::array<int, 4> faces_of_grade{};  ///< How many, by optics::Grade.
    std::size_t worst = 0;                ///< The most blurred, index in Scene::people.
    plan::Face worst_face;
    double background_percent = 0;  ///< Of the picture's height.
};

[[nodiscard]] Standing standing_of(const scene::Scene& scene, const scene::CameraView& view,
                                   const plan::FaceTable& table);

struct Comparison {
    std::vector<std::string> differences;  ///< differences() in words.
    double stops_lost = 0;                 ///< By the opening; negative where gained.
    double stops_darker = 0;               ///< By opening, shutter and ISO together.
    Standing before;
    Standing after;
};

[[nodiscard]] Comparison compare(const scene::Scene& before, const scene::Scene& after,
                                 Units units);

}  // namespace backrow::rehearsal
