#include "rehearsal/files/recovery.h"

#include "../scene_file/scene_folder.h"

#include "base/process.h"

#include <catch2/catch.hpp>

#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

using namespace backrow;
using namespace backrow::rehearsal;

namespace {

namespace fs = std::filesystem;

const std::string duo = "[[row]]\npeople = [\"Ana\", \"Ben\"]\n";

/// A scene, and a folder of its own for what is kept safe.
struct Home {
    scene_file::SceneFolder folder;
    std::string scene = folder.write("duo.toml", duo);

    Home() { ::setenv("XDG_STATE_HOME", folder.path("state").c_str(), 1); }
    ~Home() { ::unsetenv("XDG_STATE_HOME"); }

    [[nodiscard]] EditedScene open() const { return *EditedScene::open(scene); }
    [[nodiscard]] std::string file() const { return *recovery_file(scene); }
    [[nodiscard]] std::string kept() const {
        std::ifstream stream{file(), std::ios::binary};
        return {std::istreambuf_iterator<char>{stream}, {}};
    }
    void write(const std::string& bytes) const {
        fs::create_directories(fs::path{file()}.parent_path());
        std::ofstream{file(), std::ios::binary} << bytes;
    }
    /// As if the run that wrote it had ended.
    void end_its_run() const {
        const std::string bytes = kept();
        const std::string line = fmt::format("process {} ", ::getpid());
        const auto start = bytes.find(line);
        REQUIRE(start != bytes.npos);
        write(fmt::format("{}{}1{}", bytes.substr(0, start), line,
                          bytes.substr(bytes.find('\n', start))));
    }
    /// The only problem found, without the folder.
    [[nodiscard]] std::string complaint() const {
        const auto left = left_behind(open());
        REQUIRE_FALSE(left);
        REQUIRE(left.error().size() == 1);
        CHECK(left.error().front().where.file == file());
        return left.error().front().what;
    }
};

}  // namespace

TEST_CASE("what was unsaved when the power went is there at the next start",
          "[rehearsal][property]") {
    const Home home;
    std::string unsaved;
    {
        EditedScene edited = home.open();
        Recovery recovery;
        REQUIRE(edited.change("f/4", {"camera.f_number=4.0"}));
        REQUIRE(recovery.follow(edited));
        unsaved = edited.text();
        // Whoever opens the scene meanwhile is not offered what another is at.
        CHECK(left_behind(home.open()).value() == std::nullopt);
    }
    home.end_its_run();
    EditedScene again = home.open();
    const auto left = left_behind(again);
    REQUIRE(left);
    REQUIRE(*left == unsaved);
    REQUIRE(again.take_text("Take back what was not saved", **left));
    CHECK(again.scene().camera.f_number == 4);
    again.undo();
    CHECK(again.text() == duo);
    forget_left_behind(again.path());
    CHECK_FALSE(fs::exists(home.file()));
    CHECK(left_behind(again).value() == std::nullopt);
}

TEST_CASE("nothing is kept of a scene that is saved, or left in order", "[rehearsal][property]") {
    const Home home;
    EditedScene edited = home.open();
    Recovery recovery;
    REQUIRE(recovery.follow(edited));
    CHECK_FALSE(fs::exists(home.file()));
    REQUIRE(edited.change("f/4", {"camera.f_number=4.0"}));
    REQUIRE(recovery.follow(edited));
    CHECK(fs::exists(home.file()));
    REQUIRE(edited.save());
    REQUIRE(recovery.follow(edited));
    CHECK_FALSE(fs::exists(home.file()));
    REQUIRE(edited.change("f/8", {"camera.f_number=8.0"}));
    REQUIRE(recovery.follow(edited));
    recovery.end();
    CHECK_FALSE(fs::exists(home.file()));
    // Only its owner may read what may be private.
    CHECK(fs::status(fs::path{home.file()}.parent_path()).permissions() == fs::perms::owner_all);
}

TEST_CASE("what an earlier run left is not lost before anybody has been asked",
          "[rehearsal][property]") {
    const Home home;
    EditedScene edited = home.open();
    Recovery recovery;
    REQUIRE(edited.change("f/4", {"camera.f_number=4.0"}));
    REQUIRE(recovery.follow(edited));
    home.end_its_run();
    EditedScene again = home.open();
    Recovery next;
    REQUIRE(next.follow(again));
    next.end();
    CHECK(left_behind(again).value() == edited.text());
}

