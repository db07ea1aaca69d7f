#include "render/light/numbering.h"

#include <catch2/catch.hpp>

using backrow::render::Numbering;

// Edges by their ends in two halves of a word: thousands of them differ in few digits.
TEST_CASE("the edges of a mesh are numbered as they are met, each once", "[render][property]") {
    Numbering edges;
    constexpr std::uint64_t across = 150;
    const auto edge = [](std::uint64_t i) { return i / across << 32U | i % across; };
    for (std::uint64_t i = 0; i < across * across; ++i) {
        REQUIRE_FALSE(edges.find(edge(i)));
        const auto [number, is_new] = edges.of(edge(i));
        REQUIRE(number == i);
        REQUIRE(is_new);
    }
    CHECK(edges.count() == across * across);
    for (std::uint64_t i = 0; i < across * across; ++i) {
        const auto [number, is_new] = edges.of(edge(i));
        REQUIRE(number == i);
        REQUIRE_FALSE(is_new);
        REQUIRE(edges.find(edge(i)) == number);
    }
}
