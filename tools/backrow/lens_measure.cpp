// backrow lens measure: how sharp a lens is, at slanted edges in frames that were taken with it.

#include "console.h"
#include "lens_verbs.h"
#include "scene_arguments.h"
#include "test_frames.h"

#include "report/lens/edge_report.h"

#include <memory>

namespace {

using namespace backrow;

struct MeasureArguments {
    TestFrames frames;
    TableFormat format = TableFormat::text;
};

ExitCode lens_measure(const MeasureArguments& arguments) {
    const auto frames = arguments.frames.measured();
    if (!frames)
        return console::refuse(frames.error());
    if (!*frames)
        return console::say_interrupted();
    return console::print(in_format(arguments.format, **frames, report::edges_text,
                                    report::edges_json, report::edges_csv));
}

}  // namespace

void add_lens_measure(CLI::App& lens, ExitCode& result) {
    auto* verb =
        lens.add_subcommand("measure", "How sharp a lens is, from slanted edges in test frames");
    verb->footer("Example: backrow lens measure wide-open.png stopped-down.png --format json");
    const auto arguments = std::make_shared<MeasureArguments>();
    arguments->frames.add_to(*verb);
    add_format(*verb, arguments->format);
    verb->callback([arguments, &result] { result = lens_measure(*arguments); });
}
