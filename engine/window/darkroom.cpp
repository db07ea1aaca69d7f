#include "window/darkroom.h"

#include "window/pace.h"

#include "plan/metering.h"
#include "render/face_window.h"
#include "render/live_studio.h"
#include "render/one_moves.h"
#include "render/sample_choice.h"
#include "scene/camera_view.h"
#include "scene/stage_change.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <condition_variable>
#include <deque>
#include <exception>
#include <mutex>
#include <set>
#include <thread>
#include <utility>

namespace backrow::window {
namespace {

using Clock = std::chrono::steady_clock;

double seconds_since(Clock::time_point start) {
    return std::chrono::duration<double>(Clock::now() - start).count();
}

// At fifteen pictures a second there are 66 ms for each, at sixty 16, and the window takes its share.
constexpr double budget_on_processor_s = 0.055;
constexpr double budget_on_card_s = 0.011;
// A hand that rests this long is given better pictures, though it has not let go.
constexpr std::chrono::milliseconds rest{150};
// A picture of fewer points than this looks worse than the quick one that it would replace.
constexpr int fewest_worth_showing = 8;
constexpr double between_prints_s = 0.35;
constexpr int passes_of_quick_face = 4;
// While one person is led about.
constexpr int passes_with_one_moving = 8;
constexpr double scale_on_processor = 0.5;

/// Who alone is different; nothing where nobody is or more than one.
std::optional<std::size_t> only_mover(const scene::Scene& before, const scene::Scene& after) {
    if (before.people.size() != after.people.size() || !same_surroundings(before, after))
        return std::nullopt;
    std::optional<std::size_t> mover;
    for (std::size_t i = 0; i < after.people.size(); ++i) {
        if (before.people[i] == after.people[i])
            continue;
        if (mover)
            return std::nullopt;
        mover = i;
    }
    return mover;
}

/// Whether every point lands in the same place and as blurred.
bool same_view(const scene::CameraView& one, const scene::CameraView& other) {
    return one.position_m == other.position_m && one.forward == other.forward &&
           one.focal_length_mm == other.focal_length_mm && one.f_number == other.f_number &&
           one.focus_m == other.focus_m && one.sensor_width_mm == other.sensor_width_mm &&
           one.width_px == other.width_px;
}

}  // namespace

// Shared by both threads, under the lock.
struct Darkroom::Desk {
    explicit Desk(std::function<void()> wake_) : wake{std::move(wake_)} {}

    std::function<void()> wake;
    std::mutex lock;
    std::condition_variable something_to_do;
    std::optional<Order> next;
    bool closing = false;
    std::optional<MachineFailure> failure;
    Prints prints;
    std::thread thread;

    [[nodiscard]] bool is_wanted_elsewhere() {
        const std::scoped_lock held{lock};
        return closing || next.has_value();
    }
    [[nodiscard]] bool is_closing() {
        const std::scoped_lock held{lock};
        return closing;
    }
    template <class Change> void publish(const Change& change) {
        {
            const std::scoped_lock held{lock};
            change(prints);
        }
        wake();
    }
};

namespace {

/// The thread's own side.
class Printer {
public:
    Printer(render::LiveStudio studio, std::function<bool()> is_wanted_elsewhere,
            std::function<bool()> is_closing,
            std::function<void(const std::function<void(Prints&)>&)> publish)
        : studio_{std::move(studio)}, is_wanted_elsewhere_{std::move(is_wanted_elsewhere)},
          is_closing_{std::move(is_closing)}, publish_{std::move(publish)},
          pace_{studio_.gl().on_processor ? budget_on_processor_s : budget_on_card_s} {}

    void begin(Order order) {
        begun_ = Clock::now();
        const bool other_scene = !order_.scene || order.edition != order_.edition;
        const bool other_faces = order.face_width_texels != order_.face_width_texels ||
                                 order.face_height_texels != order_.face_height_texels;
        const std::optional<std::size_t> mover =
            order_.scene && order.in_hand ? only_mover(*order_.scene, *order.scene) : std::nullopt;
        const scene::CameraView view = camera_view(*order.scene);
        const bool goes_on = mover && mover == mover_ && same_view(view, view_) &&
                             order.part == order_.part;
        if (!goes_on)
            one_moves_.reset();
        mover_ = order_.scene && same_view(view, view_) ? mover : std::nullopt;
        order_ = std::move(order);
        view_ = view;
        gain_stops_ =
            plan::stops_shown(order_.scene->camera, plan::metering(*order_.scene, view_));
        if (other_scene)
            studio_.follow(*order_.scene, view_);
        picture_.reset();
        quick_due_ = true;
        if (other_scene || other_faces)
            all_faces_due();
        else
            keep_order_of_faces();
    }

