#include "face_tables.h"

#include "console.h"

ExitCode print_faces(const backrow::report::FaceReport& report, TableFormat format) {
    switch (format) {
    case TableFormat::text:
        return console::print(faces_text(report));
    case TableFormat::json:
        return console::print(faces_json(report));
    case TableFormat::csv:
        return console::print(faces_csv(report));
    }
    return ExitCode::done;
}
