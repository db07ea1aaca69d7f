#include "figures/appearance.h"

#include "people.h"

#include <catch2/catch.hpp>
#include <glm/geometric.hpp>

#include <algorithm>

namespace backrow::figures {
namespace {

double lightness(const glm::dvec3& colour) {
    return colour.r + colour.g + colour.b;
}

Appearance looks(const std::string& name, const Styling& styling) {
    Person person = adult(name);
    person.styling = styling;
    return appearance(person);
}

/// The greatest difference of a colour between any two of many people.
template <class Colour>
double spread(const std::string& family, Colour colour) {
    double most = 0;
    for (const std::string& one : some_names())
        for (const std::string& other : some_names())
            most = std::max(most, glm::distance(colour(looks(one, {.family = family})),
                                                colour(looks(other, {.family = family}))));
    return most;
}

}  // namespace

TEST_CASE("the six words of skin go from light to dark, whoever it is", "[figures][property]") {
    for (const std::string& name : some_names()) {
        double last = 3;
        for (const Skin skin : {Skin::very_light, Skin::light, Skin::medium_light,
                                Skin::medium_dark, Skin::dark, Skin::very_dark}) {
            const double now = lightness(looks(name, {.skin = skin}).skin);
            CHECK(now < last);
            last = now;
        }
    }
}

TEST_CASE("hair has the colour that is said, at any age, and nothing else changes",
          "[figures][property]") {
    for (const double age : {8.0, 30.0, 75.0}) {
        Person person = aged("Ines", age);
        const Appearance own = appearance(person);
        person.styling.hair_colour = HairColour::red;
        const Appearance red = appearance(person);
        CHECK(red.hair.r > 1.5 * red.hair.g);
        CHECK(red.skin == own.skin);
        CHECK(red.hair_style == own.hair_style);
        CHECK(red.top_colour == own.top_colour);
        CHECK(red.face.iris == own.face.iris);
    }
}

TEST_CASE("people of one family are coloured alike, and of none by their own names",
          "[figures][property]") {
    for (const char* family : {"Larch", "Quay", "Ember", "Holt"}) {
        CHECK(spread(family, [](const Appearance& a) { return a.skin; }) <
              0.5 * spread("", [](const Appearance& a) { return a.skin; }));
        CHECK(spread(family, [](const Appearance& a) { return a.hair; }) <
              0.5 * spread("", [](const Appearance& a) { return a.hair; }));
        CHECK(spread(family, [](const Appearance& a) { return a.face.iris; }) <
              0.5 * spread("", [](const Appearance& a) { return a.face.iris; }));
    }
    // Faces and clothes stay everybody's own.
    const Appearance alone = looks("Bram", {});
    const Appearance related = looks("Bram", {.family = "Larch"});
    CHECK(related.face.nose_width == alone.face.nose_width);
    CHECK(related.top_colour == alone.top_colour);
    CHECK(related.hair_style == alone.hair_style);
    // What is said of one holds against the family.
    CHECK(looks("Bram", {.skin = Skin::very_dark, .family = "Larch"}).skin ==
          looks("Bram", {.skin = Skin::very_dark}).skin);
}

}  // namespace backrow::figures