    /// One piece of work, short but for the light. Whether there is more.
    bool step() {
        if (!studio_.shows_all() && refused_edition_ != order_.edition)
            return build(render::LightCare::rough);
        if (!studio_.has_stage())
            return false;
        if (quick_due_)
            return quick_picture();
        if (!quick_faces_.empty())
            return quick_face();
        if (!studio_.is_current() && refused_edition_ != order_.edition)
            return build(render::LightCare::full);
        if (!to_measure_.empty())
            return measure_face();
        if (!picture_ || !picture_->complete())
            return refine_picture();
        if (!faces_to_finish_.empty())
            return finish_face();
        publish_([](Prints& prints) { prints.work = Work::none; });
        return false;
    }

    [[nodiscard]] bool owes_quick_picture() const noexcept { return quick_due_; }

private:
    void all_faces_due() {
        quick_faces_.assign(order_.faces.begin(), order_.faces.end());
        faces_to_finish_ = quick_faces_;
        to_measure_ = quick_faces_;
    }

    // The most urgent first, as ordered now; what was done stays done.
    void keep_order_of_faces() {
        for (std::deque<std::size_t>* due : {&quick_faces_, &faces_to_finish_, &to_measure_}) {
            const std::set<std::size_t> still(due->begin(), due->end());
            due->clear();
            std::ranges::copy_if(order_.faces, std::back_inserter(*due),
                                 [&](std::size_t face) { return still.contains(face); });
        }
    }

    // A single point goes through the middle of the lens: anywhere else it would shift the background.
    [[nodiscard]] render::LensSamples few_samples(int passes) const {
        const auto choice = render::with_passes({.passes = passes, .fine_samples = 64}, passes);
        render::LensSamples samples =
            render::make_lens_samples(choice.passes, choice.fine_samples, view_.blades);
        if (passes == 1)
            samples.coarse.front().zone_x = samples.coarse.front().zone_y = 0;
        return samples;
    }

    [[nodiscard]] render::Studio studio() const { return studio_.studio(gain_stops_); }

    [[nodiscard]] render::Accumulation exposure(const render::FrameWindow& part,
                                                const render::LensSamples& samples) const {
        const render::Studio here = studio();
        return {here.gl, here.programs, here.stage, here.lighting,
                view_,   part,          samples,    here.light_gain};
    }

    [[nodiscard]] Print print_of(const render::Accumulation& exposed,
                                 const render::FrameWindow& part) const {
        return {.pixels = exposed.developed(),
                .edition = order_.edition,
                .part = part,
                .samples = exposed.samples(),
                .samples_wanted = exposed.samples_wanted()};
    }

    bool quick_picture() {
        if (mover_)
            return picture_of_mover();
        const auto start = Clock::now();
        render::FrameWindow part = order_.part;
        part.width_texels = std::max(16, static_cast<int>(part.width_texels * pace_.scale()));
        part.height_texels = std::max(16, static_cast<int>(part.height_texels * pace_.scale()));
        const int passes = pace_.passes();
        render::Accumulation exposed = exposure(part, few_samples(passes));
        glFinish();
        const double before_s = seconds_since(start);
        exposed.add(passes);
        glFinish();
        const double passes_s = seconds_since(start) - before_s;
        Print print = print_of(exposed, part);
        print.samples_wanted = print.samples + 1;  // it is never the last
        pace_.note(passes, passes_s, seconds_since(start) - passes_s);
        publish_([&](Prints& prints) {
            prints.picture = std::move(print);
            prints.work = Work::exposing;
            prints.share = 0;
        });
        quick_due_ = false;
        return true;
    }

