#pragma once

// What Debian's lens database (liblensfun, data under CC BY-SA 3.0) knows of a lens: its focal
// length, how far it opens and closes, and what it loses of the light towards the corners. It knows
// nothing of sharpness. Optional when the program is built.

#include "optics/lens/lens_profile.h"

#include "base/problem.h"

#include <tl/expected.hpp>

#include <string>
#include <vector>

namespace backrow::scene_file {

/// Whether the program was built with it.
[[nodiscard]] bool has_lens_database() noexcept;

struct NotInDatabase {
    std::string what;
    std::string mend;
};

/// name  as the database has it, maker and model, or enough of it to mean one lens; a zoom is taken
///       at its longest
///
/// returns  no errors but those of the light, as far as it has any of full frame (36 × 24 mm);
///          widest_f_number is 0 where it does not have that
[[nodiscard]] tl::expected<optics::LensProfile, NotInDatabase>
find_in_database(const std::string& name);

/// Names of the lenses whose light it knows, in no order; none without it.
[[nodiscard]] std::vector<std::string> lenses_in_database();

}  // namespace backrow::scene_file
