// backrow odds: the chance that a frame is good, and how many to shoot.

#include "choice.h"
#include "console.h"
#include "scene_arguments.h"
#include "verbs.h"

#include "plan/odds/odds.h"
#include "report/answers/odds_report.h"

#include <algorithm>
#include <cstdint>
#include <limits>
#include <memory>
#include <string>
#include <thread>
#include <utility>
#include <vector>

namespace {

using namespace backrow;

struct OddsArguments {
    SceneArguments scene;
    optics::Grade grade = optics::Grade::fine;
    std::int64_t trials = plan::TrialSettings{}.trials;
    std::uint64_t seed = plan::TrialSettings{}.seed;
    std::vector<plan::Lapse> without;
};

const Choices<plan::Lapse> lapses{
    {"sway", plan::Lapse::sway},           {"camera", plan::Lapse::camera},
    {"autofocus", plan::Lapse::autofocus}, {"recompose", plan::Lapse::recompose},
    {"line-up", plan::Lapse::line_up},     {"blinks", plan::Lapse::blinks},
    {"motion", plan::Lapse::motion}};

ExitCode print_odds(const report::OddsReport& report, TableFormat format) {
    return console::print(
        in_format(format, report, report::odds_text, report::odds_json, report::odds_csv));
}

ExitCode odds(const OddsArguments& arguments) {
    auto scene = arguments.scene.read();
    if (!scene)
        return console::refuse(scene.error());
    for (const plan::Lapse lapse : arguments.without)
        *scene = plan::without(std::move(*scene), lapse);

    const int threads = std::max(1, static_cast<int>(std::thread::hardware_concurrency()));
    return print_odds(report::odds_report(
                          *scene, arguments.grade,
                          {.trials = arguments.trials, .seed = arguments.seed, .threads = threads},
                          arguments.scene.units),
                      arguments.scene.format);
}

}  // namespace

void add_odds(CLI::App& program, ExitCode& result) {
    auto* verb = program.add_subcommand(
        "odds", "How likely a frame has every face sharp and all eyes open; frames to shoot");
    verb->footer(
        "Example: backrow odds scenes/choir.toml --grade crisp --without blinks,autofocus");
    const auto arguments = std::make_shared<OddsArguments>();
    arguments->scene.add_to(*verb);
    add_choice<optics::Grade>(*verb, "--grade", arguments->grade,
                              {{"crisp", optics::Grade::crisp}, {"fine", optics::Grade::fine}},
                              "How sharp every face must be");
    constexpr std::int64_t most_trials = 1'000'000'000;
    constexpr std::int64_t most_seed = std::numeric_limits<std::int64_t>::max();
    verb->add_option("--trials", arguments->trials, "Frames to try")
        ->check(CLI::Range(std::int64_t{1}, most_trials))
        ->capture_default_str();
    verb->add_option("--seed", arguments->seed, "Another number, other draws")
        ->check(CLI::Range(std::uint64_t{0}, std::uint64_t{most_seed}))
        ->capture_default_str();
    std::vector<std::string> words;
    for (const auto& [word, lapse] : lapses)
        words.push_back(word);
    const auto leave_out = [arguments](const std::vector<std::string>& chosen) {
        for (const std::string& word : chosen)
            arguments->without.push_back(
                std::ranges::find(lapses, word, &std::pair<std::string, plan::Lapse>::first)
                    ->second);
    };
    CLI::IsMember one_of{words};
    one_of.description("");  // The words stand in the description already.
    verb->add_option_function<std::vector<std::string>>(
            "--without", leave_out,
            "What does not go wrong: one or, with commas between, several of " +
                CLI::detail::join(words, ", "))
        ->delimiter(',')
        ->allow_extra_args(false)
        ->type_name("WHAT")
        ->check(one_of);
    verb->callback([arguments, &result] { result = odds(*arguments); });
}