    // Everybody else is drawn in the first pictures of the movement, a few points of the lens in each.
    bool picture_of_mover() {
        const auto start = Clock::now();
        const double scale = studio_.gl().on_processor ? scale_on_processor : 1.0;
        render::FrameWindow part = order_.part;
        part.width_texels = std::max(16, static_cast<int>(part.width_texels * scale));
        part.height_texels = std::max(16, static_cast<int>(part.height_texels * scale));
        if (!one_moves_)
            one_moves_.emplace(studio(), view_, part, few_samples(passes_with_one_moving),
                               static_cast<int>(*mover_));
        constexpr int fewest = 2;
        while (one_moves_->kept() < one_moves_->wanted() &&
               (one_moves_->kept() < fewest || seconds_since(start) < pace_.budget_s() / 4)) {
            one_moves_->keep_more();
            glFinish();
        }
        const int passes = std::min(one_moves_->kept(), mover_passes_);
        Print print{.pixels = one_moves_->picture(passes),
                    .edition = order_.edition,
                    .part = part,
                    .samples = passes,
                    .samples_wanted = passes + 1};
        const double share_of_budget = seconds_since(begun_) / pace_.budget_s();
        if (share_of_budget > 0.95)
            mover_passes_ = std::max(2, passes - 1);
        else if (share_of_budget < 0.75)
            mover_passes_ = std::min(passes_with_one_moving, passes + 1);
        publish_([&](Prints& prints) {
            prints.picture = std::move(print);
            prints.work = Work::exposing;
            prints.share = 0;
        });
        quick_due_ = false;
        return true;
    }

    [[nodiscard]] std::optional<render::FrameWindow> face_part(std::size_t face) const {
        return render::eyes_window(view_, order_.scene->people[face], order_.face_width_texels,
                                   order_.face_height_texels);
    }

    void publish_face(std::size_t face, Print print) {
        publish_([&](Prints& prints) { prints.faces[face] = std::move(print); });
    }

    bool quick_face() {
        const std::size_t face = quick_faces_.front();
        quick_faces_.pop_front();
        if (const auto part = face_part(face)) {
            render::Accumulation exposed = exposure(*part, few_samples(passes_of_quick_face));
            exposed.add(passes_of_quick_face);
            Print print = print_of(exposed, *part);
            print.samples_wanted = print.samples + 1;
            publish_face(face, std::move(print));
        }
        return true;
    }

    bool finish_face() {
        const std::size_t face = faces_to_finish_.front();
        if (const auto part = face_part(face)) {
            render::Accumulation exposed = exposure(*part, samples_for(*part));
            while (!exposed.complete()) {
                exposed.add(4);
                glFinish();
                if (is_wanted_elsewhere_())
                    return true;
            }
            publish_face(face, print_of(exposed, *part));
        }
        faces_to_finish_.pop_front();
        return true;
    }

    [[nodiscard]] render::LensSamples samples_for(const render::FrameWindow& part) const {
        return render::lens_samples_for(studio_.stage(), studio_.on_gpu(), view_, part,
                                        render::Quality::fine, 0);
    }

    bool refine_picture() {
        if (!picture_) {
            picture_.emplace(exposure(order_.part, samples_for(order_.part)));
            last_print_ = Clock::now();
        }
        const auto start = Clock::now();
        do {
            picture_->add(1);
            glFinish();
        } while (!picture_->complete() && seconds_since(start) < pace_.budget_s());
        const bool worth_showing =
            picture_->samples() >= std::min(fewest_worth_showing, picture_->samples_wanted()) &&
            seconds_since(last_print_) > between_prints_s;
        const double share =
            static_cast<double>(picture_->samples()) / picture_->samples_wanted();
        std::optional<Print> print;
        if (worth_showing || picture_->complete()) {
            print = print_of(*picture_, order_.part);
            last_print_ = Clock::now();
        }
        publish_([&](Prints& prints) {
            prints.work = Work::exposing;
            prints.share = share;
            if (print)
                prints.picture = std::move(print);
        });
        return true;
    }

    bool measure_face() {
        const std::size_t face = to_measure_.front();
        to_measure_.pop_front();
        const scene::Person& person = order_.scene->people[face];
        const auto blur = studio_.probe().measure(studio_.gl(), view_, samples_for(order_.part),
                                                  nearer_eye_m(view_, person));
        FaceMeasures measures{.edition = order_.edition,
                              .blur_px = blur ? std::optional{blur->value} : std::nullopt,
                              .visible_fraction = studio_.visibility().visible_fraction(
                                  studio_.gl(), studio_.on_gpu(), view_, person,
                                  static_cast<int>(face))};
        publish_([&](Prints& prints) { prints.measures[face] = measures; });
        return true;
    }

