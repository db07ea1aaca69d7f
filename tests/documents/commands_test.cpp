// What the documents show is what the program says today: every command in them is run, in the
// order in which a reader would, and its answer is compared line by line.

#include "documents/commands.h"

#include "documents/terminal.h"
#include "structure/source_files.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <string>
#include <string_view>
#include <vector>

namespace backrow::documents {
namespace {

struct NotRun {
    std::string_view begins;
    std::string_view why;
};

constexpr std::array not_run{
    NotRun{"tools/quickstart", "installs packages and builds the program that is tested here"},
    NotRun{"tools/run-tests", "runs this very test"},
    NotRun{"backrow rehearse", "opens a window; tools/rehearse-walkthrough plays it by its keys"},
    NotRun{"cmake ", "builds, as tools/run-tests does"},
    NotRun{"ninja ", "builds, as tools/run-tests does"},
    NotRun{"BACKROW_RANDOM_HANDS=", "takes minutes, with a build of its own; CI runs fewer"},
    NotRun{"BACKROW_ALL_PAPERS=", "takes minutes; CI makes a quarter of them"},
    NotRun{"BACKROW_INSPECTED_GROUPS=", "takes minutes; CI draws one group"},
    NotRun{"BACKROW_ROUND_TRIPS=", "takes a quarter of an hour; CI sends one lens round"},
    NotRun{"tools/bench ", "measures time and memory, which differ from machine to machine"},
    NotRun{"/usr/bin/time ", "measures time and memory, which differ from machine to machine"},
};

bool is_run(const Command& command) {
    return std::ranges::none_of(
        not_run, [&](const NotRun& entry) { return command.text.starts_with(entry.begins); });
}

}  // namespace

TEST_CASE("every command of the documents answers as they show", "[documents][property]") {
    int runs = 0;
    for (const structure::SourceFile& document : structure::documents()) {
        const Terminal terminal;
        for (const Command& command : commands_in(document.text)) {
            if (!is_run(command))
                continue;
            ++runs;
            const command::Ran ran = terminal.run(command.text);
            CAPTURE(document.path, command.line, command.text);
            CHECK(ran.exit_code == 0);
            CHECK(departure(command.shown, ran.out) == "");
        }
    }
    CHECK(runs > 25);
}

TEST_CASE("a command that is not run is in the documents, and has a reason",
          "[documents][property]") {
    std::vector<Command> all;
    for (const structure::SourceFile& document : structure::documents())
        for (const Command& command : commands_in(document.text))
            all.push_back(command);
    for (const NotRun& entry : not_run) {
        CAPTURE(entry.begins);
        CHECK(std::ranges::any_of(
            all, [&](const Command& command) { return command.text.starts_with(entry.begins); }));
        CHECK(!entry.why.empty());
    }
}

// A block that is labelled as shell would show commands without a prompt, which nothing runs.
TEST_CASE("commands stand behind a prompt", "[documents][property]") {
    for (const structure::SourceFile& document : structure::documents()) {
        CAPTURE(document.path);
        CHECK(document.text.find("```sh") == std::string::npos);
        CHECK(document.text.find("```bash") == std::string::npos);
    }
}

TEST_CASE("commands and their answers are read as they are written", "[documents][property]") {
    const auto commands = commands_in("$ not in a block\n"
                                      "```\nbefore\n$ one \\\n  --more\nfirst\n…\n\n$ two\n```\n"
                                      "```\n$ cat > a << END\n$ text\nEND\nanswer\n```\nafter\n");
    REQUIRE(commands.size() == 3);
    CHECK(commands[0].line == 4);
    CHECK(commands[0].text == "one \\\n  --more");
    CHECK(commands[0].shown == std::vector<std::string>{"first", "…"});
    CHECK(commands[1].text == "two");
    CHECK(commands[1].shown.empty());
    CHECK(commands[2].text == "cat > a << END\n$ text\nEND");
    CHECK(commands[2].shown == std::vector<std::string>{"answer"});
}

TEST_CASE("an answer that is not as shown is noticed", "[documents][property]") {
    const std::string answer = "a\nb\nc\nb\nd\n";
    const auto as_shown = [&](const std::vector<std::string>& shown) {
        return departure(shown, answer).empty();
    };
    CHECK(as_shown({"a", "b", "c", "b", "d"}));
    CHECK(as_shown({"…"}));
    CHECK(as_shown({"a", "…"}));
    CHECK(as_shown({"…", "b", "d"}));
    CHECK(as_shown({"a", "…", "c", "…", "d"}));
    CHECK(as_shown({"…", "b", "…", "b", "…"}));
    CHECK(as_shown({"a", "b", "…", "c", "b", "d"}));

    CHECK_FALSE(as_shown({}));
    CHECK_FALSE(as_shown({"a", "b", "c", "b"}));
    CHECK_FALSE(as_shown({"b", "c", "b", "d"}));
    CHECK_FALSE(as_shown({"b", "…"}));
    CHECK_FALSE(as_shown({"…", "c"}));
    CHECK_FALSE(as_shown({"…", "b", "b", "…"}));
    CHECK_FALSE(as_shown({"…", "d", "…", "a", "…"}));
    CHECK_FALSE(as_shown({"a", "b", "c", "…", "c", "b", "d"}));
    CHECK_FALSE(as_shown({"a", "b", "c", "b", "d", "e"}));
    CHECK(departure({}, "").empty());
}

}  // namespace backrow::documents
