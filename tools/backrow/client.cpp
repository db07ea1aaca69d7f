// backrow client: a page for whoever has the picture taken, to choose from.

#include "console.h"
#include "language_argument.h"
#include "output_file.h"
#include "rendering_options.h"
#include "scene_arguments.h"
#include "spelt_options.h"
#include "strip_places.h"
#include "verbs.h"

#include "delivery/client_page.h"
#include "delivery/strip_pictures.h"
#include "papers/words/language.h"
#include "render/passes/crop_rect.h"
#include "scene/limits.h"

#include "base/image_files.h"

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace {

using namespace backrow;

constexpr int least_width_px = 160;
constexpr int longest_side_px = 4096;
static_assert(longest_side_px <= longest_webp_side_px && longest_side_px <= longest_jpeg_side_px);

struct ClientArguments {
    SceneArguments scene;
    std::string output;
    std::vector<double> f_numbers;
    StripPlacesAsked places{
        .distances_m = {}, .focal_lengths_mm = {}, .focal_lengths_option = "--lenses"};
    std::optional<int> width_px;
    delivery::ClientRendering rendering;
    std::string language;
};

/// Whether the words of the command line make sense together; an empty message where they do.
std::string check_words(const ClientArguments& arguments) {
    const StripPlacesAsked& places = arguments.places;
    if (!arguments.f_numbers.empty() &&
        !(places.distances_m.empty() && places.focal_lengths_mm.empty()))
        return "--apertures, --distances and --lenses exclude each other: a page leafs through one "
               "of them";
    if (std::string wrong = check_places(places); !wrong.empty())
        return wrong;
    for (const auto& [option, numbers] : {std::pair{"--apertures", &arguments.f_numbers},
                                          std::pair{"--distances", &places.distances_m},
                                          std::pair{"--lenses", &places.focal_lengths_mm}}) {
        if (std::string wrong = check_list(option, *numbers, plan::most_leaves); !wrong.empty())
            return wrong;
        if (!numbers->empty() && numbers->size() < plan::least_leaves)
            return fmt::format("{} takes at least {} numbers", option, plan::least_leaves);
    }
    return {};
}

papers::Leafing leafing_of(const ClientArguments& arguments) {
    if (!arguments.places.distances_m.empty())
        return papers::Leafing::distances;
    return arguments.places.focal_lengths_mm.empty() ? papers::Leafing::apertures
                                                     : papers::Leafing::lenses;
}

/// What was asked for, in rising order, as on a slider.
ClientArguments sorted(ClientArguments arguments) {
    for (std::vector<double>* numbers :
         {&arguments.f_numbers, &arguments.places.distances_m, &arguments.places.focal_lengths_mm})
        std::ranges::sort(*numbers);
    return arguments;
}

std::vector<double> f_numbers_of(const ClientArguments& arguments, const scene::Scene& scene) {
    if (!arguments.f_numbers.empty())
        return arguments.f_numbers;
    return leafing_of(arguments) == papers::Leafing::apertures ? plan::f_numbers_until_fine(scene)
                                                               : std::vector{scene.camera.f_number};
}

ExitCode deliver(const papers::ClientPage& page, const std::string& output) {
    if (const ExitCode code = console::deliver(output, page.html); code != ExitCode::done)
        return code;
    if (const std::string note = delivery::quality_note(page); !note.empty())
        console::say("backrow: " + note);
    return ExitCode::done;
}

ExitCode client(const ClientArguments& as_typed) {
    console::listen_for_interrupts();
    const ClientArguments arguments = sorted(as_typed);
    if (const std::string wrong = check_words(arguments); !wrong.empty())
        return console::refuse_command(wrong);
    const auto scene = arguments.scene.read();
    if (!scene)
        return console::refuse(scene.error());
    const std::vector<OutputFile> outputs{{"-o", arguments.output, {".html"}}};
    if (const ExitCode code = check(outputs); code != ExitCode::done)
        return code;
    const auto language = papers::Language::of(arguments.language);
    if (!language)
        return console::refuse(language.error());

    const auto places = strip_places(*scene, arguments.places);
    if (!places)
        return console::refuse_command(places.error());
    const std::vector<double> f_numbers = f_numbers_of(arguments, *scene);
    if (const std::string wrong = check_apertures(*scene, *places, f_numbers, "--apertures");
        !wrong.empty())
        return console::refuse_command(wrong);
    const plan::Strip strip = plan::strip(*scene, *places, f_numbers);
    if (const ExitCode code = check_faces(strip, scene->camera, arguments.scene.path);
        code != ExitCode::done)
        return code;
    if (const auto problem = delivery::cannot_be_leafed_through(strip))
        return console::refuse_command(problem->what + "; " + problem->mend);
    delivery::ClientRendering rendering = arguments.rendering;
    const scene::CameraView& view = strip.frames.front().view;
    rendering.width_texels = arguments.width_px.value_or(delivery::usual_client_width_px(view));
    if (const int height_px = render::height_for_width(view, rendering.width_texels);
        height_px > longest_side_px)
        return console::refuse_command(
            fmt::format("--width {} makes pictures {} pixels high; choose a narrower one, so that "
                        "no side is longer than {}",
                        rendering.width_texels, height_px, longest_side_px));
    const auto stage = delivery::stage_of_strip(*scene, strip);
    if (!stage)
        return console::refuse(stage.error());
    if (const ExitCode code = check_unread(outputs); code != ExitCode::done)
        return code;

    console::StepLines lines;
    const auto pictures =
        delivery::client_pictures(*scene, strip, *stage, rendering, lines.follow());
    lines.wipe();
    if (!pictures)
        return console::refuse(pictures.error());
    const auto page =
        delivery::client_page(papers::client_facts(*scene, strip, leafing_of(arguments)), *pictures,
                              {.units = arguments.scene.units, .language = *language});
    if (!page)
        return std::visit(
            [](const auto& why) {
                if constexpr (std::is_same_v<std::decay_t<decltype(why)>, Problem>)
                    return console::refuse_command(why.what + "; " + why.mend);
                else
                    return console::refuse(why);
            },
            page.error());
    return deliver(*page, arguments.output);
}

}  // namespace

