// backrow inspect: whether every face is sharp in frames that were taken.

#include "box_argument.h"
#include "choice.h"
#include "console.h"
#include "output_file.h"
#include "scene_arguments.h"
#include "verbs.h"

#include "inspection/face_region.h"
#include "inspection/find_heads.h"
#include "inspection/inspection.h"
#include "photographs/frame.h"
#include "render/faces/face_crop.h"
#include "report/inspection/inspection_report.h"
#include "scene/camera_view.h"
#include "scene/words.h"
#include "scene_file/reading/read_scene.h"

#include "base/image_files.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <system_error>
#include <variant>
#include <vector>

namespace {

using namespace backrow;
namespace fs = std::filesystem;

struct InspectArguments {
    std::vector<std::string> paths;
    std::vector<measure::PixelBox> heads;
    std::string scene;
    scene::Use use = scene::Use::album;
    std::string sheet;
    std::string person;
    TableFormat format = TableFormat::text;
};

inspection::Viewing viewing_of(scene::Use use) {
    const scene::Viewing viewing = scene::viewing_for(use);
    const auto* print = std::get_if<optics::PrintViewing>(&viewing);
    return print != nullptr ? inspection::Viewing{*print} : std::nullopt;
}

/// Files as they are named, and of a folder the photographs in it by their names.
Checked<std::vector<std::string>> images_of(const std::vector<std::string>& paths) {
    std::vector<std::string> images;
    std::vector<Problem> problems;
    for (const std::string& path : paths) {
        std::error_code failed;
        if (!fs::is_directory(path, failed)) {
            images.push_back(path);
            continue;
        }
        std::vector<std::string> inside;
        for (fs::directory_iterator entry{path, failed}, end; !failed && entry != end;
             entry.increment(failed))
            if (entry->is_regular_file(failed) &&
                !entry->path().filename().string().starts_with('.') &&
                photographs::is_frame_name(entry->path().string()))
                inside.push_back(entry->path().string());
        if (inside.empty())
            problems.push_back({.where = {.file = path},
                                .what = failed ? "this folder cannot be read"
                                               : "there is no photograph in this folder",
                                .mend = "name a folder with PNG or JPEG files"});
        std::ranges::sort(inside);
        images.insert(images.end(), inside.begin(), inside.end());
    }
    if (!problems.empty())
        return tl::unexpected(problems);
    return images;
}

/// Heads with their names, where somebody has said so.
struct Heads {
    std::vector<measure::PixelBox> boxes;
    std::vector<std::string> names;
};

/// Where a scene has everybody's head, in pixels of a frame of this width.
Heads heads_of(const scene::Scene& scene, int width_px) {
    const scene::CameraView view = camera_view(scene);
    const render::CropRect whole = render::whole_frame(view, width_px);
    const double scale = width_px / whole.width_px;
    Heads heads;
    for (const scene::Person& person : scene.people)
        if (const auto crop = render::face_crop(view, person, 0)) {
            const auto px = [&](double length) {
                return static_cast<int>(std::lround(std::clamp(length * scale, -1e6, 1e6)));
            };
            heads.boxes.push_back(
                {px(crop->left_px), px(crop->top_px), px(crop->width_px), px(crop->height_px)});
            heads.names.push_back(person.name);
        }
    return heads;
}

bool has_shape_of(const photographs::Frame& frame, const scene::Scene& scene) {
    const render::CropRect whole = render::whole_frame(camera_view(scene), frame.light.width_px());
    return std::abs(whole.height_texels - frame.light.height_px()) * 50 <= frame.light.height_px();
}

Heads heads_in(const photographs::Frame& frame, const InspectArguments& arguments,
               const std::optional<scene::Scene>& scene) {
    if (scene)
        return heads_of(*scene, frame.shown.width_px());
    if (!arguments.heads.empty())
        return {.boxes = arguments.heads, .names = {}};
    return {.boxes = inspection::find_heads(frame.shown), .names = {}};
}

Image<Rgb8> cut_out(const Image<Rgb8>& shown, const measure::PixelBox& head) {
    const int left = std::max(0, head.left);
    const int top = std::max(0, head.top);
    const int right = std::min(shown.width_px(), head.left + head.width_px);
    const int bottom = std::min(shown.height_px(), head.top + head.height_px);
    if (right <= left || bottom <= top)
        return {};
    Image<Rgb8> part(right - left, bottom - top);
    for (int y = top; y < bottom; ++y)
        for (int x = left; x < right; ++x)
            part.at(x - left, y - top) = shown.at(x, y);
    return part;
}

/// All faces of whoever was asked for, or else of whom is least sharp in the best frame; the frames
/// are read once more, for all of them would not fit into memory.
Checked<Image<Rgb8>> sheet_of(const inspection::Inspection& found, const std::string& wanted) {
    std::string person = wanted;
    if (person.empty()) {
        const auto any = std::ranges::find_if(
            found.frames, [](const inspection::Frame& frame) { return !frame.faces.empty(); });
        person = (found.best ? found.frames[*found.best] : *any).faces.front().person;
    }
    std::vector<report::FrameCutout> cutouts;
    for (const inspection::Frame& frame : found.frames)
        for (const inspection::FrameFace& face : frame.faces) {
            if (face.person != person)
                continue;
            const auto photograph =
                photographs::read_frame(frame.image, photographs::Encoding::srgb);
            if (!photograph)
                return tl::unexpected(photograph.error());
            cutouts.push_back({frame.image, face, cut_out(photograph->shown, face.head),
                               cut_out(photograph->shown, inspection::both_eyes(face.head))});
        }
    if (cutouts.empty())
        return tl::unexpected(std::vector<Problem>{
            {.where = {},
             .what = fmt::format("there is no face of `{}` in these frames", person),
             .mend = "--person takes a number or a name out of the table"}});
    return person_sheet(person, cutouts);
}

ExitCode inspect(const InspectArguments& arguments) {
    if (!arguments.scene.empty() && !arguments.heads.empty())
        return console::refuse_command("--box and --scene both say where heads are; give one");
    if (!arguments.person.empty() && arguments.sheet.empty())
        return console::refuse_command("--person says whose faces --sheet OUT.png has; give both");
    std::optional<scene::Scene> scene;
    if (!arguments.scene.empty()) {
        auto read = scene_file::read_scene(arguments.scene, {});
        if (!read)
            return console::refuse(read.error());
        scene = std::move(*read);
    }
    if (!scene && arguments.heads.empty() && !inspection::heads_can_be_found())
        return console::refuse(
            MachineFailure{"this program was built without what finds faces (Debian's libdlib-dev)",
                           "say where heads are, with --box or --scene"});
    const auto images = images_of(arguments.paths);
    if (!images)
        return console::refuse(images.error());

    // Before the long work, and once more when it is known which files were read.
    const auto check_sheet = [&] { return check({{"--sheet", arguments.sheet, {".png"}}}); };
    if (const ExitCode code = check_sheet(); code != ExitCode::done)
        return code;

    console::listen_for_interrupts();
    std::vector<inspection::Frame> frames;
    std::vector<Problem> problems;
    {
        console::ProgressLine progress{"Inspecting:"};
        for (std::size_t i = 0; i < images->size(); ++i) {
            if (!progress.go_on(static_cast<double>(i) / static_cast<double>(images->size())))
                return console::say_interrupted();
            const auto photograph =
                photographs::read_frame((*images)[i], photographs::Encoding::srgb);
            if (!photograph) {
                problems.insert(problems.end(), photograph.error().begin(),
                                photograph.error().end());
                continue;
            }
            if (scene && !has_shape_of(*photograph, *scene)) {
                problems.push_back({.where = {.file = photograph->file},
                                    .what = "the picture has another shape than the scene's",
                                    .mend = "give the frame uncropped, or say where heads are with "
                                            "--box"});
                continue;
            }
            if (!problems.empty())
                continue;  // only to say at once what else is wrong
            const Heads heads = heads_in(*photograph, arguments, scene);
            frames.push_back(inspection::inspect_frame(photograph->file, photograph->shown,
                                                       heads.boxes, heads.names));
        }
    }
    if (problems.empty() &&
        std::ranges::all_of(frames, [](const auto& frame) { return frame.faces.empty(); }))
        problems.push_back({.where = {.file = images->front()},
                            .what = "no face was found",
                            .mend = "say where heads are, with --box or --scene"});
    if (!problems.empty())
        return console::refuse(problems);
    if (const ExitCode code = check_sheet(); code != ExitCode::done)
        return code;

    report::InspectionReport report{
        .inspection = inspection::compared(std::move(frames), viewing_of(arguments.use)),
        .use = std::string{scene::word_for(scene::words::use, arguments.use)}};
    Bytes sheet;
    if (!arguments.sheet.empty()) {
        const auto drawn = sheet_of(report.inspection, arguments.person);
        if (!drawn)
            return console::refuse(drawn.error());
        sheet = png_bytes(*drawn);
    }
    return console::deliver(arguments.sheet, sheet,
                            in_format(arguments.format, report, report::inspection_text,
                                      report::inspection_json, report::inspection_csv));
}

}  // namespace

