#include "report/text/text_table.h"

#include <catch2/catch.hpp>

#include <sstream>
#include <string>
#include <vector>

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

TEST_CASE("headings of a table too wide stand in two lines", "[report][property]") {
    std::vector<Column> columns{{"name", Align::left}};
    std::vector<std::string> row{"Odile"};
    for (int i = 0; i < 8; ++i) {
        columns.push_back({"much longer heading cm"});
        row.emplace_back("1.0");
    }
    const std::string table = text_table(columns, {row});
    CHECK(table.substr(0, table.find('\n')).find("much longer heading  much") != std::string::npos);
    // Narrow tables keep theirs in one.
    CHECK(text_table({{"margin cm"}}, {{"1"}}).starts_with("margin cm\n"));
}

TEST_CASE("text in the last column is broken between words to keep a table narrow",
          "[report][property]") {
    std::string reason;
    for (int i = 0; i < 40; ++i)
        reason += "words ";
    reason += "end";
    const std::string table =
        text_table({{"what", Align::left}, {"why", Align::left}}, {{"rows", reason}, {"x", "y"}});
    std::istringstream lines{table};
    std::string all;
    int count = 0;
    for (std::string line; std::getline(lines, line); ++count) {
        CHECK(line.size() <= static_cast<std::size_t>(table_width));
        if (count > 2 && line.starts_with("      "))
            all += line.substr(6) + ' ';
    }
    CHECK(count == 6);
    CHECK(all.ends_with("words end "));
    CHECK(table.ends_with("\nx     y\n"));
}