TEST_CASE("the file is written when something has changed, and only then",
          "[rehearsal][property]") {
    const Home home;
    EditedScene edited = home.open();
    Recovery recovery;
    REQUIRE(edited.change("f/4", {"camera.f_number=4.0"}));
    REQUIRE(recovery.follow(edited));
    fs::remove(home.file());
    REQUIRE(recovery.follow(edited));
    CHECK_FALSE(fs::exists(home.file()));
    REQUIRE(edited.change("f/8", {"camera.f_number=8.0"}));
    REQUIRE(recovery.follow(edited));
    CHECK(home.kept().find("f_number = 8.0") != std::string::npos);
    edited.undo();
    REQUIRE(recovery.follow(edited));
    CHECK(home.kept().find("f_number = 4.0") != std::string::npos);
    edited.undo();
    REQUIRE(recovery.follow(edited));
    CHECK_FALSE(fs::exists(home.file()));
}

TEST_CASE("a scene saved under another name is followed there", "[rehearsal][property]") {
    const Home home;
    EditedScene edited = home.open();
    Recovery recovery;
    REQUIRE(edited.change("f/4", {"camera.f_number=4.0"}));
    REQUIRE(recovery.follow(edited));
    REQUIRE(edited.save_as(home.folder.path("trio.toml")));
    REQUIRE(edited.change("f/8", {"camera.f_number=8.0"}));
    REQUIRE(recovery.follow(edited));
    CHECK_FALSE(fs::exists(home.file()));
    CHECK(fs::exists(*recovery_file(edited.path())));
}

TEST_CASE("another window's unsaved changes are not written over", "[rehearsal][property]") {
    const Home home;
    // Process 1 runs as long as the machine does.
    const auto started = [] {
        Process first{.number = 1, .started = 0};
        while (!still_runs(first) && first.started < 1000)
            ++first.started;
        return first.started;
    }();
    if (!still_runs({.number = 1, .started = started}))
        return;  // A container in which it cannot be seen.
    const std::string theirs = fmt::format("backrow recovery 1\nprocess 1 {}\nscene {}\ntext 1\n\n"
                                           "{}\n#",
                                           started, home.scene.size(), home.scene);
    home.write(theirs);
    EditedScene edited = home.open();
    CHECK(left_behind(edited).value() == std::nullopt);
    Recovery recovery;
    REQUIRE(edited.change("f/4", {"camera.f_number=4.0"}));
    CHECK(recovery.follow(edited));  // Beside theirs.
    CHECK(home.kept() == theirs);
    const auto in_folder = [&] {
        const fs::path folder = fs::path{home.file()}.parent_path();
        return std::distance(fs::directory_iterator{folder}, fs::directory_iterator{});
    };
    CHECK(in_folder() == 2);
    recovery.end();
    forget_left_behind(edited.path());
    CHECK(home.kept() == theirs);
    CHECK(in_folder() == 1);

    // Two windows that ended otherwise than in order: one is offered, then the other.
    const std::string first = home.file();
    const std::string second = first.substr(0, first.size() - 9) + "-77.recovery";
    const auto left = [&](char letter) {
        return fmt::format("backrow recovery 1\nprocess 999999999 1\nscene {}\ntext {}\n\n{}\n{}",
                           home.scene.size(), duo.size() + 3, home.scene,
                           fmt::format("{}#{}\n", duo, letter));
    };
    home.write(left('a'));
    std::ofstream{second, std::ios::binary} << left('b');
    const EditedScene again = home.open();
    const auto offered = left_behind(again);
    REQUIRE(offered);
    REQUIRE(*offered);
    forget_left_behind(again.path());
    const auto next = left_behind(again);
    REQUIRE(next);
    REQUIRE(*next);
    CHECK(**next != **offered);
    forget_left_behind(again.path());
    CHECK(left_behind(again).value() == std::nullopt);
}

