#pragma once

// Hands that nobody leads, on a scene file that another hand changes as well. Whatever they do,
// the text reads back as the scene that is held, what was refused has changed nothing, nothing goes
// that was not asked to go, and undoing all of it gives the first text.

#include "rehearsal/files/recovery.h"
#include "rehearsal/hands/drag.h"
#include "rehearsal/sitting/sitting.h"
#include "rehearsal/told/differences.h"

#include "scene_file/reading/read_scene.h"

#include "base/state_folder.h"

#include "deeds_by_lot.h"
#include "file_by_lot.h"
#include "kept_home.h"
#include "nothing_lost.h"
#include "presses_by_lot.h"

#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <string>
#include <utility>
#include <vector>

namespace backrow::rehearsal {

namespace fs = std::filesystem;

/// Of several runs, so that none of it goes untried.
struct Happened {
    int changes = 0;
    int refusals = 0;
    int drags_undone = 0;
    int merges = 0;
    int clashes = 0;
    int either_or = 0;
    int broken_files = 0;
    int crashes_survived = 0;
    int steps_forgotten = 0;
};

class Run {
public:
    Run(std::uint64_t seed, const std::string& text, bool is_begun, Happened& happened)
        : lot_{seed}, happened_{happened}, file_{home_.folder.path("group.toml")}, sitting_{begin(
                                                                                       text,
                                                                                       is_begun)} {}

    void act() {
        const double share = lot_.between(0, 1);
        if (share < 0.4)
            note("a deed", [&] { make(deed_by_lot({sitting_.scene(), lot_})); });
        else if (share < 0.58)
            note("a drag", [&] { drag(); });
        else if (share < 0.63)
            note("undo", [&] { undo(); });
        else if (share < 0.67)
            note("redo", [&] { redo(); });
        else if (share < 0.7)
            note("choosing", [&] { choose(); });
        else if (share < 0.73)
            note("another state", [&] { exchange(); });
        else if (share < 0.83)
            note("another hand", [&] {
                if (!sitting_.edited().is_new())
                    file_.change(lot_);
            });
        else if (share < 0.92)
            note("taking in the file", [&] { take_in(); });
        else if (share < 0.96)
            note("saving", [&] { save(); });
        else if (share < 0.98)
            note("saving elsewhere", [&] { save_elsewhere(); });
        else
            note("a crash", [&] { crash(); });
    }

    void undo_all() {
        while (sitting_.edited().can_redo())
            sitting_.redo();
        const std::string last = text();
        while (sitting_.edited().can_undo()) {
            sitting_.undo();
            check_scene();
        }
        CHECK(text() == first_text_);
        while (sitting_.edited().can_redo())
            sitting_.redo();
        CHECK(text() == last);
    }

private:
    KeptHome home_;
    Lot lot_;
    Happened& happened_;
    std::string first_text_;
    FileByLot file_;
    Sitting sitting_;
    TwoStates two_;
    Recovery recovery_;

    Sitting begin(const std::string& text, bool is_begun) {
        const std::string scenes = std::string{BACKROW_SOURCE_DIR} + "/scenes";
        for (const char* folder : {"models", "lenses"})
            fs::copy(scenes + '/' + folder, home_.folder.path(folder));
        home_.folder.write("place.png", "no picture is opened here");
        home_.folder.write("bench.obj", "v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 3\n");
        home_.folder.write("broken.obj", "v 0 0\nf 1 2 9\n");
        first_text_ = text;
        if (!is_begun) {
            home_.folder.write("group.toml", text);
            file_.is_written(text);
        }
        auto sitting = is_begun ? Sitting::begin(text, file_.path()) : Sitting::open(file_.path());
        REQUIRE(sitting);
        return std::move(*sitting);
    }

    [[nodiscard]] const std::string& text() const { return sitting_.edited().text(); }
    [[nodiscard]] Moment moment() const { return {text(), sitting_.edited().scene().people}; }

    template <class Act>
    void note(const std::string& what, Act act) {
        INFO(what);
        act();
        check_scene();
        CHECK(on_disk(file_.path()) == file_.text());
    }

    /// What is held is what would be read, and everybody who is chosen is there.
    void check_scene() {
        const auto read = scene_file::read_scene_text(text(), file_.path());
        INFO((read ? std::string{} : to_line(read.error().front())));
        REQUIRE(read);
        const scene::Scene& held = sitting_.edited().scene();
        CHECK(same_scene(held, *read));
        CHECK(std::ranges::equal(held.models, read->models, {}, &scene::Model::file,
                                 &scene::Model::file));
        CHECK(std::ranges::equal(sitting_.scene().people, read->people, {}, &scene::Person::name,
                                 &scene::Person::name));
        CHECK(sitting_.facts().table.faces.size() == read->people.size());
        for (const std::size_t person : sitting_.all_chosen())
            CHECK(person < read->people.size());
    }

