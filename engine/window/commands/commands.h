#pragma once

// What buttons and keys do.

#include "window/window_state.h"

#include <optional>

namespace backrow::window {

void stop_down(WindowState& state, int thirds);
void step_back(WindowState& state, double metres);
void slide_camera(WindowState& state, double metres);
void lift_camera(WindowState& state, double metres);
void lengthen_lens(WindowState& state, double mm);
void focus_on_chosen(WindowState& state);
void shift_focus(WindowState& state, double metres);

void choose_worst(WindowState& state);
// Nothing happens where nobody is chosen, and the window says so.
void nudge_chosen(WindowState& state, double across_m, double back_m);
void turn_chosen(WindowState& state, double degrees);
void lean_chosen(WindowState& state, double metres);
void grow_chosen(WindowState& state, double metres);
void next_posture_of_chosen(WindowState& state);
/// The one who was chosen last to a place, counted from the mark; as it is where none is given.
void put_chosen(WindowState& state, std::optional<double> across_m, std::optional<double> back_m);

/// Somebody new, who is chosen from then on.
void add_person(WindowState& state);
void add_another_like_chosen(WindowState& state);
void remove_chosen(WindowState& state);
/// Everybody, or a row; the window says what came of it.
void arrange_again(WindowState& state, std::optional<int> row);
void line_up_chosen(WindowState& state);

void show_at_full_size(WindowState& state);
void enlarge_drawings(WindowState& state, double factor);
void change_light(WindowState& state);
void keep_state(WindowState& state);
void exchange_states(WindowState& state);

/// Looks for answers as the panel says, in the background.
void ask_for_advice(WindowState& state);
/// Other limits for the advice; what was found within the old ones goes.
void change_limits(WindowState& state, int move_cm, float step_back_m, bool other_grade);
void try_answer(WindowState& state, std::size_t number);
void take_answer_back(WindowState& state);

void undo(WindowState& state);
void redo(WindowState& state);
/// Whatever the file has become meanwhile is brought together with what was done here; where the
/// two clash, a sheet asks first.
void save(WindowState& state);
/// The same without saving.
void take_from_file(WindowState& state);
/// As the sheet about clashes was answered.
void settle_clashes(WindowState& state);
/// Offers what an earlier run left unsaved of this scene, where there is such.
void look_for_left_behind(WindowState& state);
void take_left_behind(WindowState& state);
void forget_left_behind(WindowState& state);
void save_as(WindowState& state, const std::string& path);
void open(WindowState& state, const std::string& path);
/// A new group, or another scene.
void show_first_page(WindowState& state);
/// As the first page says; a sheet tells the reasons.
void arrange_new_group(WindowState& state);
void show_file_sheet(WindowState& state, Sheet sheet);
void show_give_away_sheet(WindowState& state);
/// What the sheet says, unless something hinders it or would be replaced unasked; then the sheet
/// says that.
void give_away(WindowState& state);
/// Takes what has become of it, if it has come to an end.
void collect_given(WindowState& state);
/// Asks first where something would be lost.
void leave(WindowState& state);
void let_go(WindowState& state);
/// Tab, arrows, Space and Enter work the panel, until this or Esc gives them back.
void work_panel_by_keys(WindowState& state);

}  // namespace backrow::window
