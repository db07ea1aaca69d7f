// backrow rehearse: the window in which people are moved and the picture watched.

#include "console.h"
#include "output_file.h"
#include "scene_arguments.h"
#include "verbs.h"

#include "rehearsal/sitting/sitting.h"
#include "window/rehearsal_window.h"

#include <memory>
#include <optional>
#include <string>
#include <utility>

namespace {

struct RehearseArguments {
    std::string path;
    backrow::window::WindowWanted window;
};

ExitCode rehearse(const RehearseArguments& arguments) {
    std::optional<backrow::rehearsal::Sitting> sitting;
    if (!arguments.path.empty()) {
        auto opened = backrow::rehearsal::Sitting::open(arguments.path);
        if (!opened)
            return console::refuse(opened.error());
        sitting = std::move(*opened);
    }
    if (const ExitCode code = check({{"--places", arguments.window.widget_rects, {}}});
        code != ExitCode::done)
        return code;
    const auto closed = backrow::window::rehearse(std::move(sitting), arguments.window);
    return closed ? ExitCode::done : console::refuse(closed.error());
}

}  // namespace

void add_rehearse(CLI::App& program, ExitCode& result) {
    auto* verb = program.add_subcommand("rehearse",
                                        "A window: drag people, step back, stop down, and watch");
    verb->footer("Example: backrow rehearse scenes/choir.toml\n"
                 "Without a scene, a first page makes a group or opens one. F1 in the window tells "
                 "all keys.");
    const auto arguments = std::make_shared<RehearseArguments>();
    verb->add_option("SCENE", arguments->path,
                     "The scene, a TOML file; without it, the first page");
    verb->add_option("--width", arguments->window.width, "Width of the window")
        ->check(CLI::Range(800, 16384))
        ->capture_default_str();
    verb->add_option("--height", arguments->window.height, "Height of the window")
        ->check(CLI::Range(500, 16384))
        ->capture_default_str();
    verb->add_flag("--night", arguments->window.is_dark, "Dark surroundings to begin with");
    verb->add_option("--scale", arguments->window.scale,
                     "How large letters and lines are; by default as the screen asks")
        ->check(CLI::Range(0.5, 4.0));
    add_units(*verb, arguments->window.lengths);
    verb->add_option("--places", arguments->window.widget_rects,
                     "For scripts: a JSON file, kept up to date, of where everything is on the "
                     "window and how the rehearsal stands")
        ->type_name("FILE");
    verb->callback([arguments, &result] { result = rehearse(*arguments); });
}
