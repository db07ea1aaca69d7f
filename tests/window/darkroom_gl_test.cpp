#include "window/pictures/darkroom.h"
#include "window/pictures/printer.h"

#include "awaited.h"
#include "two_people.h"

#include <atomic>
#include <condition_variable>
#include <mutex>
#include <thread>

using namespace backrow;
using namespace backrow::window;

namespace {

/// Whoever stands before the darkroom's door.
class Waiting {
public:
    void wake() {
        const std::scoped_lock held{lock_};
        ++woken_;
        called_.notify_all();
    }
    /// Collects, again and again, until what was collected satisfies.
    template <class Enough>
    void collect(Darkroom& darkroom, const Enough& enough) {
        for (;;) {
            int seen = 0;
            {
                const std::scoped_lock held{lock_};
                seen = woken_;
            }
            if (enough(darkroom.collect()))
                return;
            REQUIRE_FALSE(darkroom.failure());
            std::unique_lock held{lock_};
            REQUIRE(called_.wait_for(held, patience, [&] { return woken_ > seen; }));
        }
    }
    [[nodiscard]] int woken() {
        const std::scoped_lock held{lock_};
        return woken_;
    }

private:
    std::mutex lock_;
    std::condition_variable called_;
    int woken_ = 0;
};

Order order_of(const scene::Scene& scene, int edition) {
    const auto view = camera_view(scene);
    return {.scene = std::make_shared<const scene::Scene>(scene),
            .edition = edition,
            .part = render::whole_frame(view, 120),
            .faces = {1, 0},
            .face_width_texels = 40,
            .face_height_texels = 30};
}

}  // namespace

TEST_CASE("the window's finished picture is the preview's, also of somebody who was led about",
          "[window][property]") {
    Waiting waiting;
    Darkroom darkroom{[&] { waiting.wake(); }};
    int edition = 0;
    for (const double back_m : {0.8, 0.5}) {
        const scene::Scene scene = two_people(back_m);
        const Order order = order_of(scene, ++edition);
        darkroom.order(order);
        bool was_quick = false;
        Image<Rgb8> finished;
        std::map<std::size_t, Print> faces;
        std::map<std::size_t, FaceMeasures> measures;
        waiting.collect(darkroom, [&](Prints prints) {
            CHECK(prints.complaint.empty());
            if (prints.picture && prints.picture->edition == edition) {
                if (!prints.picture->is_finished())
                    was_quick = true;
                else
                    finished = std::move(prints.picture->pixels);
            }
            for (auto& [face, print] : prints.faces)
                if (print.edition == edition && print.is_finished())
                    faces[face] = std::move(print);
            for (const auto& [face, measure] : prints.measures)
                if (measure.edition == edition)
                    measures[face] = measure;
            return !finished.empty() && faces.size() == 2 && measures.size() == 2 &&
                   prints.work == Work::none;
        });
        CHECK(was_quick);
        CHECK(finished.pixels() == previewed(scene, order.part, enough_db).pixels());
        CHECK(faces.at(0).pixels.width_px() == 40);
        CHECK(faces.at(1).pixels.height_px() == 30);
        CHECK(measures.at(0).visible_fraction > 0.9);
        // In focus; and half a metre and more behind it, blurred.
        CHECK(measures.at(0).blur_px.value() < measures.at(1).blur_px.value());
    }
}

// The driver is asked for more than there is on the darkroom's own thread, where it calls.
TEST_CASE("what the driver has no memory for is told, and the next order is worked on again",
          "[window][property]") {
    constexpr std::size_t more_than_there_is = std::size_t{1} << 46;
    Waiting waiting;
    std::atomic<bool> asks_for_too_much = false;
    Darkroom darkroom{[&] {
        if (asks_for_too_much.exchange(false))
            const auto never = render::make_buffer({}, nullptr, more_than_there_is, "too much");
        waiting.wake();
    }};
    const Order order = order_of(two_people(), 1);
    const auto finished = [](const Prints& prints) {
        return prints.picture && prints.picture->is_finished() && prints.complaint.empty();
    };
    darkroom.order(order);
    waiting.collect(darkroom, finished);
    asks_for_too_much = true;
    darkroom.order(order);
    waiting.collect(darkroom, [](const Prints& prints) {
        return prints.complaint == to_line(too_little_memory()) && prints.work == Work::none;
    });
    darkroom.order(order);
    waiting.collect(darkroom, finished);
}

// The picture is one of 30 megapixels, minutes of work without a graphics card and, at the pace of
// the quick pictures, hundreds of calls. Closed, the darkroom finishes a step, a second or two.
TEST_CASE("a darkroom that is closed stops its work and wakes nobody any more",
          "[window][property]") {
    using Clock = std::chrono::steady_clock;
    Waiting waiting;
    Clock::time_point closed;
    {
        Darkroom darkroom{[&] { waiting.wake(); }};
        Order order = order_of(two_people(), 1);
        order.part.width_texels *= 56;
        order.part.height_texels *= 56;
        darkroom.order(order);
        waiting.collect(darkroom, [](const Prints& prints) { return prints.work != Work::none; });
        closed = Clock::now();
    }
    CHECK(Clock::now() - closed < std::chrono::seconds{20});
    const int then = waiting.woken();
    CHECK(then > 0);
    // Anything that still went on would call within this time: light and passes do so every 50 ms.
    std::this_thread::sleep_for(std::chrono::milliseconds{500});
    CHECK(waiting.woken() == then);
}
