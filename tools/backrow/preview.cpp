// backrow preview: the picture, the faces at 100 %, the measured table, and files to check it all
// by.

#include "console.h"
#include "face_tables.h"
#include "missing_letters.h"
#include "preview_outputs.h"
#include "rendering_options.h"
#include "scene_arguments.h"
#include "verbs.h"

#include "delivery/preview.h"
#include "plan/faces/face_table.h"
#include "scene_file/reading/read_scene.h"
#include "stage/stage.h"

#include <fmt/format.h>

#include <memory>

namespace {

using namespace backrow;

struct PreviewArguments {
    SceneArguments scene;
    PreviewOutputs outputs;
    int width_texels = 0;  // 0: as usual
    int samples = 0;       // 0: until the picture is good
    render::Quality quality = render::Quality::fine;
    bool flat = false;
};

int width_texels(const PreviewArguments& arguments, const scene::CameraView& view) {
    return arguments.width_texels > 0 ? arguments.width_texels : render::usual_width_texels(view);
}

delivery::PreviewWanted wanted(const PreviewArguments& arguments, const scene::CameraView& view) {
    return {.width_texels = width_texels(arguments, view),
            .samples = arguments.samples,
            .quality = arguments.quality,
            .look = arguments.flat ? render::Look::flat : render::Look::lit,
            .keep_linear =
                arguments.outputs.linear.empty() ? render::KeepLinear::no : render::KeepLinear::yes,
            .faces = arguments.outputs.faces_sheet.empty() ? delivery::FacesWanted::measured
                                                           : delivery::FacesWanted::pictured};
}

ExitCode preview(const PreviewArguments& arguments) {
    console::listen_for_interrupts();
    const auto scene = arguments.scene.read();
    if (!scene)
        return console::refuse(scene.error());
    const std::vector<OutputFile> outputs = files_of(arguments.outputs);
    if (const ExitCode code = check(outputs); code != ExitCode::done)
        return code;
    const scene::CameraView view = camera_view(*scene);
    const int wide_texels = width_texels(arguments, view);
    if (static_cast<double>(wide_texels) * render::height_for_width(view, wide_texels) >
        scene_file::most_megapixels * 1e6)
        return console::refuse_command(fmt::format(
            "--width {} makes a picture of more than {:g} megapixels; choose a smaller one",
            wide_texels, scene_file::most_megapixels));

    const auto stage = stage::build_stage(*scene, view);
    if (!stage)
        return console::refuse(stage.error());
    if (const ExitCode code = check_unread(outputs); code != ExitCode::done)
        return code;
    if (arguments.outputs.with_captions || !arguments.outputs.faces_sheet.empty())
        tell_missing_letters(*scene);
    plan::FaceTable table = plan::face_table(*scene, view);
    console::StepLines lines;
    auto made = make_preview(*scene, view, *stage, wanted(arguments, view), table, lines.follow());
    lines.wipe();
    if (!made)
        return console::refuse(made.error());

    // The table is printed while the files still lie aside, so that an error in either leaves none.
    console::clean_up_when_interrupted();
    PendingFiles files;
    const auto aside = write_aside(
        files, arguments.outputs,
        {.preview = *made, .scene = *scene, .table = table, .stage = *stage, .view = view});
    if (!aside)
        return console::refuse(aside.error());
    report::FaceReport report = report::face_report(*scene, view, table, arguments.scene.units);
    report.rendered = std::move(made->numbers);
    if (const ExitCode printed = print_faces(report, arguments.scene.format);
        printed != ExitCode::done)
        return printed;
    return console::keep(files);
}

}  // namespace

void add_preview(CLI::App& program, ExitCode& result) {
    auto* verb = program.add_subcommand(
        "preview", "The picture, every face at 100 %, and the blur measured at each");
    verb->footer("Example: backrow preview scenes/choir.toml -o choir.png --faces-sheet faces.png");
    const auto arguments = std::make_shared<PreviewArguments>();
    arguments->scene.add_to(*verb);
    arguments->outputs.add_to(*verb);
    verb->add_option("--width", arguments->width_texels,
                     "Width of the picture in pixels; by default 1920 for its long side")
        ->check(CLI::Range(16, 65535));
    add_rendering(*verb, arguments->samples, arguments->quality,
                  "Points of the lens; by default more until the picture is good");
    verb->add_flag("--flat", arguments->flat, "No light: colours as they are, for checking");
    verb->callback([arguments, &result] { result = preview(*arguments); });
}
