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
Answer awaited(AsyncTask<Answer>& later) {
    for (;;)
        if (const auto answer = later.take())
            return *answer;
}

}  // namespace

TEST_CASE("an answer is there once, and whoever waits is woken", "[window][property]") {
    AsyncTask<int> later;
    CHECK_FALSE(later.is_asked());
    CHECK_FALSE(later.take());
    std::atomic<int> woken = 0;
    later.ask([](const auto&) { return 12; }, [&] { ++woken; });
    CHECK(later.is_asked());
    CHECK(awaited(later) == 12);
    CHECK(woken == 1);
    CHECK_FALSE(later.is_asked());
    CHECK_FALSE(later.take());
}

TEST_CASE("whoever asks anew gets no answer to the old question", "[window][property]") {
    AsyncTask<int> later;
    later.ask(until_given_up, [] {});
    CHECK_FALSE(later.take());
    later.ask([](const auto&) { return 7; }, [] {});
    CHECK(awaited(later) == 7);
}

TEST_CASE("a question that nobody waits for any more ends", "[window][property]") {
    std::atomic<bool> has_ended = false;
    {
        AsyncTask<int> later;
        later.ask(
            [&](const auto& goes_on) {
                const int answer = until_given_up(goes_on);
                has_ended = true;
                return answer;
            },
            [] {});
    }
    CHECK(has_ended);
}