TEST_CASE("a damaged or hostile recovery file is refused in one line", "[rehearsal][property]") {
    const Home home;
    const std::string path = fs::weakly_canonical(home.scene).string();
    const auto file = [](const std::string& scene, const std::string& text, std::size_t claimed) {
        return fmt::format("backrow recovery 1\nprocess 999999999 1\nscene {}\ntext {}\n\n{}\n{}",
                           scene.size(), claimed, scene, text);
    };
    const std::string noted = fmt::format("{}# a note\n", duo);
    const std::string sound = file(path, noted, noted.size());
    home.write(sound);
    CHECK(left_behind(home.open()).value() == noted);

    const std::string damaged = "unsaved changes of an earlier run are damaged";
    for (const std::string& bytes :
         {std::string{}, std::string{"backrow recovery 1\n"}, std::string(1000, '\0'),
          fmt::format("backrow recovery 2\n{}", sound.substr(19)), fmt::format("{}x", sound),
          sound.substr(0, sound.size() - 1), file(path, duo, 1u << 30),
          std::string{"backrow recovery 1\nprocess 1 1\nscene -5\ntext 3\n\n"},
          std::string{"backrow recovery 1\nprocess 1 1\nscene 99999999999999999999\ntext 3\n\n"},
          std::string{
              "backrow recovery 1\nprocess 1 1\nscene 3\ntext 9223372036854775807\n\nabc\n"}}) {
        CAPTURE(bytes);
        home.write(bytes);
        CHECK(home.complaint() == damaged);
    }
    // Cut short at any place it is damaged, never half believed.
    for (std::size_t length = 0; length < sound.size(); length += 7) {
        home.write(sound.substr(0, length));
        CHECK(home.complaint() == damaged);
    }
    home.write(file("/elsewhere/duo.toml", duo, duo.size()));
    CHECK(home.complaint() == "unsaved changes of an earlier run are of another scene");
    home.write(file(path, "[camera", 7));
    CHECK(home.complaint().starts_with("unsaved changes of an earlier run are no scene: "));
    home.write("");
    fs::resize_file(home.file(), most_recovery_bytes + 1);
    CHECK(home.complaint() == "unsaved changes of an earlier run take more than 16 MB");
    // Neither a folder nor a pipe is waited for.
    fs::remove(home.file());
    fs::create_directory(home.file());
    CHECK(home.complaint() == "unsaved changes of an earlier run cannot be read");
    fs::remove(home.file());
    REQUIRE(::mkfifo(home.file().c_str(), 0600) == 0);
    CHECK(home.complaint() == "unsaved changes of an earlier run cannot be read");
}

TEST_CASE("where unsaved changes are kept follows the usual variables", "[rehearsal][property]") {
    const Home home;
    CHECK(home.file().starts_with(home.folder.path("state/backrow/")));
    // However the scene is named, it is one scene.
    CHECK(*recovery_file(home.folder.path("x/../duo.toml")) == home.file());
    CHECK(*recovery_file(home.folder.path("trio.toml")) != home.file());
    const std::string before = std::getenv("HOME") ? std::getenv("HOME") : "";
    ::setenv("XDG_STATE_HOME", "not/from/the/root", 1);
    ::setenv("HOME", "/home/somebody", 1);
    CHECK(home.file().starts_with("/home/somebody/.local/state/backrow/"));
    ::unsetenv("HOME");
    CHECK_FALSE(recovery_file(home.scene));
    EditedScene edited = home.open();
    REQUIRE(edited.change("f/4", {"camera.f_number=4.0"}));
    Recovery recovery;
    CHECK_FALSE(recovery.follow(edited));
    CHECK(recovery.follow(edited));
    CHECK(left_behind(edited).value() == std::nullopt);
    if (!before.empty())
        ::setenv("HOME", before.c_str(), 1);
}

TEST_CASE("a group that was never saved is there at the next start, wherever that is",
          "[rehearsal][property]") {
    const Home home;
    CHECK_FALSE(left_scene());
    home.write("damaged");  // told to whoever opens that scene
    const std::string path = home.folder.path("group.toml");
    const std::string file = *recovery_file(path);
    const auto left_by = [&](int process, const std::string& text) {
        std::ofstream{file, std::ios::binary}
            << fmt::format("backrow recovery 1\nprocess {} 1\nscene {}\ntext {}\n\n{}\n{}", process,
                           path.size(), text.size(), path, text);
    };
    left_by(999999999, "no scene");
    CHECK_FALSE(left_scene());
    left_by(999999999, duo);
    const auto left = left_scene();
    REQUIRE(left);
    CHECK(left->path == path);
    CHECK(left->text == duo);
    // What has a file is offered to whoever opens it.
    home.folder.write("group.toml", duo);
    CHECK_FALSE(left_scene());
    fs::remove(path);
    REQUIRE(left_scene());
    forget_left_behind(left->path);
    CHECK_FALSE(left_scene());
}

TEST_CASE("a new group in another window is not offered while that window is open",
          "[rehearsal][property]") {
    const Home home;
    const auto edited = EditedScene::begin(duo, home.folder.path("group.toml"));
    REQUIRE(edited);
    Recovery recovery;
    REQUIRE(recovery.follow(*edited));
    REQUIRE(fs::exists(*recovery_file(edited->path())));
    CHECK_FALSE(left_scene());
}
