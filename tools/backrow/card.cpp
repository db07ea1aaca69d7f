// backrow card: one page for the shoot.

#include "choice.h"
#include "console.h"
#include "language_argument.h"
#include "lens_argument.h"
#include "missing_letters.h"
#include "output_file.h"
#include "scene_arguments.h"
#include "verbs.h"

#include "delivery/card.h"
#include "papers/words/language.h"
#include "stage/stage.h"

#include <fmt/format.h>

#include <memory>
#include <string>
#include <variant>

namespace {

using namespace backrow;

struct CardArguments {
    SceneArguments scene;
    std::string output;
    papers::Paper paper = papers::Paper::a5;
    std::string language;
    LensArguments lenses;
};

/// A card is worth having without its picture; why it has none is told.
tl::expected<Image<Rgb8>, ExitCode> picture_of(const scene::Scene& scene) {
    const scene::CameraView view = camera_view(scene);
    const auto stage = stage::build_stage(scene, view);
    if (!stage)
        return tl::make_unexpected(console::refuse(stage.error()));
    console::StepLines lines;
    auto made = delivery::card_picture(scene, view, *stage, lines.follow());
    lines.wipe();
    if (made)
        return std::move(*made);
    const auto* failure = std::get_if<MachineFailure>(&made.error());
    if (failure == nullptr)
        return tl::make_unexpected(console::refuse(made.error()));
    console::say(fmt::format("backrow: the card has no picture: {}", to_line(*failure)));
    return Image<Rgb8>{};
}

ExitCode card(const CardArguments& arguments) {
    console::listen_for_interrupts();
    const auto scene = arguments.scene.read();
    if (!scene)
        return console::refuse(scene.error());
    if (const ExitCode code = check({{"-o", arguments.output, {".pdf", ".svg", ".png"}}});
        code != ExitCode::done)
        return code;
    const auto lenses = arguments.lenses.read(arguments.scene.path);
    if (!lenses)
        return console::refuse(lenses.error());
    const auto language = papers::Language::of(arguments.language);
    if (!language)
        return console::refuse(language.error());
    tell_missing_letters(*scene);
    const auto picture = picture_of(*scene);
    if (!picture)
        return picture.error();
    const Bytes bytes = card_bytes(
        papers::card_facts(*scene, *lenses), *picture,
        {.paper = arguments.paper, .units = arguments.scene.units, .language = *language},
        report::page_kind_of(arguments.output));
    return console::deliver(arguments.output, bytes);
}

}  // namespace

void add_card(CLI::App& program, ExitCode& result) {
    auto* verb = program.add_subcommand(
        "card", "One page for the shoot: settings, places to pace out, names, what if");
    verb->footer("Example: backrow card scenes/choir.toml -o choir-card.pdf --paper a4");
    const auto arguments = std::make_shared<CardArguments>();
    arguments->scene.add_without_format(*verb);
    add_output_file(*verb, "-o,--output", arguments->output, "The card", "OUT.pdf|svg|png")
        ->required();
    add_choice<papers::Paper>(*verb, "--paper", arguments->paper,
                              {{"a4", papers::Paper::a4},
                               {"a5", papers::Paper::a5},
                               {"letter", papers::Paper::letter},
                               {"phone", papers::Paper::phone}},
                              "Its size: a4, a5, letter, or phone, a tall picture for its screen");
    add_language(*verb, arguments->language);
    arguments->lenses.add_to(*verb,
                             "A lens carried besides, as in 85/1.8 or 85; repeatable; by default "
                             "the usual ones next to the scene's",
                             true);
    verb->callback([arguments, &result] { result = card(*arguments); });
}
