#include "window/panels/asked_advice.h"

#include <algorithm>
#include <utility>

namespace backrow::window {
namespace {

constexpr int most_move_cm = 60;
constexpr float most_step_back_m = 4;

}  // namespace

void AskedAdvice::set_limits(const Limits& limits) {
    limits_ = limits;
    limits_.wanted.most_move_cm = std::clamp(limits.wanted.most_move_cm, 0, most_move_cm);
    limits_.step_back_m = std::clamp(limits.step_back_m, 0.0f, most_step_back_m);
    forget();
}

plan::AdviceWanted AskedAdvice::wanted_of(const scene::Scene& scene) const {
    plan::AdviceWanted wanted = limits_.wanted;
    wanted.lenses = {plan::scene_lens(scene)};
    wanted.least_distance_m = scene.camera.lens_to_mark_m;
    wanted.greatest_distance_m = scene.camera.lens_to_mark_m + limits_.step_back_m;
    return wanted;
}

void AskedAdvice::ask(std::shared_ptr<const scene::Scene> scene, std::function<void()> wake) {
    scene_ = std::move(scene);
    advice_.reset();
    work_.ask(
        [asked = scene_, wanted = wanted_of(*scene_)](const std::function<bool()>& goes_on) {
            return plan::advise(*asked, wanted, [&](double) { return goes_on(); });
        },
        std::move(wake));
}

bool AskedAdvice::collect() {
    auto advice = work_.take();
    if (advice)
        advice_ = std::move(*advice);
    return advice.has_value();
}

// Work that went on would answer for a scene that is gone.
void AskedAdvice::forget() {
    work_.give_up();
    scene_.reset();
    advice_.reset();
}

std::optional<rehearsal::Answers> AskedAdvice::answers(const scene::Scene& now, Units units) const {
    return advice_ ? rehearsal::answers(*scene_, now, *advice_, units) : std::nullopt;
}

}  // namespace backrow::window
