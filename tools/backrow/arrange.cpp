// backrow arrange: a scene for a group, from how many they are.

#include "choice.h"
#include "console.h"
#include "scene_arguments.h"
#include "spelt_options.h"
#include "verbs.h"

#include "arranging/rearrange.h"
#include "arranging/wish_lists.h"
#include "report/answers/arrangement_report.h"
#include "scene/limits.h"
#include "scene/set_people.h"
#include "scene_file/editing/edit_scene_text.h"
#include "scene_file/editing/write_scene.h"
#include "scene_file/reading/read_scene.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <system_error>
#include <utility>
#include <vector>

namespace {

using namespace backrow;

struct ArrangeArguments {
    std::string scene;  ///< To be arranged again; empty for a new group.
    std::vector<std::string> overrides;
    std::optional<int> row;  ///< Counted from 1.
    arranging::GroupWishes wishes;
    arranging::WishLists lists;
    std::string output;
    bool replace = false;
    TableFormat format = TableFormat::text;
};

std::string said(const report::ArrangementReport& report, TableFormat format) {
    return in_format(format, report, report::arrangement_text, report::arrangement_json,
                     report::arrangement_csv);
}

ExitCode refuse_wishes(const std::vector<Problem>& problems) {
    for (const Problem& problem : problems)
        console::say(fmt::format("backrow: {}", to_line(problem)));
    return ExitCode::wrong_command_line;
}

/// Whether the file may be written; done where it may.
ExitCode check_output(const ArrangeArguments& arguments) {
    std::error_code none;
    const bool exists = std::filesystem::is_regular_file(arguments.output, none);
    if (exists && !arguments.replace)
        return console::refuse_command(fmt::format(
            "-o {} is there already; name another file, or add --replace", arguments.output));
    if (const auto writable = check_writable(arguments.output); !writable)
        return console::refuse(writable.error());
    return ExitCode::done;
}

/// Overrides are written into the text first, so that who is pinned by one stays pinned.
ExitCode arrange_again(const ArrangeArguments& arguments) {
    auto text = scene_file::scene_file_text(arguments.scene);
    if (text)
        text = scene_file::with_values(std::move(*text), arguments.scene, arguments.overrides);
    if (!text)
        return console::refuse(text.error());
    const auto scene = scene_file::read_scene_text(*text, arguments.scene);
    if (!scene)
        return console::refuse(scene.error());
    const int rows = scene::row_count(*scene);
    if (rows == 0 || (arguments.row && *arguments.row > rows))
        return console::refuse_command(
            rows == 0 ? std::string{"nobody stands in a row; there is nothing to arrange"}
                      : fmt::format("there is no row {}; write 1 to {}", *arguments.row, rows));
    if (const ExitCode checked = check_output(arguments); checked != ExitCode::done)
        return checked;
    arranging::Rearrangement again = arranging::rearrange(
        *scene, arguments.row ? std::optional{*arguments.row - 1} : std::nullopt);
    const auto changed = scene_file::with_values(std::move(*text), arguments.scene, again.values);
    if (!changed)
        return console::refuse(changed.error());
    // Files that the scene names are looked for from where it is written.
    if (const auto there = scene_file::read_scene_text(*changed, arguments.output); !there)
        return console::refuse(there.error());
    arranging::Arrangement told;
    told.plan.title = scene->title.empty() ? "Arranged again" : scene->title;
    told.choices = std::move(again.choices);
    told.cautions = std::move(again.cautions);
    return console::deliver(
        arguments.output, *changed,
        said({.arrangement = std::move(told), .file = arguments.output}, arguments.format));
}

ExitCode arrange(const ArrangeArguments& arguments) {
    if (!arguments.scene.empty())
        return arrange_again(arguments);
    arranging::GroupWishes wishes = arguments.wishes;
    if (arguments.format != TableFormat::text)
        wishes.units = Units::metric;
    auto known = arranging::known_from(arguments.lists);
    if (!known)
        return refuse_wishes(known.error());
    wishes.known = std::move(*known);
    auto arrangement = arranging::arrange(wishes);
    if (!arrangement)
        return refuse_wishes(arrangement.error());
    if (const ExitCode checked = check_output(arguments); checked != ExitCode::done)
        return checked;
    const std::string text = scene_file::scene_toml(*arrangement);
    return console::deliver(
        arguments.output, text,
        said({.arrangement = std::move(*arrangement), .file = arguments.output}, arguments.format));
}

void add_number_wish(CLI::App& verb, const std::string& option, std::optional<double>& into,
                     Measure measure, const char* type, const std::string& description) {
    verb.add_option_function<double>(
            option, [&into](double value) { into = value; }, description)
        ->type_name(type)
        ->transform(as_spelt(measure));
}

template <class Value>
CLI::Option* add_wish(CLI::App& verb, const std::string& option, std::optional<Value>& into,
                      const char* type, const std::string& description) {
    return verb
        .add_option_function<Value>(
            option, [&into](const Value& value) { into = value; }, description)
        ->type_name(type);
}

std::optional<std::string> first_given(const std::vector<CLI::Option*>& options) {
    const auto given = std::ranges::find_if(
        options, [](const CLI::Option* option) { return option->count() > 0; });
    return given == options.end() ? std::nullopt : std::optional{(*given)->get_name()};
}

template <class Value>
CLI::Option* add_list(CLI::App& verb, const std::string& option, std::vector<Value>& into,
                      const char* type, const std::string& description) {
    return verb.add_option(option, into, description)
        ->delimiter(',')
        ->allow_extra_args(false)
        ->type_name(type);
}

void add_lists(CLI::App& verb, arranging::WishLists& lists) {
    verb.add_option("--families", lists.families,
                    "Who stays together: names with commas, families with semicolons between")
        ->type_name("NAME,…");
    verb.add_option("--couples", lists.couples, "Who stands side by side: Anna+Ben,Dora+Emil")
        ->type_name("NAME…");
    verb.add_option("--ages", lists.ages, "Name and years: Anna=71,Mia=2; from 65 on they sit")
        ->type_name("NAME…");
    verb.add_option("--seated", lists.seated, "Who sits, in the middle of the front row")
        ->type_name("NAME,…");
    verb.add_option("--kneeling", lists.kneeling, "Who kneels, in the front row")
        ->type_name("NAME,…");
    verb.add_option("--carried", lists.carried, "Children, and in whose arm they are: Mia=Anna")
        ->type_name("CHILD…");
    verb.add_option("--celebrated", lists.celebrated,
                    "Whom the picture is about: in the middle of the front row")
        ->type_name("NAME,…");
}

}  // namespace

