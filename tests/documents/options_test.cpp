// The tables of options in the manual of the verbs against each verb's own --help.

#include "documents/options.h"

#include "command/running.h"
#include "structure/source_files.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cctype>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <vector>

namespace backrow::documents {
namespace {

/// Of the program, of a verb, of a verb below another: "lens measure".
std::string help_of(const std::string& verb) {
    command::Words words;
    std::istringstream stream(verb);
    for (std::string word; stream >> word;)
        words.push_back(word);
    words.emplace_back("--help");
    return command::run(words).out;
}

struct Verb {
    std::string name, answers;
};

/// As the program, or a verb that has some below it, lists them under "Subcommands:".
std::vector<Verb> verbs_below(const std::string& above) {
    const std::string all = help_of(above);
    const std::string help = all.substr(std::min(all.find("\nSubcommands:"), all.size()));
    static const std::regex line{R"(\n  ([a-z][a-z-]*) {2,}([^\n]+))"};
    std::vector<Verb> verbs;
    for (auto match = std::sregex_iterator(help.begin(), help.end(), line);
         match != std::sregex_iterator(); ++match)
        verbs.push_back(
            {above.empty() ? (*match)[1].str() : above + ' ' + (*match)[1].str(), (*match)[2]});
    return verbs;
}

std::vector<Verb> verbs_of_program() {
    return verbs_below("");
}

/// A verb with others below it has no options but theirs.
std::vector<Verb> verbs_with_options() {
    std::vector<Verb> verbs;
    for (const Verb& verb : verbs_of_program()) {
        const std::vector<Verb> below = verbs_below(verb.name);
        if (below.empty())
            verbs.push_back(verb);
        verbs.insert(verbs.end(), below.begin(), below.end());
    }
    return verbs;
}

/// The rows that hold for a verb: its own, and those that only the table of `faces` has because
/// every verb that reads a scene takes them, but for its one own. Those in `on_their_own` need
/// none.
std::vector<OptionRow> rows_for(const std::string& manual, const std::string& verb) {
    std::vector<OptionRow> rows = option_rows(manual, verb);
    static const std::set<std::string> on_their_own{
        "card",       "client", "faces",    "arrange",      "rehearse", "inspect",
        "lens chart", "lesson", "lens fit", "lens measure", "lens show"};
    if (on_their_own.contains(verb))
        return rows;
    const decltype(OptionRow::names) own_of_faces{"--sharpness"};
    for (const OptionRow& shared : option_rows(manual, "faces"))
        if (shared.names != own_of_faces)
            rows.push_back(shared);
    return rows;
}

}  // namespace

TEST_CASE("the manual's tables of options are those of --help", "[documents][property]") {
    const std::string manual = structure::text_of("tools/README.md");
    const std::vector<Verb> verbs = verbs_with_options();
    REQUIRE(verbs.size() >= 10);
    for (const Verb& verb : verbs) {
        const std::vector<OptionRow> rows = rows_for(manual, verb.name);
        const std::vector<Option> options = options_in_help(help_of(verb.name));
        CAPTURE(verb.name);
        CHECK(!options.empty());
        CHECK(rows.size() == options.size());
        for (const Option& option : options) {
            const auto row = std::ranges::find(rows, option.names, &OptionRow::names);
            CAPTURE(option.names, option.description);
            REQUIRE(row != rows.end());
            CAPTURE(row->values, row->otherwise);
            CHECK(disagreement(*row, option) == "");
        }
    }
}

TEST_CASE("the manual's list of verbs says of each what --help does", "[documents][property]") {
    const std::string manual = structure::text_of("tools/README.md");
    for (const Verb& verb : verbs_of_program()) {
        std::string answers = verb.answers;
        answers.front() =
            static_cast<char>(std::tolower(static_cast<unsigned char>(answers.front())));
        CAPTURE(verb.name);
        CHECK(manual.find("| [`" + verb.name + "`](#" + verb.name + ") | " + answers + " |") !=
              std::string::npos);
    }
}

TEST_CASE("options are read out of --help and out of tables", "[documents][property]") {
    const auto options = options_in_help("What it does\nUsage: x\n\nPositionals:\n"
                                         "  SCENE TEXT REQUIRED             The scene\n\nOptions:\n"
                                         "  -h,--help                       Print this\n"
                                         "  -o,--output OUT.png|svg REQUIRED\n"
                                         "                                  The picture\n"
                                         "  --width INT:INT in [16 - 65535]=1920\n"
                                         "                                  Width\n"
                                         "  --widest N:FLOAT in [0.5 - 128] Widest; default f/1.2\n"
                                         "  --use phone|album=album         How\n"
                                         "  --set KEY=VALUE ...             A key\n"
                                         "  --stagger,--no-stagger{false}   Gaps\n\nExample: x\n");
    REQUIRE(options.size() == 7);
    CHECK(options[0].names == std::set<std::string>{"SCENE"});
    CHECK(options[0].is_required);
    CHECK(options[1].names == std::set<std::string>{"-o", "--output"});
    CHECK(options[1].type == "OUT.png|svg");
    CHECK(options[1].is_required);
    CHECK(options[1].description == "The picture");
    CHECK(options[2].range == "16 … 65535");
    CHECK(options[2].otherwise == "1920");
    CHECK(options[3].type == "N");
    CHECK(options[3].description == "Widest; default f/1.2");
    CHECK(options[4].words == std::set<std::string>{"phone", "album"});
    CHECK(options[4].otherwise == "album");
    CHECK(options[5].type == "KEY=VALUE");
    CHECK(options[6].names == std::set<std::string>{"--stagger", "--no-stagger"});

    const auto rows = option_rows("## y\n| option | v |\n| `--no` | | | |\n## x\ntext\n"
                                  "| option | values | default | meaning |\n|---|---|---|---|\n"
                                  "| `-o`, `--output OUT.png\\|svg` | a file | required | it |\n"
                                  "| `--use` | `phone`, `album` | `album` | how |\n\n| `no` |\n",
                                  "x");
    REQUIRE(rows.size() == 2);
    CHECK(rows[0].names == std::set<std::string>{"-o", "--output"});
    CHECK(rows[0].type == "OUT.png|svg");
    CHECK(rows[0].otherwise == "required");
    CHECK(rows[1].values == "`phone`, `album`");
    CHECK(rows[1].otherwise == "album");
}

TEST_CASE("a row that says otherwise than --help is found", "[documents][property]") {
    const auto differ = [](const OptionRow& row, const std::string& head) {
        const auto options = options_in_help("  " + head + "\n" + std::string(34, ' ') +
                                             "Told: f/16, 2 to 17, sway or camera\n");
        REQUIRE(options.size() == 1);
        return !disagreement(row, options.front()).empty();
    };
    const std::string width = "--width INT:INT in [16 - 65535]=1920";
    const std::set<std::string> name{"--width"};
    CHECK_FALSE(differ({name, "", "16 … 65,535", "1920"}, width));
    CHECK(differ({{"-w"}, "", "16 … 65,535", "1920"}, width));
    CHECK(differ({name, "PX", "16 … 65,535", "1920"}, width));
    CHECK(differ({name, "", "16 … 65,536", "1920"}, width));
    CHECK(differ({name, "", "", "1920"}, width));
    CHECK(differ({name, "", "16 … 65,535", "1080"}, width));
    CHECK(differ({name, "", "16 … 65,535", "required"}, width));
    CHECK_FALSE(differ({{"-o"}, "OUT.png", "a file", "required"}, "-o OUT.png REQUIRED"));
    CHECK(differ({{"-o"}, "OUT.png", "a file", "none"}, "-o OUT.png REQUIRED"));
    CHECK_FALSE(differ({{"--use"}, "", "`a`, `b`", "a"}, "--use a|b=a"));
    CHECK(differ({{"--use"}, "", "`a`, `c`", "a"}, "--use a|b=a"));
    CHECK(differ({{"--use"}, "", "`a`", "a"}, "--use a|b=a"));
    CHECK_FALSE(differ({{"--age"}, "", "2 … 17", "16"}, "--age N"));
    CHECK(differ({{"--age"}, "", "2 … 18", "16"}, "--age N"));
    CHECK(differ({{"--age"}, "", "2 … 17", "22"}, "--age N"));
    CHECK_FALSE(differ({{"--not"}, "", "`sway`, `camera`", "none"}, "--not WHAT ..."));
    CHECK(differ({{"--not"}, "", "`sway`, `light`", "none"}, "--not WHAT ..."));
}

}  // namespace backrow::documents
