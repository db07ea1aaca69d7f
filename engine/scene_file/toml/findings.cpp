#include "scene_file/toml/findings.h"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

namespace backrow::scene_file {
namespace {

// A hostile file may hold a problem on every line; far more than this need not be remembered.
constexpr std::size_t most_problems_kept = 1024;

}  // namespace

void Findings::add(Place where, std::string what, std::string mend) {
    if (problems_.size() < most_problems_kept)
        problems_.push_back({std::move(where), std::move(what), std::move(mend)});
    else
        ++further_;
}

void Findings::add_unreadable(std::string what, std::string mend) {
    add({file_, 0, 0}, std::move(what), std::move(mend));
}

void Findings::add_all(std::vector<Problem> problems) {
    for (Problem& problem : problems)
        add(std::move(problem.where), std::move(problem.what), std::move(problem.mend));
}

std::vector<Problem> Findings::in_order() && {
    const auto key = [this](const Problem& problem) {
        const Place& at = problem.where;
        const bool elsewhere = at.file != file_ && at.line != 0;
        return std::make_tuple(elsewhere, elsewhere ? at.file : std::string{}, at.line, at.column);
    };
    std::ranges::stable_sort(problems_, {}, key);

    const auto told = static_cast<std::size_t>(most_problems_told);
    if (problems_.size() > told) {
        further_ += static_cast<long>(problems_.size() - told);
        problems_.resize(told);
    }
    if (further_ > 0)
        problems_.push_back({problems_.back().where,
                             fmt::format("and {} more problems after this", further_),
                             "mend the ones above first"});
    return std::move(problems_);
}

}  // namespace backrow::scene_file
