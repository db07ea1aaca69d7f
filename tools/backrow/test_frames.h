#pragma once

// Test frames named on the command line, and their edges.

#include "report/lens/edge_report.h"

#include "measure/pixel_box.h"

#include "base/problem.h"

#include <CLI/CLI.hpp>

#include <optional>
#include <string>
#include <vector>

struct TestFrames {
    std::vector<std::string> images;
    std::vector<backrow::measure::PixelBox> boxes;
    bool is_linear = false;

    /// Declares the images, --box and --linear on a verb.
    void add_to(CLI::App& verb);
    /// Reads and measures them, with progress.
    ///
    /// returns  nothing where it was interrupted
    [[nodiscard]] backrow::Checked<std::optional<std::vector<backrow::report::FrameEdges>>>
    measured() const;
};