    // The first stage is finished whatever is ordered meanwhile: without one there is no picture.
    bool build(render::LightCare care) {
        picture_.reset();
        one_moves_.reset();
        const bool is_first = !studio_.has_stage();
        auto last_told = Clock::now();
        const auto built = studio_.build(care, [&](double done) {
            if (seconds_since(last_told) > 0.05) {
                last_told = Clock::now();
                publish_([&](Prints& prints) {
                    prints.work = Work::lighting;
                    prints.share = done;
                });
            }
            return !(is_first ? is_closing_() : is_wanted_elsewhere_());
        });
        if (!built || !*built) {
            refused_edition_ = order_.edition;
            const std::string line =
                !built ? to_line(built.error().front()) : to_line(built->error());
            publish_([&](Prints& prints) {
                prints.complaint = line;
                prints.work = Work::none;
            });
            return studio_.has_stage();
        }
        if (**built) {
            quick_due_ = care == render::LightCare::rough;
            all_faces_due();
            publish_([](Prints& prints) { prints.complaint.clear(); });
        }
        return true;
    }

    render::LiveStudio studio_;
    std::function<bool()> is_wanted_elsewhere_;
    std::function<bool()> is_closing_;
    std::function<void(const std::function<void(Prints&)>&)> publish_;
    Pace pace_;

    Order order_;
    scene::CameraView view_;
    double gain_stops_ = 0;
    bool quick_due_ = false;
    std::optional<render::Accumulation> picture_;
    std::optional<std::size_t> mover_;  ///< Who alone moves, while a hand moves them …
    std::optional<render::OneMoves> one_moves_;  ///< … and all the rest.
    int mover_passes_ = passes_with_one_moving;
    Clock::time_point begun_;  ///< With the order.
    Clock::time_point last_print_;
    std::deque<std::size_t> quick_faces_;
    std::deque<std::size_t> faces_to_finish_;
    std::deque<std::size_t> to_measure_;
    int refused_edition_ = -1;
};

}  // namespace

Darkroom::Darkroom(std::function<void()> wake) : desk_{std::make_unique<Desk>(std::move(wake))} {
    desk_->thread = std::thread{[desk = desk_.get()] {
        try {
            auto studio = render::LiveStudio::open();
            if (!studio) {
                {
                    const std::scoped_lock held{desk->lock};
                    desk->failure = studio.error();
                }
                desk->wake();
                return;
            }
            desk->publish([&](Prints& prints) { prints.driver = studio->gl().driver; });
            Printer printer{std::move(*studio), [desk] { return desk->is_wanted_elsewhere(); },
                            [desk] { return desk->is_closing(); },
                            [desk](const std::function<void(Prints&)>& change) {
                                desk->publish(change);
                            }};
            bool more = false;
            bool in_hand = false;
            std::unique_lock held{desk->lock};
            const auto is_told = [&] { return desk->closing || desk->next.has_value(); };
            for (;;) {
                if (!more)
                    desk->something_to_do.wait(held, is_told);
                else if (in_hand && !printer.owes_quick_picture())
                    desk->something_to_do.wait_for(held, rest, is_told);
                if (desk->closing)
                    return;
                if (std::optional<Order> order = std::exchange(desk->next, std::nullopt)) {
                    in_hand = order->in_hand;
                    held.unlock();
                    printer.begin(std::move(*order));
                } else {
                    in_hand = in_hand && printer.owes_quick_picture();
                    held.unlock();
                }
                more = printer.step();
                held.lock();
            }
        } catch (const std::exception& error) {
            desk->publish([&](Prints& prints) {
                prints.complaint = std::string{"no more pictures: "} + error.what();
            });
        }
    }};
}

Darkroom::~Darkroom() {
    {
        const std::scoped_lock held{desk_->lock};
        desk_->closing = true;
    }
    desk_->something_to_do.notify_all();
    desk_->thread.join();
}

void Darkroom::order(Order order) {
    {
        const std::scoped_lock held{desk_->lock};
        desk_->next = std::move(order);
    }
    desk_->something_to_do.notify_all();
}

std::optional<MachineFailure> Darkroom::failure() const {
    const std::scoped_lock held{desk_->lock};
    return desk_->failure;
}

Prints Darkroom::collect() {
    const std::scoped_lock held{desk_->lock};
    Prints collected = std::exchange(desk_->prints, Prints{});
    desk_->prints.work = collected.work;
    desk_->prints.share = collected.share;
    desk_->prints.driver = collected.driver;
    desk_->prints.complaint = collected.complaint;
    return collected;
}

}  // namespace backrow::window
