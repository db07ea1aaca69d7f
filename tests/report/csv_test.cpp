#include "report/text/csv.h"

#include <catch2/catch.hpp>

using namespace backrow::report;

// [RFC4180] section 2, rules 1, 5, 6 and 7.
TEST_CASE("fields are quoted where the rules of CSV say so", "[report][published]") {
    CHECK(csv_record({"aaa", "bbb", "ccc"}) == "aaa,bbb,ccc\r\n");
    CHECK(csv_record({"aaa", "b\r\nbb", "ccc"}) == "aaa,\"b\r\nbb\",ccc\r\n");
    CHECK(csv_record({"aaa", "b\"bb", "ccc"}) == "aaa,\"b\"\"bb\",ccc\r\n");
    CHECK(csv_record({"a,b", ""}) == "\"a,b\",\r\n");
    CHECK(csv_record({"Zo\u00eb"}) == "Zo\u00eb\r\n");
}
