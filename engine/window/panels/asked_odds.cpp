#include "window/panels/asked_odds.h"

#include "plan/odds/frame_model.h"
#include "scene/camera_view.h"

#include <utility>

namespace backrow::window {

void AskedOdds::ask(std::shared_ptr<const scene::Scene> scene, int edition, optics::Grade grade,
                    std::function<void()> wake) {
    if (edition_ == edition && grade_ == grade)
        return;
    edition_ = edition;
    grade_ = grade;
    work_.ask(
        [scene = std::move(scene), grade](const std::function<bool()>&) {
            const plan::FrameModel model = plan::frame_model(*scene, camera_view(*scene), grade);
            return plan::odds_by_trials(model, {.trials = 200'000, .threads = 1});
        },
        std::move(wake));
}

bool AskedOdds::collect() {
    auto odds = work_.take();
    if (odds)
        odds_ = std::move(*odds);
    return odds.has_value();
}

void AskedOdds::forget() {
    work_.give_up();
    edition_.reset();
    odds_.reset();
}

}  // namespace backrow::window
