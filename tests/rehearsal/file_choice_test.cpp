#include "rehearsal/files/file_choice.h"

#include "kept_home.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <string>

using namespace backrow;
using namespace backrow::rehearsal;

namespace {

/// "scenes" with two folders and two files, and a choice that begins there.
struct Looking : KeptHome {
    Looking() {
        for (const char* name :
             {"scenes/old/in.toml", "scenes/parks/in.toml", "scenes/choir.toml", "scenes/duo.toml"})
            folder.write(name, "");
    }
    [[nodiscard]] std::string place(const std::string& name) const { return whole + "/" + name; }
    [[nodiscard]] FileChoice begin(ChoiceOf of, const std::string& name) const {
        return {of, {".toml"}, place(name)};
    }
};

std::string marked_in(const FileChoice& choice) {
    return choice.marked() ? choice.list().entries[*choice.marked()].name : "";
}

}  // namespace

TEST_CASE("a scene is opened by arrows and Enter alone", "[rehearsal][property]") {
    const Looking here;
    FileChoice choice = here.begin(ChoiceOf::file_to_read, "scenes");
    CHECK(choice.typed().empty());
    choice.step(1);
    CHECK(marked_in(choice) == "old");
    CHECK(choice.typed().empty());
    choice.step(100);
    CHECK(marked_in(choice) == "duo.toml");
    choice.step(-1);
    CHECK(choice.typed() == "choir.toml");
    CHECK(choice.enter() == here.place("scenes/choir.toml"));
}

TEST_CASE("into a folder and out again, and one knows where one was", "[rehearsal][property]") {
    const Looking here;
    FileChoice choice = here.begin(ChoiceOf::file_to_read, "scenes");
    choice.find('P');
    CHECK(marked_in(choice) == "parks");
    CHECK_FALSE(choice.enter());
    CHECK(choice.list().folder == here.place("scenes/parks"));
    CHECK_FALSE(choice.marked());
    choice.go_up();
    CHECK(choice.list().folder == here.place("scenes"));
    CHECK(marked_in(choice) == "parks");
}

TEST_CASE("no way leads up from the root", "[rehearsal][property]") {
    FileChoice choice{ChoiceOf::file_to_read, {".toml"}, "/"};
    choice.go_up();
    CHECK(choice.list().folder == "/");
}

TEST_CASE("a letter goes to the next of its names, and round", "[rehearsal][property]") {
    const Looking here;
    here.folder.write("scenes/Crew.toml", "");
    FileChoice choice = here.begin(ChoiceOf::file_to_read, "scenes");
    choice.find('c');
    CHECK(marked_in(choice) == "choir.toml");
    choice.find('c');
    CHECK(marked_in(choice) == "Crew.toml");
    choice.find('c');
    CHECK(marked_in(choice) == "choir.toml");
    choice.find('x');
    CHECK(marked_in(choice) == "choir.toml");
}

TEST_CASE("a path is typed from here, from home or from the root", "[rehearsal][property]") {
    const Looking here;
    FileChoice choice = here.begin(ChoiceOf::file_to_read, "scenes");
    choice.type("old/in.toml");
    CHECK(choice.enter() == here.place("scenes/old/in.toml"));
    choice.type(here.place("elsewhere.toml"));
    CHECK(choice.enter() == here.place("elsewhere.toml"));
    choice.type("old");
    CHECK_FALSE(choice.enter());
    CHECK(choice.list().folder == here.place("scenes/old"));
    CHECK(choice.typed().empty());

    const std::string home = std::getenv("HOME") != nullptr ? std::getenv("HOME") : "";
    ::setenv("HOME", here.place("scenes").c_str(), 1);
    choice.type("~/parks");
    CHECK_FALSE(choice.enter());
    CHECK(choice.list().folder == here.place("scenes/parks"));
    choice.type("~");
    CHECK_FALSE(choice.enter());
    CHECK(choice.list().folder == here.place("scenes"));
    ::setenv("HOME", home.c_str(), 1);
}

TEST_CASE("nothing typed and nothing marked is said to be nothing", "[rehearsal][property]") {
    const Looking here;
    FileChoice choice = here.begin(ChoiceOf::file_to_read, "scenes");
    CHECK_FALSE(choice.enter());
    CHECK_FALSE(choice.complaint().empty());
    choice.type("d");
    CHECK(choice.complaint().empty());
}

TEST_CASE("a file is replaced only by somebody who was asked", "[rehearsal][property]") {
    const Looking here;
    FileChoice choice = here.begin(ChoiceOf::file_to_write, "scenes/choir.toml");
    CHECK(choice.typed() == "choir.toml");
    CHECK_FALSE(choice.enter());
    CHECK(choice.asks_to_replace());
    CHECK(choice.complaint() == "choir.toml is there already.");
    // Another name is another question.
    choice.type("duo.toml");
    CHECK_FALSE(choice.asks_to_replace());
    CHECK_FALSE(choice.enter());
    CHECK(choice.enter() == here.place("scenes/duo.toml"));
    choice.type("trio");
    CHECK(choice.enter() == here.place("scenes/trio.toml"));
    choice.type("nowhere/trio.toml");
    CHECK_FALSE(choice.enter());
    CHECK_THAT(choice.complaint(), Catch::Contains("There is no folder"));
}

TEST_CASE("the name stays while another folder is looked for", "[rehearsal][property]") {
    const Looking here;
    FileChoice choice = here.begin(ChoiceOf::file_to_write, "scenes/trio.toml");
    choice.step(1);
    CHECK_FALSE(choice.enter());
    CHECK(choice.list().folder == here.place("scenes/old"));
    CHECK(choice.enter() == here.place("scenes/old/trio.toml"));
}

TEST_CASE("a folder is chosen by standing in it", "[rehearsal][property]") {
    const Looking here;
    FileChoice choice = here.begin(ChoiceOf::folder, "scenes");
    CHECK(choice.list().entries.size() == 2);
    choice.step(1);
    CHECK_FALSE(choice.enter());
    CHECK(choice.enter() == here.place("scenes/old"));
    choice.type("nowhere");
    CHECK_FALSE(choice.enter());
    CHECK_FALSE(choice.complaint().empty());
}

TEST_CASE("what comes and goes while somebody looks is seen", "[rehearsal][property]") {
    const Looking here;
    FileChoice choice = here.begin(ChoiceOf::file_to_read, "scenes");
    choice.find('d');
    here.folder.write("scenes/band.toml", "");
    std::filesystem::last_write_time(here.place("scenes"),
                                     choice.list().as_of + std::chrono::seconds{1});
    choice.refresh();
    CHECK(choice.list().entries.size() == 5);
    CHECK(marked_in(choice) == "duo.toml");
    std::filesystem::remove(here.place("scenes/duo.toml"));
    std::filesystem::last_write_time(here.place("scenes"),
                                     choice.list().as_of + std::chrono::seconds{1});
    choice.refresh();
    CHECK_FALSE(choice.marked());
}

TEST_CASE("a folder that goes while somebody stands in it is told, not fallen over",
          "[rehearsal][property]") {
    const Looking here;
    FileChoice choice = here.begin(ChoiceOf::file_to_read, "scenes/old");
    std::filesystem::remove_all(here.place("scenes/old"));
    choice.refresh();
    CHECK(choice.list().entries.empty());
    CHECK_FALSE(choice.list().complaint.empty());
    choice.step(1);
    choice.find('a');
    CHECK_FALSE(choice.enter());
    choice.go_up();
    CHECK(choice.list().folder == here.place("scenes"));
}
