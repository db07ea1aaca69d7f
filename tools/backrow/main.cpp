#include "console.h"
#include "exit_code.h"
#include "verbs.h"

#include "scene_file/toml/near_miss.h"

#include <fmt/format.h>

#include <algorithm>
#include <exception>
#include <new>
#include <sstream>
#include <string>
#include <vector>

namespace {

int code(ExitCode exit_code) {
    return static_cast<int>(exit_code);
}

std::vector<std::string> verbs_of(const CLI::App& program) {
    std::vector<std::string> verbs;
    for (const CLI::App* verb : program.get_subcommands({}))
        verbs.push_back(verb->get_name());
    return verbs;
}

// The parser itself says no more than that a verb is required, even where one is misspelt.
ExitCode refuse_without_verb(const CLI::App& program) {
    const std::vector<std::string> verbs = verbs_of(program);
    const std::vector<std::string> rest = program.remaining();
    const std::string word = rest.empty() ? std::string{} : rest[0];
    return console::refuse_command(fmt::format(
        "there is no verb `{}`; {}", word,
        backrow::scene_file::suggestion(word, {verbs.begin(), verbs.end()}, "the verbs are")));
}

/// For whoever calls the program by its name alone.
std::string greeting(const CLI::App& program) {
    std::string text = "Backrow rehearses a group photograph before the shoot: a picture with the "
                       "depth of field that\nit would have, who will be sharp in it, and what "
                       "keeps everybody sharp.\n\n";
    for (const CLI::App* verb : program.get_subcommands({}))
        text += fmt::format("  {:<10}{}\n", verb->get_name(), verb->get_description());
    return text + "\nTo begin with: backrow arrange -o group.toml --people 5, then backrow faces "
                  "group.toml\nbackrow VERB --help tells more about each.\n";
}

// Help and version go to stdout like any answer; the rest is a wrong command line.
ExitCode answer_parser(const CLI::App& program, const CLI::ParseError& error) {
    std::ostringstream answer;
    std::ostringstream complaint;
    if (program.exit(error, answer, complaint) == 0)
        return console::print(answer.str());
    if (program.get_subcommands().empty())
        return refuse_without_verb(program);
    std::string said = complaint.str();
    said.erase(said.find_last_not_of('\n') + 1);
    return console::refuse_command(said);
}

int run(int argc, char** argv) {
    CLI::App program{"Rehearse a group photograph before the shoot: who will be sharp, and why."};
    program.name("backrow");
    program.set_version_flag("--version", "backrow " BACKROW_VERSION);
    program.require_subcommand(1);
    program.get_formatter()->column_width(34);
    program.footer("Example: backrow faces scenes/choir.toml\n"
                   "backrow VERB --help tells more about each.");

    ExitCode result = ExitCode::done;
    add_preview(program, result);
    add_faces(program, result);
    add_advise(program, result);
    add_odds(program, result);
    add_tradeoff(program, result);
    add_strip(program, result);
    add_card(program, result);
    add_client(program, result);
    add_lesson(program, result);
    add_rehearse(program, result);
    add_arrange(program, result);
    add_lens(program, result);
    add_inspect(program, result);

    std::vector<std::string> words(argv + 1, argv + argc);
    const bool asks_for_help = !words.empty() && words.front() == "help";
    if (words.empty() || (asks_for_help && words.size() == 1))
        return code(console::print(greeting(program)));
    if (asks_for_help) {  // "help faces" is "faces --help".
        words.erase(words.begin());
        const std::vector<std::string> verbs = verbs_of(program);
        if (std::ranges::find(verbs, words.front()) != verbs.end())
            words.emplace_back("--help");
    }

    std::ranges::reverse(words);  // As the parser wants them.
    try {
        program.parse(words);
    } catch (const CLI::ParseError& error) {
        return code(answer_parser(program, error));
    }
    return code(result);
}

}  // namespace

int main(int argc, char** argv) {
    console::prepare();
    try {
        return run(argc, argv);
    } catch (const std::bad_alloc&) {
        return code(console::refuse(backrow::too_little_memory()));
    } catch (const std::exception& error) {
        console::say(fmt::format("backrow: {}", error.what()));
    }
    return code(ExitCode::machine_cannot);
}
