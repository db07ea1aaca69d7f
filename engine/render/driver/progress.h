#pragma once

// How long work tells how far it has come, and learns that nobody waits for it any more.

#include "base/problem.h"

#include <functional>
#include <variant>

namespace backrow::render {

/// Told the share of the work done, 0 … 1, often; returns false to stop.
using Progress = std::function<bool(double done)>;

/// Progress said stop: no failure, and nothing came of it.
struct Stopped {};

/// Why there is nothing.
using Unfinished = std::variant<MachineFailure, Stopped>;

/// A value, unless the machine cannot make it or nobody waited for it.
template <class T>
using Finished = tl::expected<T, Unfinished>;

}  // namespace backrow::render
