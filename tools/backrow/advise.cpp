// backrow advise: settings and small moves that keep every face good enough.

#include "choice.h"
#include "console.h"
#include "scene_arguments.h"
#include "spelt_options.h"
#include "verbs.h"

#include "plan/advice/advice.h"
#include "report/answers/advice_report.h"
#include "scene/limits.h"

#include "base/spelt_number.h"
#include "base/units.h"

#include <cmath>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace {

using namespace backrow;

struct AdviseArguments {
    SceneArguments scene;
    plan::AdviceWanted wanted;
    std::vector<std::string> lenses;
    double most_move_m = 0.3;
};

/// "85/1.8", "85mm f/1.8", "85/1,8".
std::optional<plan::CarriedLens> lens_from(const std::string& word) {
    const auto end_of_length = word.find_first_of("/fF");
    if (end_of_length == std::string::npos)
        return std::nullopt;
    const auto f_number_at = end_of_length + (word[end_of_length] == '/' ? 1 : 0);
    const auto length = number_from_spelling(word.substr(0, end_of_length), Measure::millimetres);
    const auto f_number = number_from_spelling(word.substr(f_number_at), Measure::f_number);
    if (!length || !f_number)
        return std::nullopt;
    const plan::CarriedLens lens{.focal_length_mm = *length, .widest_f_number = *f_number};
    const auto within = [](double value, double least, double most) {
        return value >= least && value <= most;
    };
    return within(lens.focal_length_mm, scene::limits::focal_length_mm.least,
                  scene::limits::focal_length_mm.greatest) &&
                   within(lens.widest_f_number, scene::limits::f_number.least,
                          scene::limits::f_number.greatest)
               ? std::optional{lens}
               : std::nullopt;
}

ExitCode print_advice(const report::AdviceReport& report, TableFormat format) {
    switch (format) {
    case TableFormat::text:
        return console::print(advice_text(report));
    case TableFormat::json:
        return console::print(advice_json(report));
    case TableFormat::csv:
        return console::print(advice_csv(report));
    }
    return ExitCode::done;
}

ExitCode advise(const AdviseArguments& arguments) {
    console::listen_for_interrupts();
    auto scene = arguments.scene.read();
    if (!scene)
        return console::refuse(scene.error());
    plan::AdviceWanted wanted = arguments.wanted;
    wanted.most_move_cm = static_cast<int>(std::lround(cm_from_m(arguments.most_move_m)));
    for (const std::string& word : arguments.lenses)
        wanted.lenses.push_back(*lens_from(word));
    if (wanted.lenses.empty())
        wanted.lenses.push_back(plan::scene_lens(*scene));
    if (wanted.greatest_distance_m > 0 && wanted.least_distance_m > wanted.greatest_distance_m)
        return console::refuse_command("--distance-min is more than --distance-max");

    std::optional<plan::Advice> advice;
    {
        console::ProgressLine line{"Settings and moves:"};
        advice = plan::advise(*scene, wanted, [&](double share) {
            line.show(share);
            return !console::interrupted();
        });
    }
    if (!advice)
        return console::say_interrupted();
    const bool possible = !advice->answers.empty();
    const ExitCode printed = print_advice({.scene = std::move(*scene),
                                           .wanted = wanted,
                                           .advice = std::move(*advice),
                                           .units = arguments.scene.units},
                                          arguments.scene.format);
    return printed != ExitCode::done || possible ? printed : ExitCode::not_possible;
}

}  // namespace

void add_advise(CLI::App& program, ExitCode& result) {
    auto* verb = program.add_subcommand(
        "advise", "Settings and small moves that keep every face good enough");
    verb->footer("Example: backrow advise scenes/choir.toml --lens 85/1.4 --move-max 0.2");
    const auto arguments = std::make_shared<AdviseArguments>();
    arguments->scene.add_to(*verb);
    plan::AdviceWanted& wanted = arguments->wanted;
    add_choice<optics::Grade>(*verb, "--grade", wanted.grade,
                              {{"crisp", optics::Grade::crisp}, {"fine", optics::Grade::fine}},
                              "How sharp every face must be");
    constexpr double most_move_m = 2;
    verb->add_option("--move-max", arguments->most_move_m,
                     "How far anybody may move, metres; 0: nobody moves")
        ->check(CLI::Range(0.0, most_move_m))
        ->transform(as_spelt(Measure::metres))
        ->capture_default_str();
    verb->add_option("--distance-min", wanted.least_distance_m,
                     "Nearest that the camera may come, metres from lens to mark; else it stays")
        ->check(
            CLI::Range(scene::limits::lens_to_mark_m.least, scene::limits::lens_to_mark_m.greatest))
        ->transform(as_spelt(Measure::metres));
    verb->add_option("--distance-max", wanted.greatest_distance_m, "Farthest, likewise")
        ->check(
            CLI::Range(scene::limits::lens_to_mark_m.least, scene::limits::lens_to_mark_m.greatest))
        ->transform(as_spelt(Measure::metres));
    verb->add_option("--narrowest", wanted.narrowest_f_number, "The narrowest f-number wanted")
        ->check(CLI::Range(scene::limits::f_number.least, scene::limits::f_number.greatest))
        ->transform(as_spelt(Measure::f_number))
        ->capture_default_str();
    verb->add_option("--lens", arguments->lenses,
                     "A lens carried, focal length and widest f-number, as in 85/1.8; repeatable")
        ->type_name("MM/F")
        ->allow_extra_args(false)
        ->check([](const std::string& word) {
            return lens_from(word) ? std::string{}
                                   : '`' + word + "` is not a lens; write it as in 85/1.8";
        });
    verb->add_flag("--crop", wanted.after_crop,
                   "The grade must hold after a crop to the present framing, too");
    verb->callback([arguments, &result] { result = advise(*arguments); });
}
