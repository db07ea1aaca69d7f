#include "window/pictures/darkroom.h"

#include "window/pictures/printer.h"

#include "render/studio/live_studio.h"

#include <chrono>
#include <condition_variable>
#include <exception>
#include <mutex>
#include <thread>
#include <utility>

namespace backrow::window {
namespace {

// A hand that rests this long is given better pictures, though it has not let go.
constexpr std::chrono::milliseconds rest{150};

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
    void fail(const MachineFailure& why) {
        {
            const std::scoped_lock held{lock};
            failure = why;
        }
        wake();
    }
    template <class Change>
    void publish(const Change& change) {
        {
            const std::scoped_lock held{lock};
            change(prints);
        }
        wake();
    }
};

namespace {

Counter counter_of(Darkroom::Desk& desk) {
    return {
        .is_wanted_elsewhere = [&desk] { return desk.is_wanted_elsewhere(); },
        .is_closing = [&desk] { return desk.is_closing(); },
        .publish = [&desk](const std::function<void(Prints&)>& change) { desk.publish(change); }};
}

/// Works on the last order until the darkroom is closed.
void work(Darkroom::Desk& desk, Printer printer) {
    bool more = false;
    bool in_hand = false;
    std::unique_lock held{desk.lock};
    const auto is_told = [&] { return desk.closing || desk.next.has_value(); };
    for (;;) {
        if (!more)
            desk.something_to_do.wait(held, is_told);
        else if (in_hand && !printer.owes_quick_picture())
            desk.something_to_do.wait_for(held, rest, is_told);
        if (desk.closing)
            return;
        if (std::optional<Order> order = std::exchange(desk.next, std::nullopt)) {
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
}

void open_and_work(Darkroom::Desk& desk) {
    try {
        auto studio = render::LiveStudio::open();
        if (studio)
            work(desk, Printer{std::move(*studio), counter_of(desk)});
        else
            desk.fail(studio.error());
    } catch (const std::exception& error) {
        desk.publish([&](Prints& prints) {
            prints.complaint = std::string{"no more pictures: "} + error.what();
        });
    }
}

}  // namespace

Darkroom::Darkroom(std::function<void()> wake) : desk_{std::make_unique<Desk>(std::move(wake))} {
    desk_->thread = std::thread{[desk = desk_.get()] { open_and_work(*desk); }};
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
    desk_->prints.complaint = collected.complaint;
    return collected;
}

}  // namespace backrow::window