    void make(const Change& change, DragId drag = 0) {
        const Moment before = moment();
        const int edition = sitting_.edition();
        const bool could_redo = sitting_.edited().can_redo();
        sitting_.make(change, drag);
        INFO(change.what << ": " << fmt::format("{}", fmt::join(change.values, " ")));
        INFO(sitting_.complaint());
        if (text() == before.text) {
            happened_.refusals += !sitting_.complaint().empty();
            CHECK(sitting_.edition() == edition);
            CHECK(sitting_.edited().can_redo() == could_redo);
            return;
        }
        CHECK(sitting_.complaint().empty());
        CHECK_FALSE(sitting_.edited().can_redo());
        ++happened_.changes;
        check_nothing_lost(before, change.values, moment());
    }

    // ---- pointers ----

    void drag() {
        const Pointer with{.reach_m = 0.05, .with_ctrl = lot_.in(0.1), .with_shift = lot_.in(0.3)};
        const Press pressed = press_by_lot(lot_, sitting_, with);
        sitting_.choose_all(pressed.chosen);
        if (!pressed.grip)
            return;
        const std::string before = text();
        const Drag drag{*pressed.grip, sitting_.new_drag()};
        const bool in_picture = drawing_of(drag.grip) == Drawing::picture;
        const double far = lot_.in(0.05) ? 1e5 : in_picture ? 3000 : 2;
        const plan::DrawingPoint middle =
            in_picture ? plan::DrawingPoint{3000, 2000}
                       : near(lot_, something_from_above(lot_, sitting_.facts().above), 0.5);
        bool was_interrupted = false;
        for (int moves = static_cast<int>(lot_.between(1, 6)); moves > 0; --moves) {
            Pointer pointer = with;
            pointer.at = near(lot_, middle, far);
            if (lot_.in(0.1))
                pointer.with_shift = !pointer.with_shift;
            make(drag_to(sitting_.scene(), sitting_.facts(), drag.grip, pointer), drag.id);
            if (lot_.in(0.03)) {
                was_interrupted = true;
                note("a drag, and meanwhile", [&] { interrupt(); });
            }
        }
        if (was_interrupted || text() == before)
            return;
        ++happened_.drags_undone;
        const std::string after = text();
        sitting_.undo();
        CHECK(text() == before);
        sitting_.redo();
        CHECK(text() == after);
    }

    void interrupt() {
        switch (lot_.below(5)) {
        case 0:
            return undo();
        case 1:
            return save();
        case 2:
            return take_in();
        case 3:
            return exchange();
        default:
            return make(deed_by_lot({sitting_.scene(), lot_}));
        }
    }

    // ---- back and forth ----

    void undo() {
        for (int steps = static_cast<int>(lot_.between(1, 5)); steps > 0; --steps)
            sitting_.undo();
    }

    void redo() {
        for (int steps = static_cast<int>(lot_.between(1, 5)); steps > 0; --steps)
            sitting_.redo();
    }

    void choose() {
        const std::size_t person = lot_.below(sitting_.scene().people.size());
        switch (lot_.below(4)) {
        case 0:
            return sitting_.choose(person);
        case 1:
            return sitting_.choose_also(person);
        case 2:
            return sitting_.choose_next(lot_.in(0.5) ? 1 : -1);
        default:
            return sitting_.choose({});
        }
    }

    void exchange() {
        if (two_.kept() == nullptr || lot_.in(0.3))
            return two_.keep(sitting_.edited());
        const std::string before = text();
        sitting_.exchange(two_);
        if (!sitting_.complaint().empty())
            CHECK(text() == before);
        else if (lot_.in(0.5)) {
            sitting_.exchange(two_);
            CHECK(text() == before);
        }
    }

    // ---- files ----

    void take_in() {
        const EditedScene& edited = sitting_.edited();
        if (!edited.was_changed_on_disk())
            return;
        const std::string before = text();
        const auto merged = edited.merged_with_file();
        if (!merged) {
            ++happened_.broken_files;
            CHECK_FALSE(scene_file::read_scene_text(file_.text(), file_.path()));
            CHECK(text() == before);
            if (lot_.in(0.3))
                overrule();
            return;
        }
        if (lot_.in(0.2))
            return overrule();
        std::vector<std::string> from_file;
        for (const Clash& clash : merged->clashes)
            if (lot_.in(0.5))
                from_file.push_back(clash.key);
        const auto taken = sitting_.take_merged(*merged, from_file);
        INFO((taken ? std::string{} : to_line(taken.error().front())));
        if (!taken) {
            CHECK(text() == before);
            return;
        }
        CHECK_FALSE(edited.was_changed_on_disk());
        check_scene();
        ++(merged->is_either_or ? happened_.either_or : happened_.merges);
        happened_.clashes += !merged->clashes.empty();
        if (file_.has_only_values_by_others())
            check_both_are_there(before, *merged, from_file);
        file_.is_known();
    }

