#include "window/commands/commands.h"

#include "window/drawings/pen.h"
#include "window/screen.h"

#include "arranging/rearrange.h"
#include "rehearsal/files/recent_paths.h"
#include "rehearsal/hands/group_handling.h"
#include "rehearsal/hands/people_handling.h"
#include "rehearsal/sitting/new_group.h"
#include "render/faces/face_crop.h"
#include "scene/index_of.h"
#include "scene/words.h"

#include "base/whole_path.h"

#include "base/spelt_number.h"

#include <algorithm>
#include <filesystem>

namespace backrow::window {
namespace {

std::string file_name(const std::string& path) {
    return std::filesystem::path{path}.filename().string();
}

/// The person that the keys move, or nothing, and then the window says what to do.
std::optional<std::size_t> chosen(WindowState& state) {
    const auto person = state.sitting.chosen();
    if (!person)
        state.sitting.complain("Choose somebody first: click a face, or press Tab or W.");
    return person;
}

}  // namespace

void stop_down(WindowState& state, int thirds) {
    state.make(rehearsal::stop_down(state.sitting.scene(), thirds));
}

void step_back(WindowState& state, double metres) {
    const scene::Camera& camera = state.sitting.scene().camera;
    state.make(rehearsal::carry_camera(state.sitting.scene(), camera.lens_to_mark_m + metres,
                                       camera.across_m));
}

void slide_camera(WindowState& state, double metres) {
    const scene::Camera& camera = state.sitting.scene().camera;
    state.make(rehearsal::carry_camera(state.sitting.scene(), camera.lens_to_mark_m,
                                       camera.across_m + metres));
}

void lift_camera(WindowState& state, double metres) {
    state.make(rehearsal::raise_camera(state.sitting.scene().camera.height_m + metres));
}

void lengthen_lens(WindowState& state, double mm) {
    state.make(rehearsal::zoom(state.sitting.scene().camera.focal_length_mm + mm));
}

void focus_on_chosen(WindowState& state) {
    if (const auto person = chosen(state))
        state.make(rehearsal::focus_on(state.sitting.scene(), *person));
}

void shift_focus(WindowState& state, double metres) {
    state.make(rehearsal::focus_at(state.sitting.facts().view.lens.focus_m + metres));
}

void choose_worst(WindowState& state) {
    state.sitting.choose(state.sitting.facts().worst_first.front());
}

void nudge_chosen(WindowState& state, double across_m, double back_m) {
    if (chosen(state))
        state.make(
            rehearsal::step(state.sitting.scene(), state.sitting.all_chosen(), across_m, back_m));
}

void put_chosen(WindowState& state, std::optional<double> across_m, std::optional<double> back_m) {
    const auto person = chosen(state);
    if (!person)
        return;
    const scene::FromMark& place = state.sitting.scene().people[*person].place;
    state.make(rehearsal::lead(state.sitting.scene(), *person, across_m.value_or(place.across_m),
                               back_m.value_or(place.back_m), false));
}

namespace {

void take_newcomer(WindowState& state, const rehearsal::Newcomer& newcomer) {
    state.make(newcomer.change);
    const auto there = index_of(state.sitting.scene(), newcomer.name);
    if (!there)
        return;
    state.sitting.choose(*there);
    state.tab = Tab::person;
}

}  // namespace

void add_person(WindowState& state) {
    take_newcomer(state, rehearsal::add_person(state.sitting.scene(), state.sitting.chosen()));
}

void add_another_like_chosen(WindowState& state) {
    if (const auto person = chosen(state))
        take_newcomer(state, rehearsal::add_another_like(state.sitting.scene(), *person));
}

void arrange_again(WindowState& state, std::optional<int> row) {
    const auto again = arranging::rearrange(state.sitting.scene(), row);
    state.make(rehearsal::arrange_again(again));
    state.notice = again.moved.empty()     ? "They stand so already."
                   : again.choices.empty() ? std::string{"Arranged again."}
                                           : "Arranged again: " + again.choices.front().why;
    if (!again.cautions.empty())
        state.notice += " Mind: " + again.cautions.front();
}

void remove_chosen(WindowState& state) {
    if (!chosen(state))
        return;
    const auto change = rehearsal::remove_people(state.sitting.scene(), state.sitting.all_chosen());
    if (change.values.empty())
        state.sitting.complain("Somebody must stay: a picture of nobody is no group.");
    state.make(change);
}

void turn_chosen(WindowState& state, double degrees) {
    if (const auto person = chosen(state))
        state.make(rehearsal::turn(state.sitting.scene(), *person,
                                   state.sitting.scene().people[*person].pose.turn_deg + degrees));
}

void lean_chosen(WindowState& state, double metres) {
    if (const auto person = chosen(state))
        state.make(rehearsal::lean(state.sitting.scene(), *person,
                                   state.sitting.scene().people[*person].pose.lean_m + metres));
}

void grow_chosen(WindowState& state, double metres) {
    if (const auto person = chosen(state))
        state.make(
            rehearsal::grow(state.sitting.scene(), *person,
                            state.sitting.scene().people[*person].measures.stature_m + metres));
}

void next_posture_of_chosen(WindowState& state) {
    const auto person = chosen(state);
    if (!person)
        return;
    const auto now = state.sitting.scene().people[*person].pose.posture;
    const auto& words = scene::words::posture;
    auto next = std::ranges::find(words, now, [](const auto& word) { return word.second; }) + 1;
    if (next == words.end())
        next = words.begin();
    state.make(rehearsal::take_posture(state.sitting.scene(), *person, next->second));
}

void line_up_chosen(WindowState& state) {
    if (chosen(state))
        state.make(rehearsal::line_up(state.sitting.scene(), state.sitting.facts().view,
                                      state.sitting.all_chosen()));
}

void enlarge_drawings(WindowState& state, double factor) {
    if (factor <= 0) {
        state.drawings.show_all();
        return;
    }
    // About the chosen person, or whoever is worst.
    const rehearsal::Facts& facts = state.sitting.facts();
    const std::size_t person = state.sitting.chosen().value_or(facts.worst_first.front());
    DrawingView& above = state.drawings.above;
    DrawingView& side = state.drawings.side;
    above.zoom(screen_from_paper(above.scale, laid_right(facts.above.people[person].head)), factor);
    side.zoom(screen_from_paper(side.scale, facts.side.heads[person].nearer_eye), factor);
}

void show_at_full_size(WindowState& state) {
    if (state.look.is_full_size) {
        state.look = {};
        return;
    }
    const rehearsal::Facts& facts = state.sitting.facts();
    const std::size_t person = state.sitting.chosen().value_or(facts.worst_first.front());
    state.look = {.is_full_size = true,
                  .middle = {facts.view.width_px / 2.0, facts.view.height_px / 2.0}};
    if (const auto face = render::face_crop(facts.view, state.sitting.scene().people[person], 0))
        state.look.middle = {face->left_px + face->width_px / 2,
                             face->top_px + face->height_px / 2};
}

void change_light(WindowState& state) {
    state.style.theme = state.style.theme.is_dark ? day() : night();
    apply(state.style.theme, state.style.scale);
}

void keep_state(WindowState& state) {
    state.kept.two.keep(state.sitting.edited());
    state.kept.keep_look(state.sitting, state.pictures);
    state.notice = "Kept. Hold Space to see it again, I to exchange the two.";
}

void exchange_states(WindowState& state) {
    if (state.kept.scene() == nullptr) {
        state.sitting.complain("Nothing is kept yet: K keeps this state.");
        return;
    }
    state.kept.keep_look(state.sitting, state.pictures);
    state.sitting.exchange(state.kept.two);
    state.note_change();
}

void ask_for_advice(WindowState& state) {
    state.advice.ask(state.sitting.shared_scene(), Screen::wake);
}

void change_limits(WindowState& state, int move_cm, float step_back_m, bool other_grade) {
    AskedAdvice::Limits limits = state.advice.limits();
    limits.wanted.most_move_cm += move_cm;
    limits.step_back_m += step_back_m;
    if (other_grade)
        limits.wanted.grade =
            limits.wanted.grade == optics::Grade::fine ? optics::Grade::crisp : optics::Grade::fine;
    state.advice.set_limits(limits);
}

void try_answer(WindowState& state, std::size_t number) {
    const auto answers = state.advice.answers(state.sitting.scene(), state.style.lengths);
    if (answers && number < answers->things.size())
        state.make(answers->things[number].change);
}

void take_answer_back(WindowState& state) {
    if (const auto answers = state.advice.answers(state.sitting.scene(), state.style.lengths))
        state.make(answers->take_back);
}

void undo(WindowState& state) {
    state.sitting.undo();
    state.note_change();
}

void redo(WindowState& state) {
    state.sitting.redo();
    state.note_change();
}

namespace {

void write_file(WindowState& state) {
    if (const auto saved = state.sitting.save(); !saved) {
        state.sitting.complain(to_line(saved.error()));
        return;
    }
    state.changed_on_disk = false;
    state.notice = "Saved " + file_name(state.sitting.edited().path());
}

/// What the file has brought together with what was done here; nothing where it is no scene.
std::optional<rehearsal::Merged> merged_with_file(WindowState& state) {
    auto merged = state.sitting.edited().merged_with_file();
    if (merged)
        return std::move(*merged);
    state.sitting.complain(to_line(merged.error().front()));
    return std::nullopt;
}

/// Whether the scene now has what the file has as well.
bool take_in(WindowState& state, const rehearsal::Merged& merged,
             const std::vector<std::string>& from_file) {
    if (const auto taken = state.sitting.take_merged(merged, from_file); !taken) {
        state.sitting.complain(to_line(taken.error().front()));
        return false;
    }
    state.changed_on_disk = false;
    state.note_change();
    return true;
}

/// Whether there is something to ask before what the file has is taken in; then a sheet does.
bool asks_about_clashes(WindowState& state, const rehearsal::Merged& merged, bool saves) {
    if (merged.clashes.empty() && !merged.is_either_or)
        return false;
    state.sheets.clashes = merged.clashes;
    state.sheets.takes_from_file.assign(state.sheets.clashes.size(), false);
    state.sheets.is_either_or = merged.is_either_or;
    state.sheets.saves_after_clash = saves;
    state.sheets.show(Sheet::clash);
    return true;
}

/// Whether both are together now, without anything to ask; else a sheet asks.
bool bring_together(WindowState& state, bool saves) {
    const auto merged = merged_with_file(state);
    return merged && !asks_about_clashes(state, *merged, saves) && take_in(state, *merged, {});
}

}  // namespace

void look_for_left_behind(WindowState& state) {
    if (!state.has_scene) {
        if (auto scene = rehearsal::left_scene()) {
            state.sheets.show(Sheet::left_behind);
            state.sheets.left_behind = std::move(scene->text);
            state.sheets.left_path = std::move(scene->path);
        }
        return;
    }
    auto left = rehearsal::left_behind(state.sitting.edited());
    if (!left) {
        state.sitting.complain(to_line(left.error().front()));
    } else if (*left) {
        state.sheets.left_behind = std::move(*left);
        state.sheets.show(Sheet::left_behind);
    }
}

void take_left_behind(WindowState& state) {
    const std::string text = *state.sheets.left_behind;
    if (!state.sheets.left_path.empty()) {
        auto sitting = rehearsal::Sitting::begin(text, state.sheets.left_path);
        if (!sitting) {
            state.sheets.complaint = to_line(sitting.error().front());
            return;
        }
        state.take_sitting(std::move(*sitting));
    } else {
        state.sitting.take_text("Take up unsaved changes", text);
        state.note_change();
        state.sheets.left_behind.reset();
        state.sheets.close();
    }
    // What was taken up is kept safe before the old file goes.
    if (const auto kept = state.recovery.follow(state.sitting.edited()); !kept)
        state.sitting.complain(to_line(kept.error()));
    else
        rehearsal::forget_left_behind(state.sitting.edited().path());
}

void forget_left_behind(WindowState& state) {
    const std::string& elsewhere = state.sheets.left_path;
    rehearsal::forget_left_behind(elsewhere.empty() ? state.sitting.edited().path() : elsewhere);
    state.sheets.left_behind.reset();
    state.sheets.left_path.clear();
    state.sheets.close();
    look_for_left_behind(state);
}

void save(WindowState& state) {
    if (state.sitting.edited().is_new())
        return show_file_sheet(state, Sheet::save_as);
    if (!state.sitting.edited().was_changed_on_disk())
        return write_file(state);
    if (!bring_together(state, true))
        return;
    write_file(state);
    if (!state.sitting.edited().has_unsaved_changes())
        state.notice += "; what somebody else had changed in it is in it, too.";
}

void take_from_file(WindowState& state) {
    if (!bring_together(state, false))
        return;
    state.notice = "Took in what the file has; Ctrl Z brings back what was here.";
}

void settle_clashes(WindowState& state) {
    std::vector<std::string> from_file;
    for (std::size_t i = 0; i < state.sheets.clashes.size(); ++i)
        if (state.sheets.takes_from_file[i])
            from_file.push_back(state.sheets.clashes[i].key);
    const bool keeps_here = state.sheets.is_either_or && !state.sheets.takes_whole_file;
    state.sheets.close();
    if (keeps_here) {
        state.sitting.overrule_file();
        state.changed_on_disk = false;
    } else {
        // Anew: the file may have changed while the sheet was open.
        const auto merged = merged_with_file(state);
        if (!merged || !take_in(state, *merged, from_file))
            return;
    }
    if (state.sheets.saves_after_clash && state.sitting.edited().has_unsaved_changes())
        write_file(state);
}

void save_as(WindowState& state, const std::string& path) {
    const auto saved = state.sitting.save_as(path);
    if (!saved)
        state.sheets.complaint = to_line(saved.error().front());
    else if (!*saved)
        state.sheets.complaint = to_line(saved->error());
    else {
        state.sheets.close();
        state.changed_on_disk = false;
        rehearsal::note_recent(rehearsal::Recent::scenes, path);
        state.places.keep(state.sitting.edited());
        state.note_change();
        state.notice =
            "Saved " + file_name(path);  // last: a change takes back what was said before
    }
}

void open(WindowState& state, const std::string& path) {
    auto opened = rehearsal::Sitting::open(path);
    if (!opened) {
        // Where it was asked for.
        const bool has_sheet = state.sheets.shown != Sheet::none;
        (has_sheet ? state.sheets.complaint : state.first_page.no_scene) =
            to_line(opened.error().front());
        state.first_page.shows_no_scene = !has_sheet;
        return;
    }
    if (state.has_scene && state.sitting.edited().has_unsaved_changes() &&
        state.sheets.open_after_leaving != path) {
        state.sheets.open_after_leaving = path;
        state.sheets.show(Sheet::leave);
        return;
    }
    state.take_sitting(std::move(*opened));
    rehearsal::note_recent(rehearsal::Recent::scenes, path);
}

void show_file_sheet(WindowState& state, Sheet sheet) {
    state.sheets.show(sheet);
    const bool opens = sheet == Sheet::open;
    const std::string& scene = state.sitting.edited().path();
    const auto folders = rehearsal::recent_paths(rehearsal::Recent::folders);
    state.sheets.chooser = file_chooser(
        opens ? rehearsal::ChoiceOf::file_to_read : rehearsal::ChoiceOf::file_to_write, {".toml"},
        !opens            ? scene
        : folders.empty() ? std::filesystem::path{whole_path(scene)}.parent_path().string()
                          : folders.front(),
        opens);
}

void leave(WindowState& state) {
    state.sheets.open_after_leaving.clear();
    if ((state.has_scene && state.sitting.edited().has_unsaved_changes()) || state.giving)
        state.sheets.show(Sheet::leave);
    else
        state.sheets.is_leaving = true;
}

void show_first_page(WindowState& state) {
    find_scenes(state.first_page);
    state.first_page.group.units = state.style.lengths;
    state.first_page.complaint.clear();
    state.first_page.no_scene.clear();
    state.first_page.wants_keys = true;
    state.shows_first_page = true;
}

namespace {

/// "85", "85 mm", "85/1.8", "85 mm f/1.8". Whether it is a lens, or nothing.
bool read_lens(const std::string& typed, rehearsal::NewGroup& group) {
    group.focal_length_mm.reset();
    group.f_number.reset();
    if (typed.find_first_not_of(' ') == typed.npos)
        return true;
    const auto cut = typed.find_first_of("f/");
    const auto focal = number_from_spelling(typed.substr(0, cut), Measure::millimetres);
    if (!focal)
        return false;
    group.focal_length_mm = *focal;
    if (cut == typed.npos)
        return true;
    const auto from = typed.find_first_not_of("f/ ", cut);
    const auto f_number =
        number_from_spelling(from == typed.npos ? "" : typed.substr(from), Measure::f_number);
    if (f_number)
        group.f_number = *f_number;
    return f_number.has_value();
}

}  // namespace

void arrange_new_group(WindowState& state) {
    FirstPage& page = state.first_page;
    if (!read_lens(page.typed_lens, page.group)) {
        page.complaint = "“" + page.typed_lens + "” is no lens; write 85 or 85/1.8";
        return;
    }
    const auto begun = rehearsal::begin_group(page.group);
    if (!begun) {
        Problem problem = begun.error().front();
        if (problem.where.file.starts_with("--"))
            problem.where = {};  // an option, which nobody has typed here
        page.complaint = to_line(problem);
        return;
    }
    if (state.has_scene && state.sitting.edited().has_unsaved_changes()) {
        page.complaint = "There are changes that are not saved: go back to them with Esc, and save "
                         "or undo them first.";
        return;
    }
    auto sitting = rehearsal::Sitting::begin(begun->text, rehearsal::free_scene_path("."));
    if (!sitting) {
        page.complaint = to_line(sitting.error().front());
        return;
    }
    page.complaint.clear();
    page.reasons.clear();
    for (const arranging::Choice& choice : begun->choices)
        page.reasons.push_back(choice.what + ": " + choice.value + " – " + choice.why);
    for (const std::string& caution : begun->cautions)
        page.reasons.push_back("Mind: " + caution);
    state.take_sitting(std::move(*sitting));
    state.sheets.show(Sheet::reasons);
}

void work_panel_by_keys(WindowState& state) {
    state.keys_in_panel = !state.keys_in_panel;
    state.panel_wants_keys = state.keys_in_panel;
    if (state.keys_in_panel && state.enlarged && state.enlarged != Part::panel)
        state.enlarged.reset();
    state.notice = state.keys_in_panel
                       ? "Tab and arrows go through the panel, Space presses, Esc leaves it."
                       : std::string{};
}

// Letting go of something in hand takes back what the hand did.
void let_go(WindowState& state) {
    if (state.drawings.drag) {
        if (state.sitting.edited().ends_with(state.drawings.drag->id))
            undo(state);
        state.drawings.drag.reset();
    } else if (state.sheets.shown != Sheet::none) {
        state.sheets.step_back();
    } else if (state.giving) {
        state.giving->stop();
    } else if (!state.failure.empty()) {
        state.failure.clear();
    } else if (state.shows_first_page && state.has_scene) {
        state.shows_first_page = false;
    } else if (state.enlarged) {
        state.enlarged.reset();
    } else {
        state.sitting.choose(std::nullopt);
        state.look = {};
    }
}

}  // namespace backrow::window
