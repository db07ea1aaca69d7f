#pragma once

// One table of a scene file, read key by key. What is asked for becomes known; what is left over in
// the end is a mistake. Every complaint goes to the findings with its place, and the value read
// into stays as it was.

#include "scene/limits.h"
#include "scene/words.h"
#include "scene_file/toml/toml_file.h"

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace backrow::scene_file {

/// What may stand behind a key. Limits are included; nan and inf lie outside of every range.
struct NumberKey {
    std::string_view key;
    scene::Range<double> range;
};
struct WholeKey {
    std::string_view key;
    scene::Range<int> range;
};
template <std::size_t N>
struct NumbersKey {
    std::string_view key;
    std::string_view shape;  ///< "[width, height]"
    scene::Range<double> range;
};
template <class Value, std::size_t N>
struct WordKey {
    std::string_view key;
    scene::Words<Value, N> words;
};
template <class Value, std::size_t N>
WordKey(std::string_view, scene::Words<Value, N>) -> WordKey<Value, N>;

class TableReader {
public:
    /// title stands in messages: "[camera]".
    TableReader(const toml::table& table, std::string title, Findings& findings)
        : table_{&table}, title_{std::move(title)}, findings_{&findings} {}

    /// Each reads the key into a value and returns true, or leaves the value and returns false
    /// where the key is absent or wrong.
    bool read(const NumberKey& rule, double& into);
    bool read(const WholeKey& rule, int& into);
    bool read(std::string_view flag_key, bool& into);
    bool read(std::string_view text_key, std::string& into);
    template <std::size_t N>
    bool read(const NumbersKey<N>& rule, std::array<double, N>& into) {
        const toml::node* node = find(rule.key);
        return node != nullptr && numbers(rule.key, rule.shape, rule.range, *node, into.data(), N);
    }
    template <class Value, std::size_t N>
    bool read(const WordKey<Value, N>& rule, Value& into) {
        std::vector<std::string_view> words;
        for (const auto& [word, value] : rule.words)
            words.push_back(word);
        const std::optional<std::size_t> which = word_among(rule.key, words);
        if (which)
            into = rule.words[*which].second;
        return which.has_value();
    }

    /// The value as it stands, for keys of several forms; null where absent.
    [[nodiscard]] const toml::node* find(std::string_view key);
    [[nodiscard]] const toml::array* list(std::string_view key);
    [[nodiscard]] std::optional<TableReader> table(std::string_view key);
    [[nodiscard]] std::vector<TableReader> tables(std::string_view key);

    void refuse_unknown_keys();

    [[nodiscard]] Place place() const { return place_of(*table_); }
    /// The value's place, or the table's where the key is absent.
    [[nodiscard]] Place place_at(std::string_view key) const;
    [[nodiscard]] const std::string& title() const noexcept { return title_; }

    void complain(Place where, std::string what, std::string mend) {
        findings_->add(std::move(where), std::move(what), std::move(mend));
    }

private:
    bool number(std::string_view key, scene::Range<double> range, const toml::node& node,
                double& into);
    bool numbers(std::string_view key, std::string_view shape, scene::Range<double> range,
                 const toml::node& node, double* into, std::size_t count);
    std::optional<std::size_t> word_among(std::string_view key,
                                          const std::vector<std::string_view>& words);

    const toml::table* table_;
    std::string title_;
    Findings* findings_;
    std::vector<std::string_view> known_;
};

/// "text", "a number", "a list": what a value is, in plain words.
[[nodiscard]] std::string_view kind_of(const toml::node& node);

}  // namespace backrow::scene_file
