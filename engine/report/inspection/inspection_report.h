#pragma once

// Inspected frames as text to read, JSON and CSV to work on, and all faces of one person on a
// sheet.

#include "inspection/inspection.h"

#include "base/image.h"

#include <string>
#include <vector>

namespace backrow::report {

struct InspectionReport {
    inspection::Inspection inspection;
    std::string use;  ///< "album": how the picture will be looked at.
};

/// For each frame its faces, the least sharp first; the best frame, and whose head from another
/// frame would mend it. Ends with a line break.
[[nodiscard]] std::string inspection_text(const InspectionReport& report);

/// One JSON object with the documented keys. Ends with a line break.
[[nodiscard]] std::string inspection_json(const InspectionReport& report);

/// A heading and one record a face.
[[nodiscard]] std::string inspection_csv(const InspectionReport& report);

/// A face out of a frame, pixel by pixel, and its eyes by themselves.
struct FrameCutout {
    std::string image;
    inspection::FrameFace face;
    Image<Rgb8> pixels;
    Image<Rgb8> eyes;
};

/// One person's faces across the frames, in the order given, with the eyes of each so large that
/// they can be judged.
[[nodiscard]] Image<Rgb8> person_sheet(const std::string& person,
                                       const std::vector<FrameCutout>& faces);

}  // namespace backrow::report
