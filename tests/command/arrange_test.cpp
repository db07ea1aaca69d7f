#include "running.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <utility>

// backrow arrange, from the command line to a scene file that the other verbs take.

namespace backrow::command {
namespace {

using nlohmann::json;

Ran arrange(const std::string& file, const Words& more) {
    Words all{"arrange", "-o", file};
    all.insert(all.end(), more.begin(), more.end());
    return run(all);
}

}  // namespace

TEST_CASE("a family is arranged, and its faces are all seen", "[command][property]") {
    const Folder folder;
    const std::string file = folder / "family.toml";
    const Ran ran = arrange(file, {"--people", "9", "--children", "6,9", "--heights", "1.82,1.64",
                                   "--names", "Bram,Odile", "--format", "json"});
    CAPTURE(ran.err);
    REQUIRE(ran.exit_code == 0);
    CHECK(ran.err.empty());
    const json answer = json::parse(ran.out);
    CHECK(answer["file"] == file);
    CHECK(answer["choices"].size() > 5);
    std::size_t people = 0;
    for (const json& row : answer["rows"])
        people += row["people"].size();
    CHECK(people == 9);
    CHECK(answer["eye_depth_m"] < answer["eye_depth_of_loose_rows_m"]);
    CHECK(folder.entries() == std::vector<std::string>{"family.toml"});

    const Ran faces = run(words("faces", file, {"--format", "json"}));
    REQUIRE(faces.exit_code == 0);
    const json table = json::parse(faces.out);
    CHECK(table["faces"].size() == 9);
    for (const json& face : table["faces"]) {
        CHECK(face["in_frame"] == true);
        CHECK(face["visible_fraction"] >= 0.9);
    }
    CHECK(faces.out.find("\"Bram\"") != std::string::npos);
}

TEST_CASE("text says what was chosen and why, CSV where everybody stands", "[command][property]") {
    const Folder folder;
    const Ran text = arrange(folder / "a.toml", {"--people", "40"});
    CHECK(text.exit_code == 0);
    CHECK(text.out.find("rows up") != std::string::npos);
    CHECK(text.out.find("Local rules decide.") != std::string::npos);
    const Ran csv = arrange(folder / "b.toml", {"--people", "4", "--format", "csv"});
    CHECK(csv.exit_code == 0);
    CHECK(csv.out.starts_with("name,row,across_m,back_m,up_m,stature_m,posture\r\n"));
    CHECK(std::count(csv.out.begin(), csv.out.end(), '\n') == 5);
}

TEST_CASE("a file that is there stays unless it may be replaced", "[command][property]") {
    const Folder folder;
    const std::string file = folder.write("mine.toml", "# mine\n");
    const Ran kept = arrange(file, {"--people", "4"});
    CHECK(kept.exit_code == 2);
    CHECK(kept.out.empty());
    CHECK(kept.err.find("--replace") != std::string::npos);
    CHECK(text_of(file) == "# mine\n");
    CHECK(arrange(file, {"--people", "4", "--replace"}).exit_code == 0);
    CHECK(text_of(file).find("[camera]") != std::string::npos);
}

TEST_CASE("the same command writes the same bytes", "[command][property]") {
    const Folder folder;
    REQUIRE(arrange(folder / "a.toml", {"--people", "25"}).exit_code == 0);
    REQUIRE(arrange(folder / "b.toml", {"--people", "25"}).exit_code == 0);
    CHECK(text_of(folder / "a.toml") == text_of(folder / "b.toml"));
}

TEST_CASE("a family is arranged by what is known of it, and again when something has changed",
          "[command][property]") {
    const Folder folder;
    const std::string file = folder / "feast.toml";
    const Ran made =
        arrange(file, {"--families", "Anna,Ben,Cleo,Max,Mia;Dora,Emil", "--couples",
                       "Anna+Ben,Cleo+Max", "--ages", "Anna=71,Ben=73,Mia=2", "--carried",
                       "Mia=Cleo", "--celebrated", "Dora", "--people", "9"});
    CAPTURE(made.err);
    REQUIRE(made.exit_code == 0);
    CHECK(made.out.find("celebrated") != std::string::npos);
    CHECK(made.out.find("Mia by Cleo") != std::string::npos);
    const std::string text = text_of(file);
    CHECK(text.find("carried_by       = \"Cleo\"") != std::string::npos);
    CHECK(text.find("with             = \"Ben\"") != std::string::npos);
    const Ran faces = run(words("faces", file, {"--format", "json"}));
    REQUIRE(faces.exit_code == 0);
    for (const json& face : json::parse(faces.out)["faces"]) {
        CAPTURE(face["name"].get<std::string>());
        CHECK(face["visible_fraction"] >= 0.9);
    }

    const std::string again = folder / "again.toml";
    const Ran same = run({"arrange", file, "-o", again});
    CAPTURE(same.err);
    REQUIRE(same.exit_code == 0);
    CHECK(same.out.find("all stand so already") != std::string::npos);
    CHECK(text_of(again) == text);
    const Ran other =
        run({"arrange", file, "-o", again, "--replace", "--set", "person.Dora.celebrated=false",
             "--set", "person.Max.pinned=true", "--set", "person.Ben.celebrated=true"});
    REQUIRE(other.exit_code == 0);
    CHECK(other.out.find("Max") != std::string::npos);
    CHECK(text_of(again).find("pinned           = true") != std::string::npos);
    CHECK(text_of(again).starts_with("# Group of 9"));
    CHECK(text_of(file) == text);
    CHECK(run(words("faces", again, {})).exit_code == 0);
    CHECK(run({"arrange", file, "-o", again}).exit_code == 2);
    CHECK(run({"arrange", file, "-o", again, "--replace", "--row", "3"}).exit_code == 2);
    CHECK(run({"arrange", file, "-o", again, "--replace", "--people", "3"}).err ==
          "backrow: --people is for a new group; of a scene, say it with --set or in the file\n");
    CHECK(run({"arrange", folder / "none.toml", "-o", again, "--replace"}).exit_code == 1);
    CHECK(run({"arrange", file, "-o", again, "--replace", "--set", "person.Nobody.pinned=true"})
              .exit_code == 1);
}

TEST_CASE("a wrong wish is a wrong command line and leaves no file", "[command][property]") {
    const Folder folder;
    for (const auto& [named, wrong] : std::vector<std::pair<std::string, Words>>{
             {"--people", {}},
             {"--people", {"--people", "0"}},
             {"--people", {"--people", "2001"}},
             {"--people", {"--people", "many"}},
             {"--rows", {"--people", "3", "--rows", "4"}},
             {"--children", {"--people", "1", "--children", "6,9"}},
             {"--heights", {"--people", "3", "--heights", "18.2"}},
             {"--names", {"--people", "3", "--names", "Bram,Bram"}},
             {"--front", {"--people", "3", "--front", "flying"}},
             {"--fill", {"--people", "3", "--fill", "85"}},
             {"--families", {"--families", "Anna,Ben;Ben"}},
             {"--couples", {"--couples", "Anna"}},
             {"--ages", {"--ages", "Anna=old"}},
             {"--carried", {"--carried", "Mia=Anna"}},
             {"--kneeling", {"--seated", "Anna", "--kneeling", "Anna"}},
             {"--row", {"--people", "3", "--row", "1"}},
             {"--set", {"--people", "3", "--set", "camera.iso=200"}},
             {"--focal-length", {"--people", "900", "--rows", "1", "--focal-length", "200"}}}) {
        const Ran ran = arrange(folder / "x.toml", wrong);
        CAPTURE(named, ran.err);
        CHECK(ran.exit_code == 2);
        CHECK(ran.out.empty());
        CHECK(ran.err.find(named) != std::string::npos);
        CHECK(folder.entries().empty());
    }
    CHECK(run({"arrange", "--people", "3"}).exit_code == 2);
    CHECK(arrange(folder / "no-folder/x.toml", {"--people", "3"}).exit_code == 3);
}

}  // namespace backrow::command
