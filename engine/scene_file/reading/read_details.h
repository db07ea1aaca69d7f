#pragma once

// One [[person]] as written: everything but where the row stands.

#include "scene/scene.h"
#include "scene_file/toml/table_reader.h"

#include <string>
#include <vector>

namespace backrow::scene_file {

/// What [[person]] says, not yet put into a row.
struct Details {
    scene::FromMark offset;
    figures::BodyMeasures measures;
    figures::Pose pose;
    figures::Styling styling;
    scene::Gaze gaze = scene::GazeAtCamera{};
    double speed_mps = 0;
    double heading_deg = 0;
    std::string carried_by{};  ///< A name; empty for nobody.
    Place carried_by_at{};
    scene::Company company{};
    std::vector<Place> with_at{};  ///< One for each of company.with.
    Place name;
};

/// Complains about everything wrong in the table, unknown keys among it. The name is the caller's.
[[nodiscard]] Details read_details(TableReader& table);

}  // namespace backrow::scene_file
