#include "scene_file/toml/near_miss.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cctype>

namespace backrow::scene_file {
namespace {

// Longer words are not typing slips of anything this program knows.
constexpr std::size_t longest_word = 80;
constexpr std::size_t most_words_listed = 24;

std::string without_capitals(std::string_view word) {
    std::string lower{word};
    for (char& c : lower)
        c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return lower;
}

bool is_beginning(std::string_view word, std::string_view whole) {
    return word.size() >= 4 && whole.starts_with(word);
}

}  // namespace

int letters_apart(std::string_view one, std::string_view other) {
    // The table of distances between beginnings, three rows of it: a swap looks two rows back.
    std::vector<int> before_last(other.size() + 1), last(other.size() + 1), now(other.size() + 1);
    for (std::size_t j = 0; j <= other.size(); ++j)
        last[j] = static_cast<int>(j);
    for (std::size_t i = 1; i <= one.size(); ++i) {
        now[0] = static_cast<int>(i);
        for (std::size_t j = 1; j <= other.size(); ++j) {
            const int change = last[j - 1] + (one[i - 1] == other[j - 1] ? 0 : 1);
            now[j] = std::min({last[j] + 1, now[j - 1] + 1, change});
            const bool swapped =
                i > 1 && j > 1 && one[i - 1] == other[j - 2] && one[i - 2] == other[j - 1];
            if (swapped)
                now[j] = std::min(now[j], before_last[j - 2] + 1);
        }
        std::swap(before_last, last);
        std::swap(last, now);
    }
    return last[other.size()];
}

std::string nearest_word(std::string_view word, const std::vector<std::string_view>& known) {
    if (word.empty() || word.size() > longest_word)
        return {};
    const std::string typed = without_capitals(word);
    const int tolerated = std::max(1, static_cast<int>(typed.size()) / 3);
    std::string_view best;
    int best_apart = tolerated + 1;
    for (const std::string_view candidate : known) {
        if (candidate.size() > longest_word)
            continue;
        const std::string whole = without_capitals(candidate);
        const int apart =
            is_beginning(typed, whole) ? std::min(1, tolerated) : letters_apart(typed, whole);
        if (apart < best_apart) {
            best = candidate;
            best_apart = apart;
        }
    }
    return std::string{best};
}

std::string suggestion(std::string_view word, const std::vector<std::string_view>& known,
                       std::string_view known_are) {
    const std::string nearest = nearest_word(word, known);
    if (!nearest.empty())
        return fmt::format("did you mean `{}`?", shortened(nearest));
    std::vector<std::string> listed;
    for (std::size_t i = 0; i < std::min(known.size(), most_words_listed); ++i)
        listed.push_back(shortened(known[i]));
    const bool all = listed.size() == known.size();
    return fmt::format("{} {}{}", known_are, fmt::join(listed, ", "), all ? "" : " …");
}

std::string shortened(std::string_view text) {
    constexpr std::size_t most_bytes = 60;
    if (text.size() <= most_bytes)
        return std::string{text};
    std::size_t end = most_bytes;
    const auto inside_a_character = [](char c) {
        return (static_cast<unsigned char>(c) & 0xc0U) == 0x80U;
    };
    while (end > 0 && inside_a_character(text[end]))
        --end;
    return fmt::format("{}…", text.substr(0, end));
}

}  // namespace backrow::scene_file