void add_arrange(CLI::App& program, ExitCode& result) {
    auto* verb = program.add_subcommand("arrange", "A scene file for a group, from a few choices");
    verb->footer("Example: backrow arrange -o family.toml --people 9 --children 6,9 "
                 "--heights 1.82,1.64 --names Bram,Odile");
    const auto arguments = std::make_shared<ArrangeArguments>();
    arranging::GroupWishes& wishes = arguments->wishes;
    CLI::Option* scene =
        verb->add_option("SCENE", arguments->scene,
                         "A scene to be arranged again; those who are pinned keep their places");
    CLI::Option* output =
        verb->add_option("-o,--output", arguments->output, "The scene file to write (TOML)")
            ->type_name("SCENE.toml")
            ->required()
            ->check([](const std::string& path) {
                return path.empty() ? "needs the name of a file" : std::string{};
            });
    add_wish(*verb, "--people", wishes.people, "N",
             "How many there are, children among them; by default everybody named")
        ->check(CLI::Range(1, scene::limits::most_people));
    add_wish(*verb, "--rows", wishes.rows, "R", "How many rows; by default as the frame asks");
    add_list(*verb, "--children", wishes.child_ages, "AGE,…", "Ages of children, 2 to 17 years");
    add_list(*verb, "--heights", wishes.statures_m, "M,…",
             "Heights of grown people in metres; the rest as in a population")
        ->transform(as_spelt(Measure::stature_m));
    add_list(*verb, "--names", wishes.names, "NAME,…",
             "Names, grown people first, in the order of the heights; the rest from our own list");
    add_lists(*verb, arguments->lists);
    add_choice<figures::Posture>(*verb, "--front", wishes.front,
                                 {{"standing", figures::Posture::standing},
                                  {"seated", figures::Posture::seated},
                                  {"kneeling", figures::Posture::kneeling}},
                                 "How the front row is; seated from three rows on");
    add_number_wish(*verb, "--spacing", wishes.spacing_m, Measure::metres, "M",
                    "From one middle to the next");
    verb->add_flag_function(
        "--stagger,!--no-stagger", [&wishes](auto times) { wishes.stagger = times > 0; },
        "Heads behind gaps (the default), or behind heads");
    add_number_wish(*verb, "--step", wishes.step_m, Measure::metres, "M",
                    "Height from row to row; by default as much as faces need to be seen");
    add_number_wish(*verb, "--focal-length", wishes.focal_length_mm, Measure::millimetres, "MM",
                    "By default 85 for up to five people, 50 for more");
    add_number_wish(*verb, "--f-number", wishes.f_number, Measure::f_number, "N",
                    "By default the widest whole stop at which every eye is crisp");
    add_choice<scene::Orientation>(
        *verb, "--orientation", wishes.orientation,
        {{"landscape", scene::Orientation::landscape}, {"portrait", scene::Orientation::portrait}},
        "By default as the group's outline is");
    add_choice<scene::Use>(*verb, "--use", wishes.use,
                           {scene::words::use.begin(), scene::words::use.end()},
                           "How the picture will be looked at");
    verb->add_option("--fill", wishes.fill, "Share of the frame that the group takes, 0.3 to 1")
        ->type_name("SHARE")
        ->capture_default_str();
    std::vector<CLI::Option*> of_new_group = verb->get_options();
    std::erase_if(of_new_group, [&](const CLI::Option* option) {
        return option == scene || option == output || option == verb->get_help_ptr();
    });
    const std::vector<CLI::Option*> of_scene{
        add_set(*verb, arguments->overrides),
        add_wish(*verb, "--row", arguments->row, "R",
                 "Of SCENE: only this row, counted from 1; by default all of them")
            ->check(CLI::Range(1, scene::limits::most_people))};
    verb->add_flag("--replace", arguments->replace, "Overwrite a file that is there already");
    add_format(*verb, arguments->format);
    of_new_group.push_back(verb->get_option("--format"));
    add_units(*verb, wishes.units);
    verb->callback([arguments, of_new_group, of_scene, &result] {
        if (const auto option = first_given(of_new_group); option && !arguments->scene.empty())
            result = console::refuse_command(fmt::format(
                "{} is for a new group; of a scene, say it with --set or in the file", *option));
        else if (const auto other = first_given(of_scene); other && arguments->scene.empty())
            result = console::refuse_command(
                fmt::format("{} needs a scene to be arranged again; name its file", *other));
        else
            result = arrange(*arguments);
    });
}
