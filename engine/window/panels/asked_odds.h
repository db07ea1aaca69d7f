#pragma once

// Of which state of the scene the odds were asked, and what they are.

#include "window/async_task.h"

#include "optics/blur/viewing.h"
#include "plan/odds/odds.h"
#include "scene/scene.h"

#include <functional>
#include <memory>
#include <optional>

namespace backrow::window {

class AskedOdds {
public:
    /// Counts in the background, if this was not asked last.
    ///
    /// edition  of the scene
    /// grade    as good as which every face is to be
    /// wake     called from another thread when they are there
    void ask(std::shared_ptr<const scene::Scene> scene, int edition, optics::Grade grade,
             std::function<void()> wake);
    [[nodiscard]] bool is_asked() const { return work_.is_asked(); }
    /// Takes the odds if they are there. Whether they are new.
    bool collect();
    /// For another scene; the grade stays.
    void forget();

    [[nodiscard]] optics::Grade grade() const noexcept { return grade_; }
    /// Of the scene as it was asked of last, or of one before until those are there.
    [[nodiscard]] const std::optional<plan::Odds>& odds() const noexcept { return odds_; }

private:
    std::optional<int> edition_;  ///< Of which it was asked last.
    optics::Grade grade_ = optics::Grade::fine;
    std::optional<plan::Odds> odds_;
    AsyncTask<plan::Odds> work_;
};

}  // namespace backrow::window
