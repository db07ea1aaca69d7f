#include "report/text/text_table.h"

#include <catch2/catch.hpp>

using namespace backrow::report;

TEST_CASE("names stand to the left, numbers to the right, rows under their headings",
          "[report][property]") {
    const std::string table =
        text_table({{"name", Align::left}, {"blur px"}, {"grade", Align::left}},
                   {{"Odile", "0.0", "crisp"}, {"Bo", "12.3", "soft"}});
    CHECK(table == "name   blur px  grade\n"
                   "---------------------\n"
                   "Odile      0.0  crisp\n"
                   "Bo        12.3  soft\n");
}

TEST_CASE("columns line up whatever the script of the names", "[report][property]") {
    const std::string table =
        text_table({{"name", Align::left}, {"px"}},
                   {{"Zo\u00eb", "1"}, {"\u7f8e\u54b2", "2"}, {"Zoe\u0308", "3"}});
    CHECK(table == "name  px\n"
                   "--------\n"
                   "Zo\u00eb    1\n"
                   "\u7f8e\u54b2   2\n"
                   "Zoe\u0308    3\n");
}

// Marks of every script stand on the letter before: Arabic vowel signs (four letters under four
// marks), the Devanagari i beside its letter, Thai vowels above. Two ideographs are four columns.
TEST_CASE("marks take no column of their own in any script", "[report][property]") {
    const std::string table = text_table({{"name", Align::left}, {"px"}},
                                         {{"مُحَمَّد", "1"}, {"कि", "2"}, {"กิ่ง", "3"}, {"山田", "4"}});
    CHECK(table == "name  px\n"
                   "--------\n"
                   "مُحَمَّد   1\n"
                   "कि      2\n"
                   "กิ่ง     3\n"
                   "山田   4\n");
}

TEST_CASE("a name with a line break does not break the table", "[report][property]") {
    CHECK(text_table({{"name", Align::left}}, {{"A\nB"}}) == "name\n----\nA B\n");
}

TEST_CASE("a table of nobody is its heading", "[report][property]") {
    CHECK(text_table({{"name", Align::left}, {"px"}}, {}) == "name  px\n--------\n");
}
