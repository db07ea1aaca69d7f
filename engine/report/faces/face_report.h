#pragma once

// The face table as text to read, JSON and CSV to work on. `preview` adds what it measured in the
// picture; `faces` has no picture and leaves that out.

#include "plan/faces/face_table.h"
#include "plan/faces/sharpness.h"
#include "plan/faces/whole_group.h"
#include "scene/scene.h"

#include "base/length_words.h"

#include <optional>
#include <string>
#include <vector>

namespace backrow::report {

/// How the picture was made, where one was.
struct RenderFacts {
    int width_px = 0;
    int height_px = 0;
    int samples = 0;
    int least_samples_measured = 0;  ///< With fewer points of the lens no blur is measured.
    /// How much brighter than metered the picture is shown, stops; none for one without light.
    std::optional<double> stops_shown = 0.0;
    double seconds = 0;        ///< For the picture itself, …
    double light_seconds = 0;  ///< … before it for driver, programs and light, …
    double faces_seconds = 0;  ///< … and after it for measures and sheet of the faces.
    std::string driver{};      ///< Of OpenGL, in its own words.
};

/// What was made and measured in the picture.
struct Rendered {
    RenderFacts facts;
    /// One for each face of the table, camera pixels; none where the face could not be measured.
    std::vector<std::optional<double>> measured_blur_px;
};

struct FaceReport {
    plan::FaceTable table;
    scene::Camera camera;
    scene::Viewing viewing;
    /// Where somebody is cut: what would bring everybody in.
    std::optional<plan::WholeGroup> whole_group{};
    std::optional<Rendered> rendered;
    /// One for each face of the table, or none at all.
    std::vector<std::optional<plan::Sharpness>> sharpness{};
    bool tells_lens = false;  ///< In the text: what of a blur is the lens's, and the sharpness.
    std::optional<std::string> lens_note{};  ///< perfect_lens_sentence()
    Units units = Units::metric;             ///< Of the text.
};

/// Of this table, which is that of the scene seen so; nothing is drawn yet.
///
/// tells_lens  even where nothing is known of the lens
[[nodiscard]] FaceReport face_report(const scene::Scene& scene, const scene::CameraView& view,
                                     const plan::FaceTable& table, Units units,
                                     bool tells_lens = false);

/// Title, camera, focus and zone, one line a face, what the grades mean here, and at the end which
/// face is worst and by how much. Ends with a line break.
[[nodiscard]] std::string faces_text(const FaceReport& report);

/// One JSON object with the documented keys in their documented order. Without a picture `render`
/// and `measured_blur_px` are absent. null stands for what has no number: `far_limit_m` at
/// infinity, `view_arcmin` where pixels are judged one by one, the blur of somebody behind the
/// lens, a face that could not be measured. Ends with a line break.
[[nodiscard]] std::string faces_json(const FaceReport& report);

/// A heading and one record a face, with the keys of the JSON as columns; what is null there is
/// empty here.
[[nodiscard]] std::string faces_csv(const FaceReport& report);

}  // namespace backrow::report
