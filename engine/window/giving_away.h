#pragma once

// What is given away, made and written in the background while the rehearsal goes on.

#include "delivery/give_away.h"
#include "scene/scene.h"

#include <atomic>
#include <functional>
#include <future>
#include <memory>
#include <optional>
#include <string>

namespace backrow::window {

class GivingAway {
public:
    /// Starts at once, with a studio of its own.
    ///
    /// wake  called from its thread whenever there is something to show
    GivingAway(std::shared_ptr<const scene::Scene> scene, delivery::Choices choices,
               delivery::Asked asked, std::function<void()> wake);
    ~GivingAway();  ///< Stops it; then nothing is written.
    GivingAway(const GivingAway&) = delete;
    GivingAway& operator=(const GivingAway&) = delete;

    [[nodiscard]] double share() const noexcept { return share_; }
    /// What is being made.
    [[nodiscard]] const char* words() const noexcept { return words_; }
    void stop() noexcept { is_stopped_ = true; }

    struct End {
        std::string notice;   ///< What became of it; empty where it failed.
        std::string failure;  ///< Why it failed, and how to mend it; else empty.
    };
    /// Nothing while it goes on.
    [[nodiscard]] std::optional<End> end();

private:
    [[nodiscard]] End work(const scene::Scene& scene, const delivery::Choices& choices,
                           const delivery::Asked& asked, const std::function<void()>& wake);

    std::atomic<double> share_ = 0;
    std::atomic<const char*> words_ = "";
    std::atomic<bool> is_stopped_ = false;
    std::future<End> work_;
};

}  // namespace backrow::window
