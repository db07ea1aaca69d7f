#include "scene_file/toml/near_miss.h"

#include <catch2/catch.hpp>

namespace backrow::scene_file {

// Distances counted by hand, letter by letter.
TEST_CASE("letters are counted as added, dropped, changed or swapped", "[scene_file][property]") {
    CHECK(letters_apart("", "") == 0);
    CHECK(letters_apart("", "abc") == 3);
    CHECK(letters_apart("kneeling", "kneeling") == 0);
    CHECK(letters_apart("kneling", "kneeling") == 1);
    CHECK(letters_apart("knealing", "kneeling") == 1);
    CHECK(letters_apart("knelеing", "kneeling") == 3);  // the sixth letter is Cyrillic, two bytes
    CHECK(letters_apart("statuer_m", "stature_m") == 1);
    CHECK(letters_apart("stature_cm", "stature_m") == 1);
    CHECK(letters_apart("hedge", "wall") == letters_apart("wall", "hedge"));
}

TEST_CASE("a slip of the fingers finds the word that was meant", "[scene_file][property]") {
    const std::vector<std::string_view> known{"focal_length_mm", "f_number", "distance_m"};
    CHECK(nearest_word("f_numbr", known) == "f_number");
    CHECK(nearest_word("F_NUMBER", known) == "f_number");
    CHECK(nearest_word("focal", known) == "focal_length_mm");
    CHECK(nearest_word("distance_cm", known) == "distance_m");
    CHECK(nearest_word("aperture", known).empty());
    CHECK(nearest_word("", known).empty());
    CHECK(nearest_word(std::string(100'000, 'f'), known).empty());
}

TEST_CASE("where no word is near, the known ones are listed", "[scene_file][property]") {
    CHECK(suggestion("odile", {"Odile", "Bram"}, "in the picture are") == "did you mean `Odile`?");
    CHECK(suggestion("Zuzanna", {"Odile", "Bram"}, "in the picture are") ==
          "in the picture are Odile, Bram");
    const std::vector<std::string_view> crowd(2000, "Bram");
    CHECK(suggestion("Zuzanna", crowd, "in the picture are").size() < 200);
}

TEST_CASE("a long name is shortened between letters", "[scene_file][property]") {
    CHECK(shortened("Odile") == "Odile");
    std::string umlauts = "a";
    for (int i = 0; i < 40; ++i)
        umlauts += "\xc3\xbc";
    const std::string cut = shortened(umlauts);
    CHECK(cut.size() < umlauts.size());
    // What is left is whole two-byte letters after the first, then the dots.
    CHECK((cut.size() - 1 - std::string{"…"}.size()) % 2 == 0);
}

}  // namespace backrow::scene_file
