#include "papers/words/catalogue.h"

#include "base/assets.h"

#include <catch2/catch.hpp>

#include <random>
#include <string>

using namespace backrow;
using namespace backrow::papers;

namespace {

std::string german_bytes() {
    const auto path = find_asset("words/de.mo");
    REQUIRE(path);
    return *read_text(*path);
}

}  // namespace

TEST_CASE("placeholders are the names between braces", "[papers][property]") {
    CHECK(placeholders("how {far} is {who} from {far}?") == std::vector<std::string>{"far", "who"});
    CHECK(placeholders("none } { here").empty());
    CHECK(placeholders("").empty());
}

TEST_CASE("a compiled catalogue is read", "[papers][property]") {
    const auto catalogue = read_catalogue(german_bytes(), "de.mo");
    REQUIRE(catalogue);
    CHECK(catalogue->at("Mind") == "Vorsicht");
    CHECK_FALSE(catalogue->contains(""));
}

TEST_CASE("a catalogue that ends early, says nonsense or is none at all is refused or read in part",
          "[papers][property]") {
    const std::string whole = german_bytes();
    CHECK_FALSE(read_catalogue("", "empty.mo"));
    CHECK_FALSE(read_catalogue("[camera]\n", "scene.mo"));
    CHECK(read_catalogue("", "empty.mo").error().what == "empty.mo is no catalogue of sentences");
    for (std::size_t bytes = 0; bytes + 2 < whole.size(); bytes += 7)
        CHECK_FALSE(read_catalogue(whole.substr(0, bytes), "cut.mo"));
    std::mt19937 lot{1};
    for (int i = 0; i < 2000; ++i) {
        std::string broken = whole;
        broken[lot() % 64] = static_cast<char>(lot() % 256);
        broken[lot() % broken.size()] = static_cast<char>(lot() % 256);
        (void)read_catalogue(broken, "broken.mo");
    }
}
