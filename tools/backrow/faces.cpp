// backrow faces: the predicted face table, no OpenGL.

#include "console.h"
#include "face_tables.h"
#include "scene_arguments.h"
#include "verbs.h"

#include "plan/faces/face_table.h"
#include "plan/faces/troubles.h"
#include "plan/faces/whole_group.h"
#include "scene/camera_view.h"

#include <memory>

namespace {

ExitCode faces(const SceneArguments& arguments) {
    const auto scene = arguments.read();
    if (!scene)
        return console::refuse(scene.error());
    const auto table = backrow::plan::face_table(*scene, camera_view(*scene));
    return print_faces({.table = table,
                        .camera = scene->camera,
                        .viewing = scene->viewing,
                        .whole_group = backrow::plan::mend_framing(
                            *scene, backrow::plan::troubles_of(table.faces).cut),
                        .rendered = std::nullopt,
                        .units = arguments.units},
                       arguments.format);
}

}  // namespace

void add_faces(CLI::App& program, ExitCode& result) {
    auto* verb = program.add_subcommand("faces", "How blurred each face will be, predicted");
    verb->footer("Example: backrow faces scenes/choir.toml --set camera.f_number=2.8");
    const auto arguments = std::make_shared<SceneArguments>();
    arguments->add_to(*verb);
    verb->callback([arguments, &result] { result = faces(*arguments); });
}
