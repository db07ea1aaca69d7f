// Advice on the demo scenes against grids that try everything, worked out here from the blur of
// each eye alone.

#include "plan/advice/advice.h"

#include "plan/advice/room_between.h"
#include "plan/faces/head_in_picture.h"
#include "scene/judged_blur.h"
#include "scene_file/reading/read_scene.h"

#include "optics/stops.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <string>
#include <vector>

namespace backrow::plan {
namespace {

constexpr std::array demo_scenes{"couple", "choir", "steps", "reunion"};
constexpr double third_stop = 1.1224620483;  // 2^(1/6), as a ratio of f-numbers.

scene::Scene demo(const std::string& name) {
    auto scene =
        scene_file::read_scene(std::string{BACKROW_SOURCE_DIR "/scenes/"} + name + ".toml");
    REQUIRE(scene);
    return *scene;
}

Advice advice_on(const scene::Scene& scene, const AdviceWanted& wanted) {
    auto advice = advise(scene, wanted, [](double /*share*/) { return true; });
    REQUIRE(advice);
    REQUIRE_FALSE(advice->answers.empty());
    return *advice;
}

std::vector<double> f_numbers_of(const scene::Scene& scene) {
    std::vector<double> f_numbers{scene_lens(scene).widest_f_number};
    for (const double mark : optics::marked_f_numbers())
        if (mark > f_numbers.front() && mark <= 16)
            f_numbers.push_back(mark);
    return f_numbers;
}

/// The largest blur of all eyes against what is allowed.
double worst_share(Viewpoint at, double f_number, double focus_m, double limit_mm) {
    at.view.lens.focus_m = focus_m;
    return most_blurred(at, f_number).blur_mm / limit_mm;
}

/// Every centimetre from a little before the first eye to a little behind the last, and the eyes.
std::vector<double> foci_m(const Viewpoint& at, double step_m) {
    std::vector<double> foci;
    double near_m = at.eyes.front().axial_m, far_m = near_m;
    for (const optics::PointInView& eye : at.eyes) {
        foci.push_back(eye.axial_m);
        near_m = std::min(near_m, eye.axial_m);
        far_m = std::max(far_m, eye.axial_m);
    }
    for (double focus_m = near_m - 0.2; focus_m < far_m + 0.2; focus_m += step_m)
        foci.push_back(focus_m);
    return foci;
}

struct Tried {
    double f_number = 0;
    double focus_m = 0;  ///< The evenest.
};

/// The widest third stop at which any focus holds.
std::optional<Tried> widest_by_trying(const scene::Scene& scene, optics::Grade grade,
                                      double step_m) {
    const Viewpoint at = viewpoint(scene);
    const double limit_mm = blur_limit_mm(grade, scene.viewing, at.view);
    for (const double f_number : f_numbers_of(scene)) {
        double least = 1;
        std::optional<Tried> found;
        for (const double focus_m : foci_m(at, step_m)) {
            const double share = worst_share(at, f_number, focus_m, limit_mm);
            if (share <= least) {
                least = share;
                found = Tried{.f_number = f_number, .focus_m = focus_m};
            }
        }
        if (found)
            return found;
    }
    return std::nullopt;
}

const Answer& widest(const Advice& advice) {
    return *std::ranges::min_element(
        advice.answers, {}, [](const Answer& answer) { return answer.scene.camera.f_number; });
}

/// The scene with each row as far back as told; whoever stands in none stays.
scene::Scene with_rows_moved(scene::Scene scene, const std::vector<int>& rows_cm) {
    for (scene::Person& person : scene.people)
        if (person.row >= 0)
            person.place.back_m += 0.01 * rows_cm[static_cast<std::size_t>(person.row)];
    return scene;
}

/// Calls with every choice of moves for this many rows.
template <typename Visit>
void for_all_row_moves(std::size_t rows, int most_cm, int step_cm, Visit visit) {
    std::vector<int> cm(rows, -most_cm);
    for (;;) {
        visit(cm);
        std::size_t i = 0;
        while (i < rows && cm[i] + step_cm > most_cm)
            cm[i++] = -most_cm;
        if (i == rows)
            return;
        cm[i] += step_cm;
    }
}

}  // namespace

// Focus in centimetres. The advice may be wider by what a focus between the centimetres gains, and
// focuses evenly to the millimetre: within a third of a stop and within a centimetre.
TEST_CASE("on the demo scenes no opening and focus on a grid does better than the advice",
          "[plan][property]") {
    for (const char* name : demo_scenes)
        for (const optics::Grade grade : {optics::Grade::fine, optics::Grade::crisp}) {
            const scene::Scene scene = demo(name);
            const Advice advice = advice_on(
                scene, {.grade = grade, .lenses = {scene_lens(scene)}, .most_move_cm = 0});
            const auto tried = widest_by_trying(scene, grade, 0.01);
            REQUIRE(tried);
            const Answer& answer = widest(advice);
            CAPTURE(name, tried->f_number, tried->focus_m, answer.view.lens.focus_m);
            CHECK(answer.view.lens.f_number <= tried->f_number);
            CHECK(answer.view.lens.f_number * third_stop > tried->f_number / 1.01);
            const Viewpoint at = viewpoint(scene);
            CHECK(worst_share(at, answer.view.lens.f_number, answer.view.lens.focus_m,
                              blur_limit_mm(grade, scene.viewing, at.view)) <= 1);
            if (answer.view.lens.f_number == tried->f_number &&
                std::holds_alternative<scene::FocusAtDistance>(answer.scene.focus))
                CHECK(std::abs(answer.view.lens.focus_m - tried->focus_m) <= 0.01);
        }
}

// Half a metre either way in steps of five centimetres, focus in two. Heads that are whole in the
// frame must stay so. What a grid could win by not focusing evenly is less than a third of a stop.
TEST_CASE("on the demo scenes no distance on a grid blurs the background more than the advice",
          "[plan][property]") {
    for (const char* name : demo_scenes) {
        const scene::Scene scene = demo(name);
        const double here_m = scene.camera.lens_to_mark_m;
        const Advice advice = advice_on(scene, {.lenses = {scene_lens(scene)},
                                                .most_move_cm = 0,
                                                .least_distance_m = here_m - 0.5,
                                                .greatest_distance_m = here_m + 0.5});
        const FaceTable now = face_table(scene, camera_view(scene));
        double best_percent = 0;
        for (int cm = -50; cm <= 50; cm += 5) {
            scene::Scene there = scene;
            there.camera.lens_to_mark_m = here_m + 0.01 * cm;
            const Viewpoint at = viewpoint(there);
            bool all_framed = true;
            for (std::size_t i = 0; i < there.people.size(); ++i)
                all_framed =
                    all_framed &&
                    (!now.faces[i].in_frame ||
                     whole_head_in_picture(at.view, scene::reference_points(there.people[i])));
            const double limit_mm = blur_limit_mm(optics::Grade::fine, scene.viewing, at.view);
            for (const double f_number : f_numbers_of(scene))
                for (const double focus_m : foci_m(at, 0.02))
                    if (all_framed && worst_share(at, f_number, focus_m, limit_mm) <= 1)
                        best_percent =
                            std::max(best_percent, background_percent(at, f_number, focus_m));
        }
        CAPTURE(name);
        REQUIRE(best_percent > 0);
        CHECK(advice.answers.front().background.percent_of_height >= best_percent / third_stop);
    }
}

// Whole rows in steps of ten centimetres, where there is room. To move everybody alone can only do
// better than to move rows.
TEST_CASE("on the demo scenes no moves of whole rows allow a wider opening than the advice",
          "[plan][property]") {
    constexpr int most_cm = 30;
    for (const char* name : {"choir", "steps"}) {
        const scene::Scene scene = demo(name);
        const Advice advice = advice_on(scene, {.grade = optics::Grade::crisp,
                                                .lenses = {scene_lens(scene)},
                                                .most_move_cm = most_cm});
        int rows = 0;
        for (const scene::Person& person : scene.people)
            rows = std::max(rows, person.row + 1);
        const auto rooms = rooms_between(scene.people, most_cm);
        const auto free = free_ranges(scene, most_cm);
        double f_number = 1000;
        for_all_row_moves(static_cast<std::size_t>(rows), most_cm, 10,
                          [&](const std::vector<int>& rows_cm) {
                              const auto moved_cm = [&](std::size_t i) {
                                  const int row = scene.people[i].row;
                                  return row < 0 ? 0 : rows_cm[static_cast<std::size_t>(row)];
                              };
                              for (const RoomBetween& room : rooms)
                                  if (moved_cm(room.behind) - moved_cm(room.front) < -room.room_cm)
                                      return;
                              for (std::size_t i = 0; i < free.size(); ++i)
                                  if (moved_cm(i) < free[i].from_cm || moved_cm(i) > free[i].to_cm)
                                      return;
                              if (const auto tried = widest_by_trying(
                                      with_rows_moved(scene, rows_cm), optics::Grade::crisp, 0.05))
                                  f_number = std::min(f_number, tried->f_number);
                          });
        CAPTURE(name);
        REQUIRE(f_number < 1000);
        CHECK(widest(advice).view.lens.f_number <= f_number);
    }
}

}  // namespace backrow::plan
