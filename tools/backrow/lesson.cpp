// backrow lesson: one page for a class.

#include "choice.h"
#include "console.h"
#include "language_argument.h"
#include "missing_letters.h"
#include "output_file.h"
#include "scene_arguments.h"
#include "verbs.h"

#include "delivery/lesson.h"
#include "delivery/strip_pictures.h"
#include "papers/lesson/lesson.h"

#include <memory>
#include <string>

namespace {

using namespace backrow;

struct LessonArguments {
    SceneArguments scene;
    std::string output;
    papers::Paper paper = papers::Paper::a4;
    std::string language;
};

ExitCode lesson(const LessonArguments& arguments) {
    console::listen_for_interrupts();
    const auto scene = arguments.scene.read();
    if (!scene)
        return console::refuse(scene.error());
    if (const ExitCode code = check({{"-o", arguments.output, {".pdf", ".svg", ".png"}}});
        code != ExitCode::done)
        return code;
    const auto language = papers::Language::of(arguments.language);
    if (!language)
        return console::refuse(language.error());
    tell_missing_letters(*scene);
    const papers::LessonFacts facts = papers::lesson_facts(*scene);
    if (const auto faceless = delivery::faceless_frame(facts.strip))
        return console::refuse({Problem{.where = {.file = arguments.scene.path},
                                        .what = faceless->what,
                                        .mend = faceless->mend}});
    const auto stage = delivery::stage_of_strip(*scene, facts.strip);
    if (!stage)
        return console::refuse(stage.error());
    console::StepLines lines;
    const auto pictures = delivery::lesson_pictures(facts, *stage, lines.follow());
    lines.wipe();
    if (!pictures)
        return console::refuse(pictures.error());
    const Bytes bytes = lesson_bytes(
        facts, *pictures,
        {.paper = arguments.paper, .units = arguments.scene.units, .language = *language},
        report::page_kind_of(arguments.output));
    return console::deliver(arguments.output, bytes);
}

}  // namespace

void add_lesson(CLI::App& program, ExitCode& result) {
    auto* verb = program.add_subcommand(
        "lesson", "One page for a class: distance against aperture, exercises with answers");
    verb->footer("Example: backrow lesson scenes/choir.toml -o choir-lesson.pdf --paper letter");
    const auto arguments = std::make_shared<LessonArguments>();
    arguments->scene.add_without_format(*verb);
    add_output_file(*verb, "-o,--output", arguments->output, "The lesson", "OUT.pdf|svg|png")
        ->required();
    add_choice<papers::Paper>(*verb, "--paper", arguments->paper,
                              {{"a4", papers::Paper::a4}, {"letter", papers::Paper::letter}},
                              "Its size: a4 or letter");
    add_language(*verb, arguments->language);
    verb->callback([arguments, &result] { result = lesson(*arguments); });
}
