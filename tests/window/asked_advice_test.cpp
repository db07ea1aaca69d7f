#include "window/panels/asked_advice.h"

#include "two_people.h"

#include <thread>

using namespace backrow;
using namespace backrow::window;

namespace {

void await(AskedAdvice& asked) {
    while (!asked.collect())
        std::this_thread::yield();
}

}  // namespace

TEST_CASE("advice is of the scene that was asked about, and other limits forget it",
          "[window][property]") {
    const scene::Scene scene = two_people();
    AskedAdvice asked;
    CHECK_FALSE(asked.answers(scene, Units::metric));
    asked.ask(std::make_shared<const scene::Scene>(scene), [] {});
    CHECK(asked.is_asked());
    await(asked);
    CHECK_FALSE(asked.is_asked());
    REQUIRE(asked.has_answer());
    const auto answers = asked.answers(scene, Units::metric);
    REQUIRE(answers);
    CHECK_FALSE(answers->things.empty());
    CHECK_FALSE(asked.answers(two_people(1.4), Units::metric));

    AskedAdvice::Limits limits = asked.limits();
    limits.wanted.most_move_cm = 1000;
    limits.step_back_m = -1;
    asked.set_limits(limits);
    CHECK_FALSE(asked.has_answer());
    CHECK(asked.limits().wanted.most_move_cm == 60);
    CHECK(asked.limits().step_back_m == 0);
}

TEST_CASE("what was asked about another scene is never answered", "[window][property]") {
    AskedAdvice asked;
    asked.ask(std::make_shared<const scene::Scene>(two_people()), [] {});
    asked.forget();
    CHECK_FALSE(asked.is_asked());
    CHECK_FALSE(asked.collect());
    CHECK_FALSE(asked.has_answer());
}
