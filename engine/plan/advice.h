#pragma once

// Settings and small moves that keep every face within the wanted grade, with the background as
// blurred as can be.
//
// What is searched, exactly: every lens carried, every third stop that it has, every whole
// centimetre of distance, focus on everybody's nearer eye in turn or somewhere between, and moves
// forward or back of whole centimetres. DEVELOPERS.md says why none of them is missed.

#include "plan/background.h"
#include "plan/face_table.h"
#include "scene/scene.h"

#include "optics/payment.h"
#include "optics/viewing.h"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace backrow::plan {

struct CarriedLens {
    double focal_length_mm = 50;
    double widest_f_number = 1.2;
};

struct AdviceWanted {
    optics::Grade grade = optics::Grade::fine;  ///< crisp or fine.
    std::vector<CarriedLens> lenses{};          ///< At least one, scene_lens() if in doubt.
    double narrowest_f_number = 16;
    int most_move_cm = 30;        ///< ≥ 0
    double least_distance_m = 0;  ///< Lens to the mark; the scene's own is always tried too.
    double greatest_distance_m = 0;
    bool after_crop =
        false;  ///< The grade must hold once the group fills the frame as it does now.
};

/// The lens of the scene. Nobody says how far it opens but its profile and the f-number that is
/// set: the wider of the two.
[[nodiscard]] CarriedLens scene_lens(const scene::Scene& scene);

struct Move {
    std::string name;
    int back_cm = 0;
    bool is_raised = false;  ///< Stands above the ground.
};

/// How a picture from elsewhere or through another lens compares with the scene's.
struct Framing {
    double size = 1;  ///< Heads in the frame against now, mean.
    double crop = 1;  ///< ≥ 1: what restores the present framing, as a factor.
    double restoring_focal_length_mm = 0;  ///< What would restore it without a crop.
};

/// One answer, as the real scene with these settings and moves has it.
struct Answer {
    scene::Scene scene;
    scene::CameraView view;
    FaceTable table;
    std::vector<Leeway> leeways;  ///< Within the wanted grade.
    std::vector<Move> moves;      ///< Only who moves.
    std::size_t worst = 0;        ///< Index of the most blurred face.
    double worst_share = 0;       ///< Of the wanted grade's limit; after the crop where asked for.
    Background background;
    Framing framing;
    double stops_lost = 0;  ///< Against the scene's f-number; negative where gained.
    optics::Payment payment{};

    [[nodiscard]] int moved_cm() const;  ///< Sum of all moves' sizes.
};

struct Advice {
    std::vector<Answer> answers;  ///< Most background blur first; empty where nothing is possible.
    std::optional<Answer> nearest;  ///< Then: the least worst blur.
};

/// share  0 … 1; returns whether to go on
using GoOn = std::function<bool(double share)>;

/// Nothing where it was told to stop.
[[nodiscard]] std::optional<Advice> advise(const scene::Scene& scene, const AdviceWanted& wanted,
                                           const GoOn& go_on);

}  // namespace backrow::plan
