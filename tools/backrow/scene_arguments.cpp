#include "scene_arguments.h"

#include "scene/read_scene.h"

#include <map>

void SceneArguments::add_to(CLI::App& verb) {
    verb.add_option("SCENE", path, "The scene file (TOML)")->required();
    verb.add_option("--set", overrides,
                    "Override a key of the scene, as in --set camera.f_number=2.8; repeatable")
        ->type_name("KEY=VALUE")
        ->allow_extra_args(false);
    const std::map<std::string, TableFormat> formats{
        {"text", TableFormat::text}, {"json", TableFormat::json}, {"csv", TableFormat::csv}};
    verb.add_option("--format", format, "How the table is printed")
        ->type_name("text|json|csv")
        ->transform(CLI::Transformer(formats, CLI::ignore_case))
        ->default_str("text");
}

backrow::Checked<backrow::scene::Scene> SceneArguments::read() const {
    return backrow::scene::read_scene(path, overrides);
}
