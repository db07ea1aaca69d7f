#include "arranging/wish_lists.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>

namespace backrow::arranging {
namespace {

std::string line_for(const WishLists& lists) {
    const auto known = known_from(lists);
    REQUIRE_FALSE(known);
    return to_line(known.error().front());
}

}  // namespace

TEST_CASE("lists of names say together what is known of each person", "[arranging][property]") {
    const auto known = known_from({.families = "Anna, Ben ,Mia; Dora,Emil",
                                   .couples = "Anna+Ben,Dora+Emil+Finn",
                                   .ages = "Anna=71, Mia = 2.5",
                                   .seated = "Finn",
                                   .kneeling = "Emil",
                                   .carried = "Mia=Ben",
                                   .celebrated = "Zoe"});
    if (!known)
        FAIL(to_line(known.error().front()));
    REQUIRE(known->size() == 7);
    const auto named = [&](const char* name) {
        return *std::ranges::find(*known, name, &scene::Guest::name);
    };
    CHECK(named("Ben").family == "Anna");
    CHECK(named("Emil").family == "Dora");
    CHECK(named("Anna").company.with == std::vector<std::string>{"Ben"});
    CHECK(named("Dora").company.with == std::vector<std::string>{"Emil"});
    CHECK(named("Emil").company.with == std::vector<std::string>{"Finn"});
    CHECK(named("Anna").age_years == 71);
    CHECK(named("Mia").carried_by == "Ben");
    CHECK(named("Finn").posture == figures::Posture::seated);
    CHECK(named("Emil").posture == figures::Posture::kneeling);
    CHECK(named("Zoe").company.celebrated);
    CHECK(known_from({})->empty());
}

TEST_CASE("a list that is none is told by its option, with how to write it",
          "[arranging][property]") {
    CHECK(line_for({.families = "Anna,Ben;Ben,Cleo"}) ==
          "--families: `Ben` is in two families; write names with commas between, and a semicolon "
          "before the next family");
    CHECK(line_for({.families = "Anna,,Ben"}).starts_with("--families: a name is missing; "));
    CHECK(line_for({.families = "Anna;;Ben"}).starts_with("--families: a family has no names; "));
    CHECK(line_for({.couples = "Anna,Ben"}) ==
          "--couples: `Anna` alone is no couple; write both names with a plus between: Anna+Ben");
    CHECK(line_for({.ages = "Anna"}) ==
          "--ages: `Anna` is not two things with an equals sign between; write the name and the "
          "years: Anna=71");
    CHECK(line_for({.ages = "Anna=old"}).starts_with("--ages: `old` is no age; "));
    CHECK(line_for({.ages = "Anna=1,Anna=2"}).starts_with("--ages: `Anna` has two ages; "));
    CHECK(line_for({.seated = "Anna", .kneeling = "Anna"})
              .starts_with("--kneeling: `Anna` sits and kneels; "));
    CHECK(line_for({.carried = "Mia=Ben,Mia=Cleo"})
              .starts_with("--carried: `Mia` is carried by two; "));
    CHECK(line_for({.carried = "Mia="}).starts_with("--carried: "));
    CHECK(line_for({.celebrated = "Anna,"}).starts_with("--celebrated: a name is missing; "));
}

}  // namespace backrow::arranging