    /// What the other hand set, and what was here, each where the other has not been preferred.
    void check_both_are_there(const std::string& before, const Merged& merged,
                              const std::vector<std::string>& from_file) {
        const Told ours = told(before), now = told(text());
        for (const auto& [key, value] : file_.set_by_others()) {
            CAPTURE(key, merged.is_either_or);
            const bool clashes =
                std::ranges::find(merged.clashes, key, &Clash::key) != merged.clashes.end();
            const bool is_taken = std::ranges::find(from_file, key) != from_file.end();
            REQUIRE(now.contains(key));
            if (!clashes || is_taken)
                CHECK(now.at(key) == value);
            else
                CHECK(now.at(key) == ours.at(key));
        }
        if (merged.is_either_or)
            return;
        for (const auto& [key, value] : ours)
            if (!file_.set_by_others().contains(key)) {
                CAPTURE(key);
                REQUIRE(now.contains(key));
                CHECK(now.at(key) == value);
            }
    }

    void overrule() {
        const std::string before = text();
        sitting_.overrule_file();
        CHECK(text() == before);
        CHECK_FALSE(sitting_.edited().was_changed_on_disk());
        file_.is_known();
    }

    void save() {
        REQUIRE(sitting_.save());
        file_.is_written(text());
        CHECK_FALSE(sitting_.edited().has_unsaved_changes());
        CHECK_FALSE(sitting_.edited().was_changed_on_disk());
        CHECK(scene_file::read_scene(file_.path()));
    }

    void save_elsewhere() {
        const std::array<const char*, 3> names{"group.toml", "group 2.toml", "aside/group.toml"};
        fs::create_directories(home_.folder.path("aside"));
        const std::string to = home_.folder.path(lot_.one_of(names));
        const std::string before = text();
        const std::vector<std::string> texts = texts_of_all_steps();
        const auto saved = sitting_.save_as(to);
        CHECK(text() == before);
        if (!saved || !*saved) {
            CHECK(sitting_.edited().path() == file_.path());
            return;
        }
        file_ = FileByLot{to};
        file_.is_written(text());
        check_steps_kept(texts);
    }

    /// From the first to the last; then it is where it was.
    std::vector<std::string> texts_of_all_steps() {
        int back = 0;
        for (; sitting_.edited().can_undo(); ++back)
            sitting_.undo();
        std::vector<std::string> texts{text()};
        for (; sitting_.edited().can_redo(); --back) {
            sitting_.redo();
            texts.push_back(text());
        }
        for (; back < 0; ++back)
            sitting_.undo();
        return texts;
    }

    /// All that can be read from the new place, and up to the first that cannot.
    void check_steps_kept(const std::vector<std::string>& before) {
        const std::vector<std::string> now = texts_of_all_steps();
        const auto kept = std::ranges::search(before, now);
        REQUIRE_FALSE(kept.empty());
        if (kept.begin() != before.begin())
            CHECK_FALSE(scene_file::read_scene_text(*(kept.begin() - 1), file_.path()));
        if (kept.end() != before.end())
            CHECK_FALSE(scene_file::read_scene_text(*kept.end(), file_.path()));
        happened_.steps_forgotten += now.size() < before.size();
        first_text_ = now.front();
    }

    /// The power fails: the window is opened again, and what it had not saved is offered.
    void crash() {
        REQUIRE(recovery_.follow(sitting_.edited()));
        if (!scene_file::read_scene_text(file_.text(), file_.path()) || sitting_.edited().is_new())
            return;
        const std::string before = text();
        const bool was_unsaved = sitting_.edited().has_unsaved_changes();
        const auto kept = recovery_file(file_.path());
        REQUIRE(kept);
        if (was_unsaved)
            end_process_of(*kept);
        recovery_ = Recovery{};
        two_.forget();
        auto again = Sitting::open(file_.path());
        REQUIRE(again);
        sitting_ = std::move(*again);
        file_.is_known();
        first_text_ = text();
        CHECK(first_text_ == file_.text());
        const auto left = left_behind(sitting_.edited());
        REQUIRE(left);
        CHECK(left->has_value() == (was_unsaved && before != first_text_));
        happened_.crashes_survived += left->has_value();
        if (*left)
            sitting_.take_text("Take up unsaved changes", **left);
        if (was_unsaved)
            CHECK(text() == before);
        forget_left_behind(sitting_.edited().path());
        CHECK_FALSE(fs::exists(*kept));
    }

    /// The recovery file as if its process were no more.
    static void end_process_of(const std::string& file) {
        std::string bytes = on_disk(file);
        const auto begin = bytes.find("process ");
        REQUIRE(begin != bytes.npos);
        bytes.replace(begin, bytes.find('\n', begin) - begin, "process 1 1");
        REQUIRE(write_state(file, bytes));
    }
};

}  // namespace backrow::rehearsal
