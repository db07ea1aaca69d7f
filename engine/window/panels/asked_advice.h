#pragma once

// What advice was asked for, and what came of it.

#include "window/async_task.h"

#include "plan/advice/advice.h"
#include "rehearsal/sitting/answers.h"
#include "scene/scene.h"

#include <functional>
#include <memory>
#include <optional>

namespace backrow::window {

class AskedAdvice {
public:
    /// Within which answers are looked for.
    struct Limits {
        plan::AdviceWanted wanted;
        float step_back_m = 0;  ///< How much farther away the camera may go.
    };

    [[nodiscard]] const Limits& limits() const noexcept { return limits_; }
    /// Kept within what can be asked; what was found within other limits goes.
    void set_limits(const Limits& limits);

    /// What is asked of a scene within the limits: with its own lens, from where it is and back.
    [[nodiscard]] plan::AdviceWanted wanted_of(const scene::Scene& scene) const;

    /// Looks for answers in the background.
    ///
    /// wake  called from another thread when they are there
    void ask(std::shared_ptr<const scene::Scene> scene, std::function<void()> wake);
    [[nodiscard]] bool is_asked() const { return work_.is_asked(); }
    /// Takes the answer if it is there. Whether it is new.
    bool collect();
    /// For another scene; the limits stay.
    void forget();

    [[nodiscard]] bool has_answer() const noexcept { return advice_.has_value(); }
    /// As things to try and to take back; nothing where there is no answer, or none for this scene.
    [[nodiscard]] std::optional<rehearsal::Answers> answers(const scene::Scene& now,
                                                            Units units) const;

private:
    Limits limits_;
    std::shared_ptr<const scene::Scene> scene_;  ///< Asked about; null: nothing was asked.
    std::optional<plan::Advice> advice_;
    AsyncTask<std::optional<plan::Advice>> work_;
};

}  // namespace backrow::window
