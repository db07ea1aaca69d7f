#pragma once

// Where the window's pictures are made: a thread of its own with a context of its own, so that
// hands never wait for it. It is told what to show and always works on the last order: first a
// quick picture, then everybody's face, then light where something moved, then more and more points
// of the lens, until nothing is left to do and it sleeps.

#include "window/pictures/prints.h"

#include "base/problem.h"

#include <functional>
#include <memory>
#include <optional>

namespace backrow::window {

class Darkroom {
public:
    /// wake  called from the darkroom's thread whenever there is something to collect
    explicit Darkroom(std::function<void()> wake);
    ~Darkroom();
    Darkroom(const Darkroom&) = delete;
    Darkroom& operator=(const Darkroom&) = delete;

    void order(Order order);
    [[nodiscard]] Prints collect();
    /// Why there will be no pictures at all; nothing where there is no such reason.
    [[nodiscard]] std::optional<MachineFailure> failure() const;

    struct Desk;  ///< Shared with the thread; of no use to anybody else.

private:
    std::unique_ptr<Desk> desk_;
};

}  // namespace backrow::window
