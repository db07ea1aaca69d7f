#pragma once

// --box X,Y,W,H: a place in a picture, in its pixels.

#include "measure/pixel_box.h"
#include "photographs/frame.h"

#include "base/problem.h"

#include <CLI/CLI.hpp>

#include <string>
#include <vector>

/// Declares --box on a verb, repeatable.
void add_boxes(CLI::App& verb, std::vector<backrow::measure::PixelBox>& boxes,
               const std::string& description);

/// One problem for each box that does not lie within the frame.
[[nodiscard]] std::vector<backrow::Problem>
boxes_outside(const std::vector<backrow::measure::PixelBox>& boxes,
              const backrow::photographs::Frame& frame);

/// "100,80,60,120": as it was typed.
[[nodiscard]] std::string to_words(const backrow::measure::PixelBox& box);
