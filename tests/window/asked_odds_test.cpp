#include "window/panels/asked_odds.h"

#include "two_people.h"

#include <thread>

using namespace backrow;
using namespace backrow::window;

TEST_CASE("the odds are counted once for each state of the scene and each grade",
          "[window][property]") {
    const auto scene = std::make_shared<const scene::Scene>(two_people());
    AskedOdds asked;
    const auto await = [&] {
        REQUIRE(asked.is_asked());
        while (!asked.collect())
            std::this_thread::yield();
    };
    CHECK_FALSE(asked.odds());
    asked.ask(scene, 1, optics::Grade::fine, [] {});
    await();
    REQUIRE(asked.odds());
    CHECK(asked.odds()->faces.size() == 2);
    const double fine = asked.odds()->sharp.value;

    asked.ask(scene, 1, optics::Grade::fine, [] {});
    CHECK_FALSE(asked.is_asked());
    asked.ask(scene, 2, optics::Grade::fine, [] {});
    await();

    // The old odds stand until the new ones are there; crisp is harder.
    asked.ask(scene, 2, optics::Grade::crisp, [] {});
    CHECK(asked.grade() == optics::Grade::crisp);
    CHECK(asked.odds());
    await();
    CHECK(asked.odds()->sharp.value < fine);

    asked.forget();
    CHECK_FALSE(asked.odds());
    CHECK(asked.grade() == optics::Grade::crisp);
    asked.ask(scene, 2, optics::Grade::crisp, [] {});
    CHECK(asked.is_asked());
}
