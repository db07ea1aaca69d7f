#include "plan/advice/advice.h"

#include "plan/advice/least_moves.h"
#include "plan/advice/room_between.h"
#include "posed.h"
#include "scene/judged_blur.h"
#include "scene/settle.h"

#include "optics/exposure/stops.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <optional>
#include <string>
#include <vector>

namespace backrow::plan {
namespace {

const GoOn always = [](double /*share*/) { return true; };

/// Three in a staggered line, a hedge behind.
scene::Scene three(double front_m = 3.0, double behind_m = 3.3) {
    scene::Scene scene = level_scene({with_eye_at("Ana", front_m, -0.7),
                                      with_eye_at("Ben", (front_m + behind_m) / 2, 0),
                                      with_eye_at("Cleo", behind_m, 0.7)});
    scene.focus = scene::FocusOnPerson{"Ana"};
    scene.setting.backdrops.push_back({.kind = setting::BackdropKind::hedge, .back_m = 8});
    return scene;
}

/// Nobody drifts, and everybody may be asked.
AdviceWanted wanted_for(const scene::Scene& scene, int most_move_cm) {
    return {.lenses = {scene_lens(scene)},
            .most_move_cm = most_move_cm,
            .most_movers = static_cast<int>(scene.people.size()),
            .margin_cm = 0};
}

bool all_hold(scene::Scene scene, double f_number) {
    scene.camera.f_number = f_number;
    const FaceTable table = face_table(scene, scene::camera_view(scene));
    return std::ranges::all_of(table.faces, [](const Face& face) {
        return face.grade <= optics::Grade::fine && face.cropping.has_whole_head;
    });
}

/// The widest third stop that holds at any of the foci, nobody moved.
double widest_by_trying(scene::Scene scene, const std::vector<scene::Focus>& foci) {
    for (const double f_number : optics::marked_f_numbers())
        for (const scene::Focus& focus : foci) {
            scene.focus = focus;
            if (f_number >= scene.camera.f_number && all_hold(scene, f_number))
                return f_number;
        }
    return 0;
}

double widest(const std::vector<Answer>& answers) {
    double f_number = 1000;
    for (const Answer& answer : answers)
        f_number = std::min(f_number, answer.view.lens.f_number);
    return f_number;
}

}  // namespace

// Every focus in millimetres and every third stop, through the face table alone.
TEST_CASE("with nobody moving, no opening on a fine grid is wider than the advice",
          "[plan][property]") {
    for (const double depth_m : {0.1, 0.3, 0.6}) {
        const scene::Scene scene = three(3.0, 3.0 + depth_m);
        std::vector<scene::Focus> foci;
        for (int mm = 2900; mm < 3700; ++mm)
            foci.emplace_back(scene::FocusAtDistance{mm * 1e-3});
        const auto advice = advise(scene, wanted_for(scene, 0), always);
        REQUIRE(advice);
        REQUIRE_FALSE(advice->answers.empty());
        CHECK(widest(advice->answers) == widest_by_trying(scene, foci));
        for (const Answer& answer : advice->answers)
            CHECK(answer.moves.empty());
    }
}

TEST_CASE("with focus on faces alone, no opening is wider than the advice's", "[plan][property]") {
    const scene::Scene scene = three();
    const auto advice = advise(scene, wanted_for(scene, 0), always);
    REQUIRE(advice);
    double on_faces = 1000;
    for (const Answer& answer : advice->answers)
        if (std::holds_alternative<scene::FocusOnPerson>(answer.scene.focus))
            on_faces = std::min(on_faces, answer.view.lens.f_number);
    std::vector<scene::Focus> foci;
    for (const scene::Person& person : scene.people)
        foci.emplace_back(scene::FocusOnPerson{person.name});
    CHECK(on_faces == widest_by_trying(scene, foci));
}

// All moves of whole centimetres up to five for three people, focus on each: 3·11³ scenes an
// opening. The least movement in all at the widest opening that any of them holds.
TEST_CASE("no moves on a grid of centimetres hold a wider opening, or the same with less movement",
          "[plan][property]") {
    constexpr int most_cm = 5;
    const scene::Scene scene = three(3.0, 3.16);
    const auto advice = advise(scene, wanted_for(scene, most_cm), always);
    REQUIRE(advice);
    REQUIRE_FALSE(advice->answers.empty());

    std::optional<int> least_cm;
    double f_number = 0;
    const auto rooms = rooms_between(scene.people, most_cm);
    for (const double mark : optics::marked_f_numbers()) {
        if (mark < scene.camera.f_number || least_cm)
            continue;
        f_number = mark;
        std::vector<int> cm(3, -most_cm);
        for (cm[0] = -most_cm; cm[0] <= most_cm; ++cm[0])
            for (cm[1] = -most_cm; cm[1] <= most_cm; ++cm[1])
                for (cm[2] = -most_cm; cm[2] <= most_cm; ++cm[2]) {
                    const int sum = std::abs(cm[0]) + std::abs(cm[1]) + std::abs(cm[2]);
                    const bool room = std::ranges::all_of(rooms, [&](const RoomBetween& between) {
                        return cm[between.behind] - cm[between.front] >= -between.room_cm;
                    });
                    if (!room || (least_cm && sum >= *least_cm))
                        continue;
                    scene::Scene moved = scene;
                    for (std::size_t i = 0; i < 3; ++i)
                        moved.people[i].place.back_m += cm[i] * 0.01;
                    for (const scene::Person& person : scene.people) {
                        moved.focus = scene::FocusOnPerson{person.name};
                        if (all_hold(moved, mark))
                            least_cm = sum;
                    }
                }
    }
    REQUIRE(least_cm);
    int advised_cm = 1000;
    for (const Answer& answer : advice->answers)
        if (answer.view.lens.f_number == f_number &&
            std::holds_alternative<scene::FocusOnPerson>(answer.scene.focus))
            advised_cm = std::min(advised_cm, answer.moved_cm());
    CHECK(widest(advice->answers) <= f_number);
    CHECK(advised_cm == *least_cm);
}

TEST_CASE("what is advised holds in the scene as moved, and nobody bumps into anybody",
          "[plan][property]") {
    scene::Scene scene = three(3.0, 3.4);
    scene.camera.aim = scene::AimAtGroup{};
    scene.camera.level = false;
    scene.camera.focal_length_mm =
        28;  // Heads and all, though the aim is the middle of the bodies.
    AdviceWanted wanted = wanted_for(scene, 20);
    wanted.greatest_distance_m = 3.6;
    const auto advice = advise(scene, wanted, always);
    REQUIRE(advice);
    REQUIRE_FALSE(advice->answers.empty());
    const auto rooms = rooms_between(scene.people, 20);
    for (const Answer& answer : advice->answers) {
        CHECK(all_hold(answer.scene, answer.view.lens.f_number));
        CHECK(answer.worst_share <= 1);
        std::vector<int> cm;
        for (std::size_t i = 0; i < scene.people.size(); ++i) {
            const double moved_m =
                answer.scene.people[i].place.back_m - scene.people[i].place.back_m;
            cm.push_back(static_cast<int>(std::lround(moved_m * 100)));
            CHECK(std::abs(cm.back()) <= 20);
        }
        for (const RoomBetween& room : rooms)
            CHECK(cm[room.behind] - cm[room.front] >= -room.room_cm);
    }
    CHECK(std::ranges::is_sorted(advice->answers, std::ranges::greater{}, [](const Answer& answer) {
        return answer.background.percent_of_height;
    }));
}

TEST_CASE("a carried child moves as its carrier does, and is not asked to", "[plan][property]") {
    // The carrier stands behind a line of three: it is cheapest to ask her forward.
    scene::Scene scene = level_scene({with_eye_at("Ana", 3.0, -0.9), with_eye_at("Ben", 3.0, -0.4),
                                      with_eye_at("Dov", 3.0, 0.1), with_eye_at("Cleo", 3.3, 0.7)});
    scene::Person mia = somebody("Mia", {});
    mia.measures = figures::body_measures(0.95, 3.0);
    mia.pose.posture = figures::Posture::on_shoulders;
    const std::size_t child = scene.people.size();
    mia.carrier = static_cast<int>(child) - 1;
    scene.people.push_back(mia);
    settle(scene.people);
    const scene::Person& carrier = scene.people[child - 1];
    AdviceWanted wanted = wanted_for(scene, 40);
    const auto advice = advise(scene, wanted, always);
    REQUIRE(advice);
    bool carrier_moves = false;
    for (const Answer& answer : advice->answers) {
        const auto& people = answer.scene.people;
        CHECK(people[child].place.back_m == people[child - 1].place.back_m);
        const glm::dvec3 was = reference_points(mia = scene.people[child]).left_eye_m;
        const glm::dvec3 is = reference_points(people[child]).left_eye_m;
        CHECK(is.z - was.z ==
              Approx(carrier.place.back_m - people[child - 1].place.back_m).margin(1e-9));
        for (const Move& move : answer.moves) {
            CHECK(move.name != "Mia");
            carrier_moves = carrier_moves || move.name == carrier.name;
        }
    }
    CHECK(carrier_moves);
}

// Every centimetre of distance, focus in half centimetres, through the face table.
TEST_CASE("no distance on a grid of centimetres gives more background blur than the advice",
          "[plan][property]") {
    const scene::Scene scene = three(3.0, 3.5);
    AdviceWanted wanted = wanted_for(scene, 0);
    wanted.least_distance_m = 2.9;
    wanted.greatest_distance_m = 3.2;
    const auto advice = advise(scene, wanted, always);
    REQUIRE(advice);
    REQUIRE_FALSE(advice->answers.empty());
    double best_percent = 0;
    for (int cm = 290; cm <= 320; ++cm) {
        scene::Scene there = scene;
        there.camera.lens_to_mark_m = cm * 0.01;
        for (const double f_number : optics::marked_f_numbers())
            for (double focus_m = cm * 0.01 - 0.1; focus_m < cm * 0.01 + 0.6; focus_m += 0.005) {
                if (f_number < scene.camera.f_number)
                    continue;
                there.focus = scene::FocusAtDistance{focus_m};
                there.camera.f_number = f_number;
                const double percent =
                    background(there, scene::camera_view(there)).percent_of_height;
                if (percent > best_percent && all_hold(there, f_number))
                    best_percent = percent;
            }
    }
    // A third stop is a factor of 2^(1/6).
    CHECK(advice->answers.front().background.percent_of_height >= best_percent / std::exp2(1. / 6));
}

// 0.05 dpt at the edge of f/1.2: at the eye's own focus the blur is 0.074 mm, at the best focus,
// two thirds of the way to the edge's, 0.025 mm; 0.038 mm are fine in an album.
TEST_CASE("through a lens with spherical aberration the focus goes where the spot is smallest",
          "[plan][property]") {
    scene::Scene scene = three(3.0, 3.0);
    scene.lens.profile = optics::LensProfile{.widest_f_number = 1.2, .spherical_dpt = 0.05};
    const auto advice = advise(scene, wanted_for(scene, 0), always);
    REQUIRE(advice);
    REQUIRE_FALSE(advice->answers.empty());
    const Answer& widest_answer = advice->answers.front();
    CHECK(widest_answer.view.lens.f_number == 1.2);
    CHECK(widest_answer.view.lens.focus_m > 3.1);
}

TEST_CASE("asking for crisp never gives more background blur than asking for fine",
          "[plan][property]") {
    const scene::Scene scene = three();
    AdviceWanted wanted = wanted_for(scene, 10);
    const auto fine = advise(scene, wanted, always);
    wanted.grade = optics::Grade::crisp;
    const auto crisp = advise(scene, wanted, always);
    REQUIRE((fine && crisp && !fine->answers.empty() && !crisp->answers.empty()));
    CHECK(crisp->answers.front().background.percent_of_height <=
          fine->answers.front().background.percent_of_height);
}

// Closed form: the blur of both ends at the balanced focus, against the limit.
TEST_CASE("where nothing is possible the nearest miss focuses between the ends",
          "[plan][property]") {
    const scene::Scene scene = three(3.0, 6.0);
    AdviceWanted wanted = wanted_for(scene, 0);
    wanted.narrowest_f_number = 2;
    const auto advice = advise(scene, wanted, always);
    REQUIRE(advice);
    CHECK(advice->answers.empty());
    REQUIRE(advice->nearest);
    CHECK(advice->nearest->view.lens.f_number == 2.0);
    CHECK(advice->nearest->view.lens.focus_m == Approx(4.0));
    const double limit_mm =
        grade_limit_mm(optics::Grade::fine, scene.viewing, advice->nearest->view);
    const double blur_mm = 50 * 50 * 1000.0 / (2 * 3000 * (4000 - 50.0));
    CHECK(advice->nearest->worst_share == Approx(blur_mm / limit_mm));
}

// Two at 3 m and 6 m who may take a step of 30 cm each: the best that can be had is to stand at
// 3.3 m and 5.7 m, focused evenly between.
TEST_CASE("the nearest miss uses the moves that people may make", "[plan][property]") {
    const scene::Scene scene =
        level_scene({with_eye_at("Ana", 3.0, -0.5), with_eye_at("Cleo", 6.0, 0.5)});
    AdviceWanted wanted = wanted_for(scene, 30);
    wanted.narrowest_f_number = 2;
    const auto advice = advise(scene, wanted, always);
    REQUIRE(advice);
    CHECK(advice->answers.empty());
    REQUIRE(advice->nearest);
    const double even_m = 2 * 3.3 * 5.7 / (3.3 + 5.7);
    const double limit_mm =
        grade_limit_mm(optics::Grade::fine, scene.viewing, advice->nearest->view);
    const double blur_mm = 50 * 50 * (even_m - 3.3) * 1000 / (2 * 3300 * (1000 * even_m - 50.0));
    // A whole centimetre less than the full step is within the hundredth that is searched to.
    CHECK(advice->nearest->worst_share == Approx(blur_mm / limit_mm).epsilon(0.02));
}

TEST_CASE("where every lens carried would cut faces off there is a nearest miss all the same",
          "[plan][regression]") {
    const scene::Scene scene = three(3.0, 3.6);
    AdviceWanted wanted = wanted_for(scene, 0);
    wanted.lenses = {{.focal_length_mm = 300, .widest_f_number = 2}};
    wanted.narrowest_f_number = 2;
    const auto advice = advise(scene, wanted, always);
    REQUIRE(advice);
    CHECK(advice->answers.empty());
    CHECK(advice->nearest);
}

// A garden at EV 12, set 3⅔ stops over: 1/125 s, f/1.8, ISO 100 suit EV 8.66.
TEST_CASE("every answer suits the light, whatever is set", "[plan][regression]") {
    for (const double scene_ev100 : {2.0, 8.0, 12.0, 16.0}) {
        scene::Scene scene = three();
        scene.camera.f_number = 1.8;
        scene.camera.shutter_s = 1.0 / 125;
        scene.light.scene_ev100 = scene_ev100;
        const auto advice = advise(scene, wanted_for(scene, 10), always);
        REQUIRE(advice);
        REQUIRE_FALSE(advice->answers.empty());
        for (const Answer& answer : advice->answers) {
            const Metering there = metering(answer.scene, answer.view);
            CAPTURE(scene_ev100, answer.scene.camera.shutter_s, answer.scene.camera.iso);
            CHECK(std::abs(there.stops_over) <= 0.2);
            CHECK(answer.scene.camera.shutter_s <=
                  std::max({there.handheld_limit_s, scene.camera.shutter_s}));
        }
    }
}

// Eyes drift along the axis of a camera that keeps still, and where it has focused on somebody it
// may follow them. Axial distances of level_scene() are counted straight back.
TEST_CASE("whoever drifts within the margin stays as sharp as promised", "[plan][property]") {
    for (const double margin_cm : {5.0, 12.0}) {
        const scene::Scene scene = three(3.0, 3.2);
        AdviceWanted wanted = wanted_for(scene, 10);
        wanted.margin_cm = margin_cm;
        const auto advice = advise(scene, wanted, always);
        REQUIRE(advice);
        REQUIRE_FALSE(advice->answers.empty());
        for (const Answer& answer : advice->answers) {
            scene::Scene held = answer.scene;
            held.focus = scene::FocusAtDistance{answer.view.lens.focus_m};
            for (std::size_t i = 0; i < scene.people.size(); ++i) {
                CHECK(answer.margins[i].front_m >= 0.01 * margin_cm - 1e-9);
                CHECK(answer.margins[i].back_m >= 0.01 * margin_cm - 1e-9);
                for (const double by_m : {-0.01 * margin_cm, 0.01 * margin_cm}) {
                    scene::Scene drifted = held;
                    drifted.people[i].place.back_m += by_m;
                    CHECK(all_hold(drifted, answer.view.lens.f_number));
                    drifted.focus = answer.scene.focus;
                    CHECK(all_hold(drifted, answer.view.lens.f_number));
                }
            }
        }
    }
}

TEST_CASE("a margin costs aperture", "[plan][property]") {
    const scene::Scene scene = three(3.0, 3.3);
    AdviceWanted wanted = wanted_for(scene, 0);
    const auto statues = advise(scene, wanted, always);
    wanted.margin_cm = 5;
    const auto people = advise(scene, wanted, always);
    REQUIRE((statues && people && !statues->answers.empty() && !people->answers.empty()));
    CHECK(widest(statues->answers) < widest(people->answers));
}

// The blur of the background falls as the focus goes back, so of all the focus distances at this
// opening the nearest that holds is wanted.
TEST_CASE("of the focus distances that hold, the nearest is taken", "[plan][property]") {
    const scene::Scene scene = three(3.0, 3.6);
    const auto advice = advise(scene, wanted_for(scene, 0), always);
    REQUIRE(advice);
    REQUIRE_FALSE(advice->answers.empty());
    const Answer& answer = advice->answers.front();
    REQUIRE(std::holds_alternative<scene::FocusAtDistance>(answer.scene.focus));
    scene::Scene nearer = answer.scene;
    nearer.focus = scene::FocusAtDistance{answer.view.lens.focus_m - 0.0015};
    CHECK_FALSE(all_hold(nearer, answer.view.lens.f_number));
}

TEST_CASE("no more people move than may be asked", "[plan][property]") {
    std::vector<scene::Person> people;
    for (int i = 0; i < 9; ++i)
        people.push_back(with_eye_at(std::string(1, static_cast<char>('A' + i)), 3.0 + 0.1 * i,
                                     -1.7 + 0.43 * i));
    scene::Scene scene = level_scene(people);
    scene.camera.focal_length_mm = 28;
    AdviceWanted wanted = wanted_for(scene, 20);
    wanted.grade = optics::Grade::crisp;
    std::size_t most = 0;
    for (const std::optional<int> most_movers :
         {std::optional<int>{}, std::optional{0}, std::optional{1}, std::optional{9}}) {
        wanted.most_movers = most_movers;
        const auto advice = advise(scene, wanted, always);
        REQUIRE(advice);
        REQUIRE_FALSE(advice->answers.empty());
        std::size_t movers = 0;
        for (const Answer& answer : advice->answers)
            movers = std::max(movers, answer.moves.size());
        CHECK(movers <= static_cast<std::size_t>(most_movers.value_or(3)));
        most = std::max(most, movers);
    }
    CHECK(most > 3);
}

// Two bodies cannot stand closer than their chests are deep, but these two do already.
TEST_CASE("whoever holds each other closer than bodies keep apart may come closer still",
          "[plan][regression]") {
    const std::vector<scene::Person> embraced{somebody("Amara", {}),
                                              somebody("Joon", {.across_m = 0.2, .back_m = 0.12})};
    bool found = false;
    for (const RoomBetween& room : rooms_between(embraced, 30))
        if (room.front == 0 && room.behind == 1) {
            CHECK(room.room_cm >= 12);
            found = true;
        }
    CHECK(found);
    std::vector<scene::Person> apart = embraced;
    apart[1].place.back_m = 0.6;
    for (const RoomBetween& room : rooms_between(apart, 60))
        if (room.front == 0 && room.behind == 1)
            CHECK(room.room_cm < 60);
}

// 50 mm hold with the background most blurred of these by 85; 300 mm cut everybody's heads off.
TEST_CASE("of each lens carried it is said what became of it", "[plan][property]") {
    const scene::Scene scene = three(3.0, 3.1);
    AdviceWanted wanted = wanted_for(scene, 0);
    wanted.lenses = {scene_lens(scene),
                     {.focal_length_mm = 55, .widest_f_number = 1.2},
                     {.focal_length_mm = 300, .widest_f_number = 8},
                     {.focal_length_mm = 24, .widest_f_number = 16}};
    wanted.narrowest_f_number = 16;
    const auto advice = advise(scene, wanted, always);
    REQUIRE(advice);
    REQUIRE(advice->lenses.size() == 4);
    std::vector<int> told(advice->answers.size());
    for (std::size_t i = 0; i < 4; ++i) {
        const LensOutcome& outcome = advice->lenses[i];
        CHECK(outcome.lens == wanted.lenses[i]);
        CHECK(outcome.is_perfect);
        for (const std::size_t index : outcome.answers) {
            CHECK(advice->answers[index].view.lens.focal_length_mm == outcome.lens.focal_length_mm);
            CHECK(outcome.best->background_percent >=
                  advice->answers[index].background.percent_of_height);
            ++told[index];
        }
    }
    CHECK(std::ranges::all_of(told, [](int times) { return times == 1; }));
    CHECK_FALSE(advice->lenses[0].answers.empty());
    CHECK(advice->lenses[2].answers.empty());
    CHECK_FALSE(advice->lenses[2].best);
}

TEST_CASE(
    "through a lens with a profile of its own the answer says so, and else takes it as perfect",
    "[plan][property]") {
    scene::Scene scene = three(3.0, 3.1);
    scene.lens = {.profile = optics::LensProfile{.widest_f_number = 1.2, .spherical_dpt = 0.02},
                  .profile_file = "own.toml"};
    const CarriedLens own = scene_lens(scene);
    CHECK(with_lens(scene, own).lens.profile);
    CarriedLens other{.focal_length_mm = 55, .widest_f_number = 1.4};
    CHECK_FALSE(with_lens(scene, other).lens.profile);
    CHECK_FALSE(with_lens(scene, {.focal_length_mm = 50, .widest_f_number = 1.0}).lens.profile);
    AdviceWanted wanted = wanted_for(scene, 0);
    wanted.lenses = {other};
    const auto perfect = advise(scene, wanted, always);
    REQUIRE((perfect && !perfect->answers.empty()));
    CHECK(std::ranges::count(values_for(scene, perfect->answers[0]), "lens.profile=\"\"") == 1);
    other.profile = optics::LensProfile{.widest_f_number = 1.4};
    other.profile_file = "other.toml";
    wanted.lenses = {other};
    const auto known = advise(scene, wanted, always);
    REQUIRE((known && !known->answers.empty()));
    CHECK(std::ranges::count(values_for(scene, known->answers[0]), "lens.profile=\"other.toml\"") ==
          1);
}

TEST_CASE("advice stops when it is told to", "[plan][property]") {
    const scene::Scene scene = three();
    CHECK_FALSE(advise(scene, wanted_for(scene, 10), [](double /*share*/) { return false; }));
}

}  // namespace backrow::plan
