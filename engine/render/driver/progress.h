#pragma once

// How long work tells how far it has come, and learns that nobody waits for it any more.

#include <functional>

namespace backrow::render {

/// Told the share of the work done, 0 … 1, often; returns false to stop.
using Progress = std::function<bool(double done)>;

}  // namespace backrow::render
