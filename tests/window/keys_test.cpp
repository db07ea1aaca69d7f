#include "window/commands/keys.h"

#include <catch2/catch.hpp>

#include <map>
#include <string>
#include <tuple>

using namespace backrow::window;

namespace {

std::string words_of(const Key& key) {
    return std::string{key.does != nullptr ? key.does : "a key that the sheet does not show"} +
           " (" + std::to_string(key.key) + ")";
}

}  // namespace

// All commands hear keys in one place: a sheet over the window only silences them, so a second one
// on the same keys would never be obeyed.
TEST_CASE("no two commands are on the same keys", "[window][property]") {
    std::map<std::tuple<int, bool, bool>, const Key*> taken;
    for (const Key& key : all_keys()) {
        const auto [there, is_free] = taken.try_emplace({key.key, key.ctrl, key.shift}, &key);
        INFO(words_of(key) << " is on the keys of " << words_of(*there->second));
        CHECK(is_free);
    }
    CHECK(taken.size() == all_keys().size());
    CHECK_FALSE(taken.empty());
}

TEST_CASE("every key does something, but for the one that is held", "[window][property]") {
    int held = 0;
    for (const Key& key : all_keys()) {
        INFO(words_of(key));
        CHECK(key.key > 0);
        CHECK((key.shown == nullptr) == (key.does == nullptr));
        held += key.command == nullptr ? 1 : 0;
    }
    CHECK(held == 1);
}
