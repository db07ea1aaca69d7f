#pragma once

// The face table on standard output in the format that was asked for.

#include "exit_code.h"
#include "scene_arguments.h"

#include "report/faces/face_report.h"

[[nodiscard]] ExitCode print_faces(const backrow::report::FaceReport& report, TableFormat format);
