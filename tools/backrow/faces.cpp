// backrow faces: the predicted face table, no OpenGL.

#include "console.h"
#include "face_tables.h"
#include "scene_arguments.h"
#include "verbs.h"

#include "plan/faces/face_table.h"
#include "scene/camera_view.h"

#include <memory>

namespace {

ExitCode faces(const SceneArguments& arguments, bool sharpness) {
    const auto scene = arguments.read();
    if (!scene)
        return console::refuse(scene.error());
    const auto view = camera_view(*scene);
    const auto table = backrow::plan::face_table(*scene, view);
    return print_faces(
        backrow::report::face_report(*scene, view, table, arguments.units, sharpness),
        arguments.format);
}

}  // namespace

void add_faces(CLI::App& program, ExitCode& result) {
    auto* verb = program.add_subcommand("faces", "How blurred each face will be, predicted");
    verb->footer("Example: backrow faces scenes/choir.toml --set camera.f_number=2.8");
    const auto arguments = std::make_shared<SceneArguments>();
    arguments->add_to(*verb);
    const auto sharpness = std::make_shared<bool>(false);
    verb->add_flag(
        "--sharpness", *sharpness,
        "Tell how sharp detail is, and what of the blur is the lens's, for a perfect lens too");
    verb->callback([arguments, sharpness, &result] { result = faces(*arguments, *sharpness); });
}
