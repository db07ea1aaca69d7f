#pragma once

// The same scene at several apertures, from several places: what each of these frames has in it.
// Every frame is focused and aimed anew as the scene says.

#include "plan/comparing/cautions.h"
#include "plan/faces/face_table.h"
#include "plan/faces/whole_group.h"
#include "scene/camera_view.h"
#include "scene/scene.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace backrow::plan {

/// Where the camera stands, and with which lens.
struct StripPlace {
    double lens_to_mark_m = 0;
    double focal_length_mm = 0;  ///< Any but the scene's own is a perfect lens.
};

/// The faces that lie whole in the frame, by the most blurred of them; with several alike, the
/// first.
struct WorstInFrame {
    std::size_t person = 0;  ///< Index in Scene::people.
    Face face;
};

struct StripFrame {
    scene::CameraView view;
    std::optional<WorstInFrame> worst{};  ///< None where nobody's face lies whole in the frame.
    std::size_t faces_in_frame = 0;
    std::vector<Face> faces{};           ///< Of everybody.
    double background_percent = 0;       ///< Background::percent_of_height (background.h).
    optics::ExposureSetting exposure{};  ///< right_exposure() (metering.h).
    double stops_lost =
        0;  ///< By the opening, against the scene's own f-number; negative where brighter.
};

struct Strip {
    std::vector<StripPlace> places;
    std::vector<double> f_numbers;
    std::vector<Caution> cautions{};   ///< Of going to the places and of the mends, each once.
    std::vector<StripFrame> frames{};  ///< All apertures of the first place, then of the next …
    /// What would bring in whom the frame cuts, mend_framing(): one for each place, since no
    /// aperture cuts anybody.
    std::vector<std::optional<WholeGroup>> whole_groups{};

    [[nodiscard]] const StripFrame& frame(std::size_t place, std::size_t aperture) const {
        return frames[place * f_numbers.size() + aperture];
    }
};

/// The apertures where the user names none: the scene's own and the next three whole stops down;
/// where the marks end before, whole stops wider instead, but none wider than a profile opens. What
/// is nearer than about two thirds of a stop to the scene's own is passed over. Ascending.
[[nodiscard]] std::vector<double> strip_f_numbers(const scene::Scene& scene);

/// So many pictures are worth leafing through.
inline constexpr std::size_t least_leaves = 3;
inline constexpr std::size_t most_leaves = 7;

/// The apertures that show what stopping down is good for: whole stops from the widest opening that
/// is known of the lens to the first third stop at which every face is fine, the scene's own among
/// them. Where everybody is fine as it is, those of strip_f_numbers() too; where nothing will do,
/// to f/22 or where the lens ends. Ascending; most_leaves at most, fewer than least_leaves only of
/// a lens that has no more.
[[nodiscard]] std::vector<double> f_numbers_until_fine(const scene::Scene& scene);

/// places     nobody nearer than scene::nearest_person_m, and the focus beyond the focal length
/// f_numbers  none wider than the profile of a lens that has one
[[nodiscard]] Strip strip(const scene::Scene& scene, const std::vector<StripPlace>& places,
                          const std::vector<double>& f_numbers);

}  // namespace backrow::plan
