#include "window/commands/keys.h"

#include "window/commands/commands.h"

#include <GLFW/glfw3.h>

#include <algorithm>
#include <array>
#include <utility>

namespace backrow::window {
namespace {

constexpr double small_step_m = 0.01;
constexpr double large_step_m = 0.10;

template <int across, int back>
void nudge(WindowState& state) {
    nudge_chosen(state, across * small_step_m, back * small_step_m);
}
template <int across, int back>
void nudge_far(WindowState& state) {
    nudge_chosen(state, across * large_step_m, back * large_step_m);
}

template <Tab tab>
void show_tab(WindowState& state) {
    state.tab = tab;
}
template <Part part>
void enlarge(WindowState& state) {
    state.enlarged = state.enlarged == part ? std::nullopt : std::optional{part};
}

constexpr std::array keys{
    Key{"O", "open up by a third of a stop", GLFW_KEY_O, false, false, true,
        [](WindowState& s) { stop_down(s, -1); }, "Camera"},
    Key{"S", "stop down by a third", GLFW_KEY_S, false, false, true,
        [](WindowState& s) { stop_down(s, 1); }},
    Key{"B", "step back 10 cm", GLFW_KEY_B, false, false, true,
        [](WindowState& s) { step_back(s, large_step_m); }},
    Key{"N", "step nearer 10 cm", GLFW_KEY_N, false, false, true,
        [](WindowState& s) { step_back(s, -large_step_m); }},
    Key{"Z", "longer lens, 1 mm", GLFW_KEY_Z, false, false, true,
        [](WindowState& s) { lengthen_lens(s, 1); }},
    Key{"X", "shorter lens, 1 mm", GLFW_KEY_X, false, false, true,
        [](WindowState& s) { lengthen_lens(s, -1); }},
    Key{"U", "camera higher, 5 cm", GLFW_KEY_U, false, false, true,
        [](WindowState& s) { lift_camera(s, 0.05); }},
    Key{"J", "camera lower, 5 cm", GLFW_KEY_J, false, false, true,
        [](WindowState& s) { lift_camera(s, -0.05); }},
    Key{",", "camera to the left, 5 cm", GLFW_KEY_COMMA, false, false, true,
        [](WindowState& s) { slide_camera(s, -0.05); }},
    Key{".", "camera to the right, 5 cm", GLFW_KEY_PERIOD, false, false, true,
        [](WindowState& s) { slide_camera(s, 0.05); }},
    Key{"F", "focus on the chosen person", GLFW_KEY_F, false, false, false, focus_on_chosen,
        "Focus"},
    Key{"E", "focus between nearest and farthest", GLFW_KEY_E, false, false, false,
        [](WindowState& s) { s.make(rehearsal::focus_evenly()); }},
    Key{"H", "focus 2 cm farther", GLFW_KEY_H, false, false, true,
        [](WindowState& s) { shift_focus(s, 0.02); }},
    Key{"G", "focus 2 cm nearer", GLFW_KEY_G, false, false, true,
        [](WindowState& s) { shift_focus(s, -0.02); }},

    Key{"W", "choose the worst face", GLFW_KEY_W, false, false, false, choose_worst, "People"},
    Key{"Tab", "choose the next face", GLFW_KEY_TAB, false, false, true,
        [](WindowState& s) { s.sitting.choose_next(1); }},
    Key{"Shift Tab", "the one before", GLFW_KEY_TAB, false, true, true,
        [](WindowState& s) { s.sitting.choose_next(-1); }},
    Key{"←", "move 1 cm to picture left", GLFW_KEY_LEFT, false, false, true, nudge<-1, 0>},
    Key{"→", "to picture right", GLFW_KEY_RIGHT, false, false, true, nudge<1, 0>},
    Key{"↑", "away from the camera", GLFW_KEY_UP, false, false, true, nudge<0, 1>},
    Key{"↓", "towards the camera; with Shift 10 cm", GLFW_KEY_DOWN, false, false, true,
        nudge<0, -1>},
    Key{nullptr, nullptr, GLFW_KEY_LEFT, false, true, true, nudge_far<-1, 0>},
    Key{nullptr, nullptr, GLFW_KEY_RIGHT, false, true, true, nudge_far<1, 0>},
    Key{nullptr, nullptr, GLFW_KEY_UP, false, true, true, nudge_far<0, 1>},
    Key{nullptr, nullptr, GLFW_KEY_DOWN, false, true, true, nudge_far<0, -1>},
    Key{"Ctrl ← →", "turn by 5°", GLFW_KEY_LEFT, true, false, true,
        [](WindowState& s) { turn_chosen(s, -5); }},
    Key{nullptr, nullptr, GLFW_KEY_RIGHT, true, false, true,
        [](WindowState& s) { turn_chosen(s, 5); }},
    Key{"Ctrl ↑ ↓", "lean back or forward by 1 cm", GLFW_KEY_UP, true, false, true,
        [](WindowState& s) { lean_chosen(s, small_step_m); }},
    Key{nullptr, nullptr, GLFW_KEY_DOWN, true, false, true,
        [](WindowState& s) { lean_chosen(s, -small_step_m); }},
    Key{"T", "onto the plane of focus", GLFW_KEY_T, false, false, false, line_up_chosen},
    Key{"Insert", "somebody new beside them", GLFW_KEY_INSERT, false, false, false, add_person},
    Key{"Delete", "out of the picture", GLFW_KEY_DELETE, false, false, false, remove_chosen},
    Key{"P", "next posture", GLFW_KEY_P, false, false, false, next_posture_of_chosen},
    Key{"Page ↑", "1 cm taller", GLFW_KEY_PAGE_UP, false, false, true,
        [](WindowState& s) { grow_chosen(s, small_step_m); }},
    Key{"Page ↓", "1 cm shorter", GLFW_KEY_PAGE_DOWN, false, false, true,
        [](WindowState& s) { grow_chosen(s, -small_step_m); }},

    Key{"V", "the picture at 100 %, and whole again", GLFW_KEY_V, false, false, false,
        show_at_full_size, "Looking"},
    Key{"M", "marks over soft faces, on and off", GLFW_KEY_M, false, false, false,
        [](WindowState& s) { s.has_marks = !s.has_marks; }},
    Key{"K", "keep this state to compare with", GLFW_KEY_K, false, false, false, keep_state},
    Key{"Space", "hold: see the kept state", GLFW_KEY_SPACE, false, false, false, nullptr},
    Key{"I", "exchange this state and the kept one", GLFW_KEY_I, false, false, false,
        exchange_states},
    Key{"F9", "by day, by night", GLFW_KEY_F9, false, false, false, change_light},
    Key{"F1", "this sheet", GLFW_KEY_F1, false, false, false,
        [](WindowState& s) { s.sheets.show(Sheet::keys); }},
    Key{"1 … 5", "panel: camera, people, advice, odds, place", GLFW_KEY_1, false, false, false,
        show_tab<Tab::camera>},
    Key{nullptr, nullptr, GLFW_KEY_2, false, false, false, show_tab<Tab::person>},
    Key{nullptr, nullptr, GLFW_KEY_3, false, false, false, show_tab<Tab::answers>},
    Key{nullptr, nullptr, GLFW_KEY_4, false, false, false, show_tab<Tab::odds>},
    Key{nullptr, nullptr, GLFW_KEY_5, false, false, false, show_tab<Tab::place>},
    Key{"F10", "Tab, arrows and Space work the panel; Esc: no more", GLFW_KEY_F10, false, false,
        false, work_panel_by_keys},
    Key{"Ctrl 1 … 5", "as large as the window: picture, faces, above, side, panel", GLFW_KEY_1,
        true, false, false, enlarge<Part::picture>},
    Key{nullptr, nullptr, GLFW_KEY_2, true, false, false, enlarge<Part::faces>},
    Key{nullptr, nullptr, GLFW_KEY_3, true, false, false, enlarge<Part::above>},
    Key{nullptr, nullptr, GLFW_KEY_4, true, false, false, enlarge<Part::side>},
    Key{nullptr, nullptr, GLFW_KEY_5, true, false, false, enlarge<Part::panel>},
    Key{"+  −  Home", "enlarge the drawings, reduce, all", GLFW_KEY_EQUAL, false, false, true,
        [](WindowState& s) { enlarge_drawings(s, 1.25); }},
    Key{nullptr, nullptr, GLFW_KEY_EQUAL, false, true, true,
        [](WindowState& s) { enlarge_drawings(s, 1.25); }},
    Key{nullptr, nullptr, GLFW_KEY_KP_ADD, false, false, true,
        [](WindowState& s) { enlarge_drawings(s, 1.25); }},
    Key{nullptr, nullptr, GLFW_KEY_MINUS, false, false, true,
        [](WindowState& s) { enlarge_drawings(s, 0.8); }},
    Key{nullptr, nullptr, GLFW_KEY_KP_SUBTRACT, false, false, true,
        [](WindowState& s) { enlarge_drawings(s, 0.8); }},
    Key{nullptr, nullptr, GLFW_KEY_HOME, false, false, false,
        [](WindowState& s) { enlarge_drawings(s, 0); }},
    Key{"Q", "look for answers", GLFW_KEY_Q, false, false, false,
        [](WindowState& s) {
            s.tab = Tab::answers;
            ask_for_advice(s);
        },
        "Advice"},
    Key{"Y", "for every face fine, or crisp", GLFW_KEY_Y, false, false, false,
        [](WindowState& s) { change_limits(s, 0, 0, true); }},
    Key{"[  ]", "people may move 5 cm less, more", GLFW_KEY_LEFT_BRACKET, false, false, true,
        [](WindowState& s) { change_limits(s, -5, 0, false); }},
    Key{nullptr, nullptr, GLFW_KEY_RIGHT_BRACKET, false, false, true,
        [](WindowState& s) { change_limits(s, 5, 0, false); }},
    Key{";  '", "step back ½ m less, more", GLFW_KEY_SEMICOLON, false, false, true,
        [](WindowState& s) { change_limits(s, 0, -0.5f, false); }},
    Key{nullptr, nullptr, GLFW_KEY_APOSTROPHE, false, false, true,
        [](WindowState& s) { change_limits(s, 0, 0.5f, false); }},
    Key{"F2 … F7", "try the first … sixth answer", GLFW_KEY_F2, false, false, false,
        [](WindowState& s) { try_answer(s, 0); }},
    Key{nullptr, nullptr, GLFW_KEY_F3, false, false, false,
        [](WindowState& s) { try_answer(s, 1); }},
    Key{nullptr, nullptr, GLFW_KEY_F4, false, false, false,
        [](WindowState& s) { try_answer(s, 2); }},
    Key{nullptr, nullptr, GLFW_KEY_F5, false, false, false,
        [](WindowState& s) { try_answer(s, 3); }},
    Key{nullptr, nullptr, GLFW_KEY_F6, false, false, false,
        [](WindowState& s) { try_answer(s, 4); }},
    Key{nullptr, nullptr, GLFW_KEY_F7, false, false, false,
        [](WindowState& s) { try_answer(s, 5); }},
    Key{"F8", "take the tried answer back", GLFW_KEY_F8, false, false, false, take_answer_back},

    Key{"Ctrl Z", "undo", GLFW_KEY_Z, true, false, true, undo, "File"},
    Key{"Ctrl Y", "redo", GLFW_KEY_Y, true, false, true, redo},
    Key{nullptr, nullptr, GLFW_KEY_Z, true, true, true, redo},
    Key{"Ctrl S", "save", GLFW_KEY_S, true, false, false, save},
    Key{"Ctrl Shift S", "save as", GLFW_KEY_S, true, true, false,
        [](WindowState& s) { show_file_sheet(s, Sheet::save_as); }},
    Key{"Ctrl O", "open another scene", GLFW_KEY_O, true, false, false,
        [](WindowState& s) { show_file_sheet(s, Sheet::open); }},
    Key{"Ctrl N", "a new group: the first page", GLFW_KEY_N, true, false, false, show_first_page},
    Key{"Ctrl R", "take in what the file has now", GLFW_KEY_R, true, false, false, take_from_file},
    Key{"Ctrl P", "give away: picture, strip, tables", GLFW_KEY_P, true, false, false,
        show_give_away_sheet},
    Key{"Ctrl Q", "leave", GLFW_KEY_Q, true, false, false, leave},
    Key{"Esc", "let go, close a sheet", GLFW_KEY_ESCAPE, false, false, false, let_go},
};

}  // namespace

std::span<const Key> all_keys() {
    return keys;
}

namespace {

/// All but numbers, what is pressed with Ctrl, and F1 to F12.
bool goes_to_panel(const KeyPress& press) {
    const bool is_number = press.key >= GLFW_KEY_0 && press.key <= GLFW_KEY_9;
    const bool is_function = press.key >= GLFW_KEY_F1 && press.key <= GLFW_KEY_F12;
    return !is_number && !is_function && !press.ctrl;
}

/// Ctrl with a letter or a number, but for those that a field has for itself: all, copy, paste,
/// cut.
bool leads_out_of_field(const KeyPress& press) {
    constexpr std::array of_field{GLFW_KEY_A, GLFW_KEY_C, GLFW_KEY_V, GLFW_KEY_X};
    const bool is_letter = press.key >= GLFW_KEY_A && press.key <= GLFW_KEY_Z;
    const bool is_number = press.key >= GLFW_KEY_0 && press.key <= GLFW_KEY_9;
    return press.ctrl && !press.alt && (is_letter || is_number) &&
           std::ranges::find(of_field, press.key) == of_field.end();
}

/// Tab and Shift Tab, where they go round.
bool goes_round(const WindowState& state, const KeyPress& press, bool types) {
    return press.key == GLFW_KEY_TAB && !press.ctrl && !press.alt &&
           !ImGui::IsPopupOpen(nullptr, ImGuiPopupFlags_AnyPopup) &&
           (types || state.keys_in_panel || state.shows_first_page ||
            state.sheets.shown != Sheet::none);
}

void obey(WindowState& state, const KeyPress& press) {
    const auto key = std::ranges::find_if(keys, [&](const Key& known) {
        return known.command != nullptr && known.key == press.key && known.ctrl == press.ctrl &&
               known.shift == press.shift && !press.alt && (known.repeats || !press.is_repeat);
    });
    // A sheet over the window takes all keys but the one that closes it; the first page leaves
    // those that lead away from it.
    const bool leads_away = press.key == GLFW_KEY_ESCAPE ||
                            (press.ctrl && (press.key == GLFW_KEY_O || press.key == GLFW_KEY_Q));
    if (key != keys.end() && (state.sheets.shown == Sheet::none || press.key == GLFW_KEY_ESCAPE) &&
        (!state.shows_first_page || leads_away || press.key == GLFW_KEY_F1))
        key->command(state);
    state.shows_chosen = true;
}

}  // namespace

void obey_keys(WindowState& state, const std::vector<KeyPress>& pressed) {
    const bool types = ImGui::GetIO().WantTextInput;
    state.kept.is_shown = !types && ImGui::IsKeyDown(GLFW_KEY_SPACE) &&
                          state.kept.can_stand_for(state.sitting.scene());
    // First the field is left, so that what was typed is in the scene that is saved.
    if (!state.after_field.empty()) {
        state.wants_frame = true;
        if (types)
            leave_field();
        else
            for (const KeyPress& press : std::exchange(state.after_field, {}))
                obey(state, press);
    }
    for (const KeyPress& press : pressed) {
        if (goes_round(state, press, types)) {
            const int way = press.shift ? -1 : 1;
            if (state.sheets.chooser)
                go_round(*state.sheets.chooser, way);
            else
                state.widget_rects.ring.step(way);
            state.field_opens = true;
            continue;
        }
        if (types && state.sheets.shown == Sheet::none && leads_out_of_field(press)) {
            state.after_field.push_back(press);
            state.wants_frame = true;
            continue;
        }
        // Esc closes a sheet even from within a field; elsewhere the field itself is left.
        if (types && (press.key != GLFW_KEY_ESCAPE || state.sheets.shown == Sheet::none))
            continue;
        if (state.keys_in_panel && goes_to_panel(press)) {
            // Esc closes what has been opened from the panel first.
            if (press.key == GLFW_KEY_ESCAPE && state.sheets.shown == Sheet::none &&
                !ImGui::IsPopupOpen(nullptr, ImGuiPopupFlags_AnyPopup))
                work_panel_by_keys(state);
            else if (press.key != GLFW_KEY_ESCAPE || state.sheets.shown == Sheet::none)
                continue;
            else
                let_go(state);
            continue;
        }
        obey(state, press);
    }
}

}  // namespace backrow::window
