#include "scene_arguments.h"

#include "choice.h"

#include "scene_file/editing/override.h"
#include "scene_file/reading/read_scene.h"
#include "stage/model_shapes.h"

#include <fmt/format.h>

void add_format(CLI::App& verb, TableFormat& format) {
    add_choice<TableFormat>(
        verb, "--format", format,
        {{"text", TableFormat::text}, {"json", TableFormat::json}, {"csv", TableFormat::csv}},
        "How the table is printed");
}

CLI::Option* add_set(CLI::App& verb, std::vector<std::string>& overrides) {
    return verb
        .add_option("--set", overrides,
                    "Override a key of the scene, as in --set camera.f_number=2.8; repeatable")
        ->type_name("KEY=VALUE")
        ->allow_extra_args(false)
        ->check([](const std::string& text) {
            return backrow::scene_file::is_key_and_value(text)
                       ? std::string{}
                       : fmt::format("`{}` needs a key and a value; write key=value, as in "
                                     "camera.f_number=2.8",
                                     text);
        });
}

void add_units(CLI::App& verb, backrow::Units& units) {
    add_choice<backrow::Units>(
        verb, "--units", units,
        {{"metric", backrow::Units::metric}, {"imperial", backrow::Units::imperial}},
        "What lengths are printed in; JSON and CSV stay metric");
}

void SceneArguments::add_to(CLI::App& verb) {
    add_without_format(verb);
    add_format(verb, format);
}

void SceneArguments::add_without_format(CLI::App& verb) {
    verb.add_option("SCENE", path, "The scene file (TOML)")->required();
    add_set(verb, overrides);
    add_choice<backrow::scene::Judge>(
        verb, "--judge", judge,
        {{"sharpness", backrow::scene::Judge::sharpness}, {"blur", backrow::scene::Judge::blur}},
        "Whether diffraction counts in the grades, or the blur alone; else as the scene says");
    add_units(verb, units);
}

backrow::Checked<backrow::scene::Scene> SceneArguments::read() const {
    auto scene = backrow::scene_file::read_scene(path, overrides);
    if (!scene)
        return scene;
    if (const auto given = backrow::stage::ModelShapes{}.give(*scene); !given)
        return tl::unexpected(given.error());
    scene->judge = judge.value_or(scene->judge);
    return scene;
}
