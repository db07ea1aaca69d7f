#include "face_tables.h"

#include "console.h"

ExitCode print_faces(const backrow::report::FaceReport& report, TableFormat format) {
    return console::print(in_format(format, report, backrow::report::faces_text,
                                    backrow::report::faces_json, backrow::report::faces_csv));
}
