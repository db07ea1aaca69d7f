#include "base/utf8.h"

#include <catch2/catch.hpp>

using namespace backrow;

TEST_CASE("names of any script come back as they went in", "[base][property]") {
    for (const char* name :
         {"", "Odile", "Zo\u00eb", "\u0141ukasz", "\u0395\u03bb\u03ad\u03bd\u03b7", "\u7f8e\u54b2",
          "\U0001F600", "\u007f"})
        CHECK(utf8_from(code_points(name)) == name);
    CHECK(code_points("Zo\u00eb") == std::vector<char32_t>{U'Z', U'o', 0xEB});
    CHECK(code_points("\U0001F600") == std::vector<char32_t>{0x1F600});
}

// [UNICODE] table 3-7, from memory: which bytes make a letter; overlong forms, surrogates, numbers
// above 10FFFF and cut letters do not.
TEST_CASE("bytes that are no letter are shown as unreadable", "[base][from-memory]") {
    CHECK(code_points("\xff") == std::vector<char32_t>{0xFFFD});
    CHECK(code_points("\x80z") == std::vector<char32_t>{0xFFFD, U'z'});
    CHECK(code_points("\xc0\xaf") == std::vector<char32_t>{0xFFFD, 0xFFFD});
    CHECK(code_points("\xe0\x9f\xbf").front() == 0xFFFD);
    CHECK(code_points("\xed\xa0\x80").front() == 0xFFFD);
    CHECK(code_points("\xf4\x90\x80\x80").front() == 0xFFFD);
    CHECK(code_points("a\xc3") == std::vector<char32_t>{U'a', 0xFFFD});
    CHECK(code_points("\xe2\x82") == std::vector<char32_t>{0xFFFD, 0xFFFD});
}

TEST_CASE("a name stays on one line", "[base][property]") {
    CHECK(on_one_line("A\nB\tC\x1b[31m") == "A B C [31m");
    CHECK(on_one_line("A\u0085B\u2028C") == "A B C");
    CHECK(on_one_line("Zo\u00eb") == "Zo\u00eb");
}

// [UAX11], from memory: ideographs, kana, hangul and full-width letters take two columns.
TEST_CASE("letters take the columns that a terminal gives them", "[base][from-memory]") {
    CHECK(display_width("") == 0);
    CHECK(display_width("Odile") == 5);
    CHECK(display_width("Zo\u00eb") == 3);
    CHECK(display_width("Zoe\u0308") == 3);
    CHECK(display_width("\u0395\u03bb\u03ad\u03bd\u03b7") == 5);
    CHECK(display_width("\u7f8e\u54b2") == 4);
    CHECK(display_width("\ubbfc\uc9c0") == 4);
    CHECK(display_width("\u3053") == 2);
    CHECK(display_width("\uff21") == 2);
    CHECK(display_width("\u0645\u064f") == 1);        // Arabic meem and its vowel
    CHECK(display_width("\u0915\u093f") == 1);        // Devanagari ka and its vowel
    CHECK(display_width("\u0e01\u0e34\u0e48") == 1);  // Thai ko kai, vowel, tone
}

TEST_CASE("what is no UTF-8, and what disturbs a line, is told", "[base][property]") {
    CHECK(is_utf8(""));
    CHECK(is_utf8("Zo\u00eb \u5c71\u7530"));
    CHECK_FALSE(is_utf8("Zo\xeb"));
    CHECK_FALSE(is_utf8("\xe5\xb1"));
    CHECK(is_utf8("\ufffd"));  // A letter like any other.
    for (const char32_t letter : {U'\n', U'\t', U'\x7f', U'\u0085', U'\u2028', U'\u2029'})
        CHECK(is_control(letter));
    for (const char32_t letter : {U'a', U' ', U'\u00a0', U'\u200d', U'\u5c71'})
        CHECK_FALSE(is_control(letter));
}
