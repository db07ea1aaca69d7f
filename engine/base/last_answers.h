#pragma once

// Answers that take long and are asked for again and again: the last few, kept while the program
// runs.

#include <cstddef>
#include <deque>
#include <mutex>
#include <utility>

namespace backrow {

/// Key can be compared. May be asked by several threads; each question waits for the one before.
template <class Key, class Value>
class LastAnswers {
public:
    /// What answer(key) was, or is.
    template <class Answer>
    [[nodiscard]] Value operator()(const Key& key, const Answer& answer) {
        const std::scoped_lock lock{one_at_a_time_};
        for (const auto& [known, value] : kept_)
            if (known == key)
                return value;
        kept_.emplace_front(key, answer(key));
        if (kept_.size() > most_kept)
            kept_.pop_back();
        return kept_.front().second;
    }

private:
    static constexpr std::size_t most_kept = 8;
    std::mutex one_at_a_time_;
    std::deque<std::pair<Key, Value>> kept_;
};

}  // namespace backrow
