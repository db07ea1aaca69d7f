#pragma once

// One piece of advice, put into the scene and read off it.

#include "plan/advice/advice_moves.h"
#include "plan/advice/advice_wanted.h"
#include "plan/comparing/background.h"
#include "plan/comparing/cautions.h"
#include "plan/comparing/viewpoint.h"
#include "plan/faces/face_table.h"
#include "scene/scene.h"

#include <string>
#include <vector>

namespace backrow::plan {

struct Move {
    std::string name;
    int back_cm = 0;
};

/// How a picture from elsewhere or through another lens compares with the scene's.
struct Framing {
    double size = 1;  ///< Heads in the frame against now, mean.
    double crop = 1;  ///< ≥ 1: what restores the present framing, as a factor.
    double restoring_focal_length_mm = 0;  ///< What would restore it without a crop.
};

struct Answer {
    scene::Scene scene;  ///< With these settings and moves, exposed for the light.
    scene::CameraView view;
    FaceTable table;
    std::vector<Margin> margins;  ///< Within the wanted grade.
    std::vector<Move> moves;      ///< Only who moves.
    std::size_t lens = 0;         ///< Index in AdviceWanted::lenses.
    std::size_t worst = 0;        ///< worst_face() of the table.
    double worst_share =
        0;  ///< Largest blur of all, of the wanted grade's limit; after the crop where asked for.
    double drifted_share = 0;  ///< The same once anybody has drifted by the margin, the worst way.
    Background background;
    Framing framing;
    std::vector<Caution> cautions;  ///< Against the scene as it is.
    double stops_lost = 0;          ///< By the opening, against the scene's; negative where gained.

    [[nodiscard]] int moved_cm() const;  ///< Sum of all moves' sizes.
};

/// Chin to crown in camera pixels, the mean of everybody.
[[nodiscard]] double mean_head_px(const scene::Scene& scene);

/// now  the scene as it is, for what the answer costs
[[nodiscard]] Answer realised(const scene::Scene& now, const AdviceWanted& wanted,
                              const Viewpoint& at, double f_number, const Stance& stance);

/// What turns the scene into the answer's, as for --set: exposure and lens profile included.
[[nodiscard]] std::vector<std::string> values_for(const scene::Scene& now, const Answer& answer);

/// Whether every face is within the grade, and stays so when anybody drifts by the margin.
[[nodiscard]] bool holds(const Answer& answer, const AdviceWanted& wanted);

/// Whether every face is seen whole (verdict.h), and none shows less than nine tenths of itself
/// that showed more.
///
/// now  the face table of the scene as it is
[[nodiscard]] bool keeps_faces_in_sight(const Answer& answer, const FaceTable& now);

/// The answers worth telling: most background blur first, without those that ask for more than
/// another does and give nothing for it, and no more than a handful.
[[nodiscard]] std::vector<Answer> ranked(std::vector<Answer> pool);

}  // namespace backrow::plan
