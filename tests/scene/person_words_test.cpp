#include "scene/person_words.h"

#include <catch2/catch.hpp>

using namespace backrow::scene;

namespace {

std::string fault(std::string_view name) {
    const auto found = fault_of_name(name);
    return found ? found->what : "";
}

}  // namespace

TEST_CASE("a name may be written in any script", "[scene][property]") {
    for (const char* name : {"Odile", "Zo\u00eb", "\u7f8e\u54b2", "\u0915\u093f", "\U0001F600"})
        CHECK(fault(name).empty());
}

// [UNICODE] table 3-7, from memory: which bytes make a letter.
TEST_CASE("bytes that are no letter make no name", "[scene][from-memory]") {
    for (const char* bytes : {"\xff", "Zo\xc3", "\xc0\xaf", "\xed\xa0\x80", "\xf4\x90\x80\x80"})
        CHECK(fault(bytes) == "a name is not UTF-8");
}

TEST_CASE("a name stays on one line", "[scene][property]") {
    for (const char* name : {"O\ndile", "O\x7f", "O\u0085dile", "O\u2028dile", "O\u2029dile"})
        CHECK(fault(name) == "a name holds line breaks or other control characters");
}
