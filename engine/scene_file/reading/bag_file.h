#pragma once

// What a photographer carries: lenses and bodies, in a small TOML file of their own.
//
//     [[lens]]
//     name            = "the long one"   # optional; else "85 mm f/1.8"
//     focal_length_mm = 85.0
//     widest_f_number = 1.8
//     profile         = "gentle.toml"    # optional; beside this file, or a whole path
//
//     [[body]]
//     name            = "the second"     # optional
//     sensor_mm       = [36.0, 24.0]     # held for landscape
//     pixels          = [6000, 4000]

#include "base/problem.h"

#include <array>
#include <string>
#include <vector>

namespace backrow::scene_file {

struct BagLens {
    std::string name;
    double focal_length_mm = 50;
    double widest_f_number = 1.8;
    std::string profile{};  ///< A file; empty for none.

    bool operator==(const BagLens&) const = default;
};

struct BagBody {
    std::string name;
    std::array<double, 2> sensor_mm{36, 24};
    std::array<double, 2> pixels{6000, 4000};

    bool operator==(const BagBody&) const = default;
};

struct Bag {
    std::vector<BagLens> lenses;
    std::vector<BagBody> bodies;

    bool operator==(const Bag&) const = default;
};

/// "85 mm f/1.8"
[[nodiscard]] std::string usual_name(const BagLens& lens);
/// "36 × 24 mm, 24 megapixels"
[[nodiscard]] std::string usual_name(const BagBody& body);

/// Nobody has to have one: where there is no file, three lenses and two bodies that many carry
/// (common practice, no source).
///
/// errors  every problem found in a file that is there
[[nodiscard]] Checked<Bag> read_bag(const std::string& path);

/// The text of the file; what its owner had written round the values goes.
[[nodiscard]] std::string bag_toml(const Bag& bag);

}  // namespace backrow::scene_file
