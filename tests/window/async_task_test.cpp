#include "window/async_task.h"

#include "awaited.h"

#include <atomic>
#include <thread>

using namespace backrow::window;

namespace {

/// Comes to an end when it is given up; whether it was, or nobody ever did.
bool until_given_up(const std::function<bool()>& goes_on) {
    const auto end = std::chrono::steady_clock::now() + patience;
    while (goes_on()) {
        if (std::chrono::steady_clock::now() > end)
            return false;
        std::this_thread::yield();
    }
    return true;
}

}  // namespace

TEST_CASE("an answer is there once, and whoever waits is woken", "[window][property]") {
    AsyncTask<int> task;
    CHECK_FALSE(task.is_asked());
    CHECK_FALSE(task.take());
    std::atomic<int> woken = 0;
    task.ask([](const auto&) { return 12; }, [&] { ++woken; });
    CHECK(task.is_asked());
    CHECK(awaited([&] { return task.take(); }) == 12);
    CHECK(woken == 1);
    CHECK_FALSE(task.is_asked());
    CHECK_FALSE(task.take());
}

TEST_CASE("whoever asks anew gets no answer to the old question", "[window][property]") {
    AsyncTask<int> task;
    std::atomic<bool> was_given_up = false;
    task.ask(
        [&](const auto& goes_on) {
            was_given_up = until_given_up(goes_on);
            return -1;
        },
        [] {});
    CHECK_FALSE(task.take());
    task.ask([](const auto&) { return 7; }, [] {});
    CHECK(was_given_up);
    CHECK(awaited([&] { return task.take(); }) == 7);
}

TEST_CASE("a question that nobody waits for any more ends", "[window][property]") {
    std::atomic<bool> was_given_up = false;
    {
        AsyncTask<int> task;
        task.ask(
            [&](const auto& goes_on) {
                was_given_up = until_given_up(goes_on);
                return -1;
            },
            [] {});
    }
    CHECK(was_given_up);
}
