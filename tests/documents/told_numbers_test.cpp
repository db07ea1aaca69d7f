// Numbers that the documents tell in a sentence, where no answer of a command stands beside them:
// each with the command that says so.

#include "documents/terminal.h"

#include "structure/source_files.h"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

namespace backrow::documents {
namespace {

struct Told {
    const char* document;
    const char* words;
    std::string command;
    std::vector<const char*> answer;  ///< All of these are in it.
};

const std::string choir = "backrow faces scenes/choir.toml";
const std::string family = "backrow arrange -o family.toml --people 9 --children 6,9 "
                           "--heights 1.82,1.64 --names Bram,Odile --replace; ";
const std::string priya_nearer = choir + " --set person.Priya.back_m=-0.15";
const std::string balanced = " --set focus.balanced=true";

const std::vector<Told> told{
    {"README.md",
     "from 0.65 % now",
     family + "backrow tradeoff family.toml -o chart.png",
     {"background 0.65 %"}},
    {"tools/README.md",
     "Priya, in the last row, 8.4 px of blur",
     choir,
     {"Priya     10.69      +1379      8.4"}},
    {"tools/README.md",
     "and is not enough: 7.6 px, still soft",
     priya_nearer + " | grep ^Priya",
     {" 7.6 ", "soft"}},
    {"tools/README.md",
     "to f/2.5, and she is fine; the four beside her are not",
     priya_nearer + " --set camera.f_number=2.5 | grep -c 'soft$'",
     {"4"}},
    {"tools/README.md",
     "to f/2.5, and she is fine; the four beside her are not",
     priya_nearer + " --set camera.f_number=2.5 | grep ^Priya",
     {"fine"}},
    {"tools/README.md",
     "It costs one stop of light, 1/60 s or ISO 400",
     choir + " --set camera.f_number=2.8",
     {"1 stop under for EV 8; right at 1/60 s or ISO 400"}},
    {"tools/README.md",
     "falls from 1.03 to 0.74 % of the picture's height",
     "backrow tradeoff scenes/choir.toml -o chart.png",
     {"     9.40*          -   1.72   1.48  1.03   0.74 "}},
    {"tools/README.md",
     "little of the background's blur, which is 0.93 %",
     "backrow tradeoff scenes/choir.toml -o chart.png" + balanced,
     {"background 0.93 %"}},
    {"tools/README.md",
     "the front row pays, from crisp to fine",
     choir + balanced + " | grep ^Odile",
     {"fine"}},

    {"scenes/README.md",
     "for two stops of light",
     choir + balanced + " --set camera.f_number=4",
     {"2 stops under", "Least sharp: Priya, crisp"}},
    {"scenes/README.md",
     "bends 45 cm towards the camera",
     "grep 'back_m *= -0.45' scenes/crew.toml | sort -u",
     {"-0.45"}},
    {"scenes/README.md",
     "all are crisp at f/1.4",
     "backrow faces scenes/crew.toml --set person.Eilidh.back_m=0 --set person.Hilde.back_m=0",
     {"85 mm at f/1.4", "Least sharp: Imogen, crisp"}},
    {"scenes/README.md",
     "f/2.8 leaves parents and brother behind the sofa soft",
     "backrow faces scenes/sofa.toml | grep -c 'soft$'",
     {"3"}},
    {"scenes/README.md",
     "at `setting.backdrop.0.back_m=4` its blur doubles",
     "backrow tradeoff scenes/chess.toml -o chart.png",
     {"background 0.13 %"}},
    {"scenes/README.md",
     "at `setting.backdrop.0.back_m=4` its blur doubles",
     "backrow tradeoff scenes/chess.toml -o chart.png --set setting.backdrop.0.back_m=4",
     {"background 0.29 %"}},
    {"scenes/README.md",
     "every eye is open in only 29 % of the frames",
     "backrow odds scenes/theatre.toml",
     {"All eyes open: 28.9 %"}},
    {"scenes/README.md",
     "7 for 90 % certainty, 14 for 99 %",
     "backrow odds scenes/theatre.toml",
     {"7 for 90 % certainty", "14 for 99 %"}},
    {"scenes/README.md",
     "4 % of the frames are (`odds --grade crisp`)",
     "backrow odds scenes/kindergarten.toml --grade crisp",
     {"All faces crisp: 3.95 %"}},
    {"scenes/README.md",
     "with 4 cm of fidgeting",
     "grep sway_mm scenes/kindergarten.toml",
     {"= 40"}},
    {"scenes/README.md",
     "At `camera.f_number=8` all of them are, and what is left is blinking: 5 "
     "frames for 90 % certainty",
     "backrow odds scenes/kindergarten.toml --grade crisp --set camera.f_number=8",
     {"All faces crisp: 100", "5 for 90 % certainty"}},
    {"scenes/README.md",
     "At f/4 they are fine, for 1/30 s",
     "backrow faces scenes/bakery.toml --set camera.f_number=4",
     {"Least sharp: Nadira, fine", "right at 1/30 s or ISO 3200"}},
    {"scenes/README.md",
     "1 in 200 if it comes a fifth of a second late",
     "backrow odds scenes/band.toml --set odds.delay_s=0.2",
     {"All faces fine: 0.45 %"}},
    {"scenes/README.md",
     "At f/2.8, for a stop of light, three tenths do no harm",
     "backrow odds scenes/band.toml --set odds.delay_s=0.3 --set camera.f_number=2.8",
     {"All faces fine: 100"}},
    {"scenes/README.md",
     "Amara stands 16 cm before Joon",
     "grep back_m scenes/couple.toml",
     {"= 0.16"}},
    {"scenes/README.md",
     "so does f/5.6, for four and a half stops of light",
     "backrow strip scenes/couple.toml -o strip.png --f-numbers 1.2,5.6",
     {"4½ stops"}},
    {"scenes/README.md",
     "at f/2 seven of forty are soft",
     "backrow faces scenes/reunion.toml | grep -c 'soft$'",
     {"7"}},
    {"scenes/README.md",
     "leans back with the bank, and nobody is",
     "backrow faces scenes/reunion.toml --set camera.height_m=6 | grep -c 'soft$' || true",
     {"0"}},
    {"scenes/README.md",
     "sharp on the grandmother at f/2, the parents are soft",
     "backrow faces scenes/steps.toml | grep 'soft$'",
     {"Ines", "Samuel"}},

    {"engine/README.md",
     "Over the 125 faces of the demo scenes",
     "for scene in scenes/*.toml; do backrow faces $scene --format csv | tail -n +2; done | wc -l",
     {"125"}},
};

}  // namespace

TEST_CASE("numbers told in sentences are what the program says", "[documents][property]") {
    const Terminal terminal;
    for (const Told& one : told) {
        CAPTURE(one.document, one.words, one.command);
        CHECK(structure::text_of(one.document).find(one.words) != std::string::npos);
        const command::Ran ran = terminal.run(one.command);
        CHECK(ran.exit_code == 0);
        for (const char* part : one.answer)
            CHECK_THAT(ran.out, Catch::Contains(part));
    }
}

}  // namespace backrow::documents
