#pragma once

// The parts of the window with buttons and numbers.

#include "window/window_state.h"

#include "base/spelt_number.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace backrow::window {

/// As high as its buttons need, one line or more.
[[nodiscard]] float top_bar_height(const WindowState& state, float width);
void draw_top_bar(WindowState& state, const Area& area);
/// In a corner of a part: it takes the room of the others, or gives it back.
void draw_enlarger(WindowState& state, Part part, const Area& area);
/// As it is written on the tab: "Camera".
[[nodiscard]] const char* name_of(Tab tab) noexcept;
/// Camera, people, advice, odds, place, one at a time.
void draw_panel(WindowState& state, const Area& area);
void draw_camera_panel(WindowState& state);
void draw_person_panel(WindowState& state);
void draw_advice_panel(WindowState& state);
void draw_odds_panel(WindowState& state);
void draw_place_panel(WindowState& state);
/// On a sheet: a photo of which two points are clicked, and how far apart they are.
void draw_photo_sheet(WindowState& state);
/// One line: what went wrong, what was done, or how the picture comes along.
[[nodiscard]] float foot_height(const WindowState& state, float width);
void draw_foot(WindowState& state, const Area& area);
/// Whatever lies over the window.
void draw_sheet(WindowState& state);
void draw_give_away_sheet(WindowState& state);

/// A value with a button at each side. It can be typed as well, once it is clicked on.
struct Stepper {
    const char* label;
    std::string words;  ///< The value, drawn between the buttons.
    const char* less;
    const char* more;
    const char* lesson;
    Measure measure = Measure::plain;  ///< What a bare number that is typed means.
    const char* minus = "";            ///< A word that turns what is typed round: "left".
};
struct Stepped {
    int way = 0;                  ///< −1 or +1 for what was pressed.
    std::optional<double> typed;  ///< In the measure's unit.
};
[[nodiscard]] Stepped draw_stepper(WindowState& state, const Stepper& stepper);
/// The next group goes beside the last one where there is room for words, else below it.
void beside_or_below(const WindowState& state);
/// What comes next, so wide, goes beside the last thing where there is room, else below it.
void beside_where_room(float width);
[[nodiscard]] float button_width(const char* label);
/// What somebody typed as a number, in the measure's unit; or what is wrong with it.
[[nodiscard]] tl::expected<double, std::string>
number_typed(const WindowState& state, const std::string& text, Measure measure);
/// How a list of words stands beside its label.
struct ListLook {
    double label_units = 84;  ///< From the beginning of the label to the list.
    double width_units = 128;
    const char* unsaid = "by name";  ///< For the empty word.
};
/// A list of words for one thing; whether another was chosen, and which.
///
/// now  shown as chosen
[[nodiscard]] std::optional<std::string> choose_word(WindowState& state, const char* label,
                                                     const char* id, std::string_view now,
                                                     std::span<const std::string_view> words,
                                                     const ListLook& look = {});
/// "Every face fine or crisp". Whether it was changed.
///
/// name  of the question, for the toolkit
bool choose_grade(WindowState& state, optics::Grade& grade, const char* name);
/// A button with its rectangle noted and a lesson; whether it was pressed.
[[nodiscard]] bool button(WindowState& state, const char* label, const char* lesson);
/// The words, or where the room is too little so many letters of them as fit, and “…”.
[[nodiscard]] std::string cut_to(const std::string& words, float room);
/// A path on one line in so much room; where that is too little its end, which tells most.
void end_of_path(const WindowState& state, const std::string& path, float room);

}  // namespace backrow::window
