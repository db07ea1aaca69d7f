#include "rehearsal/sitting/two_states.h"

#include "rehearsal/told/differences.h"

#include "plan/comparing/background.h"
#include "plan/faces/worst_face.h"

#include "optics/exposure/stops.h"

#include <cassert>
#include <cmath>
#include <utility>

namespace backrow::rehearsal {
namespace {

Standing standing_of(const scene::Scene& scene) {
    const scene::CameraView view = camera_view(scene);
    return rehearsal::standing_of(scene, view, plan::face_table(scene, view));
}

}  // namespace

Checked<void> TwoStates::exchange(EditedScene& edited) {
    assert(kept_);
    Kept present{edited.text(), edited.scene()};
    if (auto taken = edited.take_text("Take what was kept", kept_->text); !taken)
        return taken;
    kept_ = std::move(present);
    return {};
}

Standing standing_of(const scene::Scene& scene, const scene::CameraView& view,
                     const plan::FaceTable& table) {
    Standing standing;
    for (const plan::Face& face : table.faces)
        ++standing.faces_of_grade[static_cast<std::size_t>(face.grade)];
    standing.worst = plan::worst_face(table.faces);
    standing.worst_face = table.faces[standing.worst];
    standing.background_percent = plan::background(scene, view).percent_of_height;
    return standing;
}

Comparison compare(const scene::Scene& before, const scene::Scene& after, Units units) {
    const double stops_lost = optics::stops_between(before.camera.f_number, after.camera.f_number);
    const double stops_given = std::log2(after.camera.shutter_s * after.camera.iso /
                                         (before.camera.shutter_s * before.camera.iso)) +
                               before.camera.filter_stops - after.camera.filter_stops;
    return {.differences = differences(before, after, units),
            .stops_lost = stops_lost,
            .stops_darker = stops_lost - stops_given,
            .before = standing_of(before),
            .after = standing_of(after)};
}

}  // namespace backrow::rehearsal