void add_client(CLI::App& program, ExitCode& result) {
    auto* verb = program.add_subcommand(
        "client", "A page for the client: leaf through apertures, look closer, compare");
    verb->footer("Example: backrow client scenes/couple.toml -o couple.html --apertures 1.2,2,4");
    const auto arguments = std::make_shared<ClientArguments>();
    arguments->scene.add_without_format(*verb);
    add_output_file(*verb, "-o,--output", arguments->output, "The page", "OUT.html")->required();
    add_numbers(*verb, "--apertures", arguments->f_numbers, scene::limits::f_number,
                Measure::f_number, "N",
                "Three to seven apertures; without any list from the widest of the lens to where "
                "everybody is fine");
    add_numbers(*verb, "--distances", arguments->places.distances_m, scene::limits::lens_to_mark_m,
                Measure::metres, "METRES", "Distances from lens to mark, in place of apertures");
    add_numbers(*verb, "--lenses", arguments->places.focal_lengths_mm,
                scene::limits::focal_length_mm, Measure::millimetres, "MM",
                "Lenses, in place of apertures");
    verb->add_flag("--keep-framing", arguments->places.keep_framing,
                   "Heads as large in every picture as now: another distance changes the lens, "
                   "another lens the distance");
    verb->add_option("--width", arguments->width_px,
                     "Width of each picture in pixels; by default its long side is 1920")
        ->check(CLI::Range(least_width_px, longest_side_px));
    add_rendering(*verb, arguments->rendering.samples, arguments->rendering.quality,
                  "Points of the lens; by default enough for the largest blur");
    add_language(*verb, arguments->language);
    verb->callback([arguments, &result] { result = client(*arguments); });
}
