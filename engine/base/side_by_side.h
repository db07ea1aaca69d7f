#pragma once

// Work in parts that do not depend on each other, on all cores of the machine.

#include <algorithm>
#include <atomic>
#include <cstddef>
#include <future>
#include <thread>
#include <vector>

namespace backrow {

/// Calls part(0) … part(count − 1), each once and in no order, on as many threads as the machine
/// has cores, 16 at the most, this one among them; returns when all are done. What the parts make
/// must not depend on how many threads there are.
///
/// errors  part may not throw, but for want of memory
template <class Part>
void side_by_side(std::size_t count, const Part& part) {
    std::atomic<std::size_t> next = 0;
    const auto work = [&] {
        for (std::size_t i = next++; i < count; i = next++)
            part(i);
    };
    const std::size_t threads = std::clamp<std::size_t>(std::thread::hardware_concurrency(), 2, 16);
    std::vector<std::future<void>> others;
    for (std::size_t i = 1; i < std::min(threads, count); ++i)
        others.push_back(std::async(std::launch::async, work));
    work();
    for (std::future<void>& other : others)
        other.get();
}

}  // namespace backrow
