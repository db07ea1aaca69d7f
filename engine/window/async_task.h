#pragma once

// An answer that is worked out on another thread, and can be given up.

#include <atomic>
#include <chrono>
#include <functional>
#include <future>
#include <memory>
#include <optional>

namespace backrow::window {

template <class Answer>
class AsyncTask {
public:
    AsyncTask() = default;
    AsyncTask(const AsyncTask&) = delete;
    AsyncTask& operator=(const AsyncTask&) = delete;
    ~AsyncTask() { give_up(); }

    /// Gives up what was asked before and waits until it has stopped.
    ///
    /// work  told by its argument whether to go on
    /// wake  called when the answer is there
    void ask(std::function<Answer(const std::function<bool()>& goes_on)> work,
             std::function<void()> wake) {
        give_up();
        is_given_up_ = std::make_shared<std::atomic<bool>>(false);
        answer_ = std::async(std::launch::async,
                             [work = std::move(work), wake = std::move(wake), gone = is_given_up_] {
                                 Answer answer = work([&] { return !*gone; });
                                 wake();
                                 return answer;
                             });
    }

    [[nodiscard]] bool is_asked() const { return answer_.valid(); }

    /// The answer, once; nothing while it is not there.
    [[nodiscard]] std::optional<Answer> take() {
        if (!answer_.valid() ||
            answer_.wait_for(std::chrono::seconds{0}) != std::future_status::ready)
            return std::nullopt;
        return answer_.get();
    }

    void give_up() {
        if (is_given_up_)
            *is_given_up_ = true;
        if (answer_.valid())
            answer_.wait();
        answer_ = {};
    }

private:
    std::shared_ptr<std::atomic<bool>> is_given_up_;
    std::future<Answer> answer_;
};

}  // namespace backrow::window
