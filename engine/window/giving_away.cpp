#include "window/giving_away.h"

#include <fmt/format.h>

#include <chrono>
#include <exception>
#include <filesystem>
#include <new>
#include <utility>

namespace backrow::window {
namespace {

std::string given_words(const std::vector<std::string>& paths) {
    const std::filesystem::path first{paths.front()};
    if (paths.size() == 1)
        return fmt::format("Given away: {}", first.string());
    return fmt::format("Given away: {} files in {}", paths.size(), first.parent_path().string());
}

}  // namespace

GivingAway::GivingAway(std::shared_ptr<const scene::Scene> scene, delivery::Choices choices,
                       delivery::Asked asked, std::function<void()> wake) {
    work_ = std::async(std::launch::async,
                       [this, scene = std::move(scene), choices = std::move(choices),
                        asked = std::move(asked), wake = std::move(wake)] {
                           End end = work(*scene, choices, asked, wake);
                           share_ = 1;
                           wake();
                           return end;
                       });
}

GivingAway::~GivingAway() {
    stop();
}

GivingAway::End GivingAway::work(const scene::Scene& scene, const delivery::Choices& choices,
                                 const delivery::Asked& asked, const std::function<void()>& wake) {
    try {
        const auto given =
            delivery::give_away(scene, choices, asked, [&](double share, const char* words) {
                share_ = share;
                words_ = words;
                wake();
                return !is_stopped_;
            });
        if (given)
            return {.notice = given_words(*given), .failure = {}};
        const std::string why = delivery::to_line(given.error());
        if (why.empty())
            return {.notice = "Stopped: nothing was given away.", .failure = {}};
        return {.notice = {}, .failure = why};
    } catch (const std::bad_alloc&) {
        return {.notice = {}, .failure = to_line(too_little_memory())};
    } catch (const std::exception& error) {
        return {.notice = {}, .failure = error.what()};
    }
}

std::optional<GivingAway::End> GivingAway::end() {
    if (!work_.valid() || work_.wait_for(std::chrono::seconds{0}) != std::future_status::ready)
        return std::nullopt;
    return work_.get();
}

}  // namespace backrow::window
