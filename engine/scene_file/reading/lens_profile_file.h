#pragma once

// A lens profile as a small TOML file: how a real lens departs from the perfect one.
//
//     title                   = "Old portrait"          # optional, as all but widest_f_number
//     origin                  = "measured on our own"
//     date                    = 2026-05-31
//     focal_length_mm         = 85
//     widest_f_number         = 1.4
//     smallest_f_number       = 16
//     spherical_dpt           = 0.02                    # at the edge of the widest opening
//     field_curvature_dpt     = -0.03                   # in the corner of the picture
//     astigmatism_dpt         = 0.02
//     coma_dpt                = 0.01
//     longitudinal_colour_dpt = [-0.01, 0.0, 0.01]
//     vignetting              = 1.1
//     natural_falloff         = 0.6
//     focus_offset_dpt        = 0.003
//     blades                  = 9
//     roundness               = 0.5
//     database                = "Maker 85mm f/1.4"      # light and openings from Debian's database
//     measured_pixel_mm       = 0.006                   # in what was measured; none: lens alone
//
//     [[measured]]                                      # as many as were measured
//     f_number        = 1.4
//     image_height    = 0.5
//     mtf50_cy_per_mm = 31.0

#include "optics/fitting/profile_fit.h"
#include "optics/lens/lens_profile.h"

#include "base/problem.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace backrow::scene_file {

/// Sharpness that somebody measured: the spatial frequency at which half of the contrast is left.
struct MeasuredSharpness {
    double f_number = 0;
    double image_height = 0;  ///< 0 centre … 1 corner.
    double mtf50_cy_per_mm = 0;

    bool operator==(const MeasuredSharpness&) const = default;
};

struct NamedLensProfile {
    std::string title{};
    std::string origin{};  ///< Whose lens it is, and how its numbers came about.
    std::string date{};    ///< "2026-05-31"; empty where nobody said.
    optics::LensProfile profile{};
    std::vector<MeasuredSharpness> measured{};
    double measured_pixel_mm = 0;  ///< 0: what was measured is the lens's alone.
    /// Where the file has measurements and none of the four errors: how they were found from these.
    std::optional<optics::ProfileFit> fit{};
    std::string database{};  ///< The name by which the lens database fills in what is not said.
};

/// The profile, or every problem found; line 0 where the file could not be opened.
[[nodiscard]] Checked<NamedLensProfile> read_lens_profile(const std::string& path);

/// Whether a scene, a bag or --lens means one of the program's own lenses: a word without a stroke
/// or a dot.
[[nodiscard]] bool names_own_lens(std::string_view named) noexcept;

/// The one of them for whoever has not measured theirs.
inline constexpr std::string_view usual_lens = "typical-fast-prime";

/// The names of the program's own lenses, in the order of the alphabet.
[[nodiscard]] std::vector<std::string> own_lenses();

/// The profile that is named so: one of the program's own, or a file, from this folder.
///
/// errors  as of read_lens_profile(); also, with line 0, that the program has no such lens
[[nodiscard]] Checked<NamedLensProfile> read_named_lens(const std::string& named,
                                                        const std::string& folder);

}  // namespace backrow::scene_file