void add_inspect(CLI::App& program, ExitCode& result) {
    auto* verb = program.add_subcommand("inspect", "Which faces are sharp in frames that were "
                                                   "taken");
    verb->footer("Example: backrow inspect frames --sheet eyes.png --person 3");
    const auto arguments = std::make_shared<InspectArguments>();
    verb->add_option("IMAGE", arguments->paths,
                     "Frames of one group, PNG or JPEG, or folders of them")
        ->required();
    add_boxes(*verb, arguments->heads,
              "A head, chin to crown and ear to ear, in pixels of the upright picture, instead of "
              "looking for faces; repeatable");
    verb->add_option("--scene", arguments->scene,
                     "The scene that was rehearsed: heads are where it has them");
    add_choice<scene::Use>(*verb, "--use", arguments->use,
                           {scene::words::use.begin(), scene::words::use.end()},
                           "How the picture will be looked at");
    add_output_file(*verb, "--sheet", arguments->sheet,
                    "All faces of one person across the frames, at 100 %, and their eyes larger",
                    "OUT.png");
    verb->add_option(
            "--person", arguments->person,
            "Whose faces the sheet has, by the table; by default whoever is least sharp in "
            "the best frame")
        ->type_name("WHO");
    add_format(*verb, arguments->format);
    verb->callback([arguments, &result] { result = inspect(*arguments); });
}
