#include "window/async_task.h"

#include <catch2/catch.hpp>

#include <atomic>
#include <thread>

using namespace backrow::window;

namespace {

/// Nothing comes of it unless it is given up.
int until_given_up(const std::function<bool()>& goes_on) {
    while (goes_on())
        std::this_thread::yield();
    return -1;
}

template <class Answer>
Answer awaited(AsyncTask<Answer>& task) {
    for (;;)
        if (const auto answer = task.take())
            return *answer;
}

}  // namespace

TEST_CASE("an answer is there once, and whoever waits is woken", "[window][property]") {
    AsyncTask<int> task;
    CHECK_FALSE(task.is_asked());
    CHECK_FALSE(task.take());
    std::atomic<int> woken = 0;
    task.ask([](const auto&) { return 12; }, [&] { ++woken; });
    CHECK(task.is_asked());
    CHECK(awaited(task) == 12);
    CHECK(woken == 1);
    CHECK_FALSE(task.is_asked());
    CHECK_FALSE(task.take());
}

TEST_CASE("whoever asks anew gets no answer to the old question", "[window][property]") {
    AsyncTask<int> task;
    task.ask(until_given_up, [] {});
    CHECK_FALSE(task.take());
    task.ask([](const auto&) { return 7; }, [] {});
    CHECK(awaited(task) == 7);
}

TEST_CASE("a question that nobody waits for any more ends", "[window][property]") {
    std::atomic<bool> has_ended = false;
    {
        AsyncTask<int> task;
        task.ask(
            [&](const auto& goes_on) {
                const int answer = until_given_up(goes_on);
                has_ended = true;
                return answer;
            },
            [] {});
    }
    CHECK(has_ended);
}
