// backrow preview: the picture, the faces at 100 %, the measured table, and files to check it all
// by.

#include "choice.h"
#include "console.h"
#include "face_tables.h"
#include "preview_outputs.h"
#include "scene_arguments.h"
#include "verbs.h"

#include "plan/faces/face_table.h"
#include "plan/faces/troubles.h"
#include "plan/faces/verdict.h"
#include "plan/faces/whole_group.h"
#include "render/faces/face_crop.h"
#include "render/faces/face_meter.h"
#include "render/studio/open_studio.h"
#include "report/faces/face_report.h"
#include "report/faces/faces_sheet.h"
#include "report/text/trouble_words.h"
#include "scene_file/reading/read_scene.h"
#include "stage/stage.h"

#include <fmt/format.h>

#include <chrono>
#include <memory>
#include <optional>

namespace {

using namespace backrow;

// Round a face on the sheet, a share of the head's height.
constexpr double sheet_margin = 0.22;

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

double seconds_since(std::chrono::steady_clock::time_point start) {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

// What the renderer answered, before anything is written.
struct Answers {
    render::Picture picture;
    std::vector<report::FacePicture> sheet;
    report::Rendered numbers;
};

render::Finished<Answers> render_all(const PreviewArguments& arguments, const scene::Scene& scene,
                                     const scene::CameraView& view, const stage::Stage& stage,
                                     plan::FaceTable& table) {
    const auto look = arguments.flat ? render::Look::flat : render::Look::lit;
    const auto opened = std::chrono::steady_clock::now();
    const auto open = [&] {
        console::ProgressLine line{"Light and shadow:"};
        return render::OpenStudio::make(stage, look, view.position_m,
                                        [&](double done) { return line.go_on(done); });
    }();
    if (!open)
        return tl::make_unexpected(open.error());
    const render::Gl& gl = open->gl();
    const auto face_meter = render::FaceMeter::make(gl);
    if (!face_meter)
        return tl::make_unexpected(face_meter.error());
    const auto stops_shown = arguments.flat
                                 ? std::nullopt
                                 : std::optional{plan::stops_shown(scene.camera, table.metering)};
    const render::Studio studio = open->studio(stops_shown.value_or(0.0));

    const auto samples_for = [&](const render::CropRect& crop, render::Quality quality) {
        return open->samples_for(view, crop, quality, arguments.samples);
    };

    Answers answers;
    const double light_seconds = seconds_since(opened);
    const auto start = std::chrono::steady_clock::now();
    const auto crop = render::whole_frame(view, width_texels(arguments, view));
    auto samples = samples_for(crop, arguments.quality);
    {
        console::ProgressLine line{"Picture:"};
        auto picture = make_picture(studio, view, crop, samples,
                                    arguments.outputs.linear.empty() ? render::KeepLinear::no
                                                                     : render::KeepLinear::yes,
                                    [&](double done) { return line.go_on(done); });
        if (!picture)
            return tl::make_unexpected(picture.error());
        answers.picture = std::move(*picture);
        samples = render::first_of(samples, answers.picture.passes);
    }
    answers.numbers.facts = {.width_px = crop.width_texels,
                             .height_px = crop.height_texels,
                             .samples = answers.picture.passes,
                             .least_samples_measured = render::least_points_measured,
                             .stops_shown = stops_shown,
                             .seconds = seconds_since(start),
                             .light_seconds = light_seconds,
                             .faces_seconds = 0,
                             .driver = gl.driver};
    const auto faces_begun = std::chrono::steady_clock::now();

    // On the sheet the face counts, not the far larger blur behind it.
    const auto sheet_quality = arguments.quality == render::Quality::reference
                                   ? render::Quality::fine
                                   : render::Quality::draft;
    // The face at 100 %, empty where it lies behind the lens.
    const auto at_full_size =
        [&](const scene::Person& person,
            const render::Progress& progress) -> render::Finished<Image<Rgb8>> {
        const auto at = render::face_crop(view, person, sheet_margin);
        if (!at)
            return Image<Rgb8>{};
        auto picture = make_picture(studio, view, *at, samples_for(*at, sheet_quality),
                                    render::KeepLinear::no, progress);
        if (!picture)
            return tl::make_unexpected(picture.error());
        return std::move(picture->developed);
    };
    console::ProgressLine line{"Faces:"};
    for (std::size_t i = 0; i < scene.people.size(); ++i) {
        const scene::Person& person = scene.people[i];
        plan::Face& face = table.faces[i];
        answers.numbers.measured_blur_px.push_back(face_meter->blur_px(gl, view, samples, person));
        face.visible_fraction =
            face_meter->measured_visible_fraction(gl, open->stage(), view, scene, i);
        if (!arguments.outputs.faces_sheet.empty()) {
            auto pixels = at_full_size(person, [&](double done) {
                return line.go_on((static_cast<double>(i) + done) /
                                  static_cast<double>(scene.people.size()));
            });
            if (!pixels)
                return tl::make_unexpected(pixels.error());
            answers.sheet.push_back({.pixels = std::move(*pixels),
                                     .name = face.name,
                                     .predicted_blur_px = face.predicted_blur_px,
                                     .measured_blur_px = answers.numbers.measured_blur_px.back(),
                                     .verdict = verdict_of(face),
                                     .trouble = report::face_trouble_words(face)});
        }
        if (!line.go_on(static_cast<double>(i + 1) / static_cast<double>(scene.people.size())))
            return tl::make_unexpected(render::Stopped{});
    }
    answers.numbers.facts.faces_seconds = seconds_since(faces_begun);
    return answers;
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
    plan::FaceTable table = plan::face_table(*scene, view);
    auto made = render_all(arguments, *scene, view, *stage, table);
    if (!made)
        return console::refuse(made.error());

    // The table is printed while the files still lie aside, so that an error in either leaves none.
    Answers& answers = *made;
    console::clean_up_when_interrupted();
    PendingFiles files;
    const auto aside = write_aside(files, arguments.outputs,
                                   {.picture = answers.picture,
                                    .sheet = answers.sheet,
                                    .title = scene->title,
                                    .stage = *stage,
                                    .view = view});
    if (!aside)
        return console::refuse(aside.error());
    if (const ExitCode printed = print_faces(
            {.table = table,
             .camera = scene->camera,
             .viewing = scene->viewing,
             .whole_group = plan::mend_framing(*scene, plan::troubles_of(table.faces).cut),
             .rendered = std::move(answers.numbers),
             .units = arguments.scene.units},
            arguments.scene.format);
        printed != ExitCode::done)
        return printed;
    if (const auto kept = files.keep(); !kept)
        return console::refuse(kept.error());
    return ExitCode::done;
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
    verb->add_option("--samples", arguments->samples,
                     "Points of the lens; by default more until the picture is good")
        ->check(CLI::Range(1, 65536));
    add_choice<render::Quality>(*verb, "--quality", arguments->quality,
                                {{"draft", render::Quality::draft},
                                 {"fine", render::Quality::fine},
                                 {"reference", render::Quality::reference}},
                                "How smooth the blur is");
    verb->add_flag("--flat", arguments->flat, "No light: colours as they are, for checking");
    verb->callback([arguments, &result] { result = preview(*arguments); });
}
