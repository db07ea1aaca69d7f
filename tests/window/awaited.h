#pragma once

// Waiting for other threads in the tests of the window.

#include <catch2/catch.hpp>

#include <chrono>
#include <thread>

namespace backrow::window {

/// How long a test that has failed goes on: more than anything awaited takes on a slow machine.
inline constexpr std::chrono::minutes patience{2};

/// What take() gives, as soon as it gives anything. The test fails where it never does.
template <class Take>
auto awaited(const Take& take) {
    const auto end = std::chrono::steady_clock::now() + patience;
    for (;;) {
        if (auto there = take())
            return *there;
        if (std::chrono::steady_clock::now() > end)
            FAIL("what was waited for never came");
        std::this_thread::sleep_for(std::chrono::milliseconds{1});
    }
}

}  // namespace backrow::window
