#pragma once

// Everything that the parts of the window share.

#include "window/async_task.h"
#include "window/fonts.h"
#include "window/pictures/darkroom.h"
#include "window/pictures/saved_picture.h"
#include "window/pictures/screen_picture.h"
#include "window/theme.h"
#include "window/widget_rects.h"

#include "plan/advice/advice.h"
#include "plan/odds/odds.h"
#include "rehearsal/drawing_scale.h"
#include "rehearsal/recovery.h"
#include "rehearsal/sitting.h"
#include "rehearsal/two_states.h"
#include "rehearsal/under_pointer.h"

#include <imgui.h>

#include <chrono>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <variant>

namespace backrow::window {

struct Area {
    ImVec2 least{};
    ImVec2 most{};
    [[nodiscard]] float width() const { return most.x - least.x; }
    [[nodiscard]] float height() const { return most.y - least.y; }
};

/// A print and the texture that shows it.
struct Hung {
    ScreenPicture picture;
    Print print;
    void take(Print&& print_);
};

enum class Tab { camera, person, answers, odds };
enum class Sheet { none, keys, open, save_as, save_picture, leave, left_behind };

/// What a hand has gripped.
struct HeadGrip {
    std::size_t person;
    bool leans;
};
struct Drag {
    std::variant<rehearsal::PersonGrip, rehearsal::LensGrip, rehearsal::FocusGrip, HeadGrip> what;
    rehearsal::DragId id = 0;
    rehearsal::DrawingPoint from{};    ///< Where the pointer gripped it, on the drawing …
    rehearsal::DrawingPoint beside{};  ///< … and from there to what is gripped.
    double lean_m = 0;                 ///< As it was then.
};

/// How quickly the pictures answered.
struct Quickness {
    using Clock = std::chrono::steady_clock;
    std::optional<Clock::time_point> asked;  ///< When the edition now waited for came to be.
    int asked_edition = 0;
    double first_answer_ms = 0;
    rehearsal::DragId measured_drag = 0;  ///< The drag that is being measured.
    Clock::time_point last_drag_picture;
    int drag_pictures = 0;
    double drag_s = 0;
    double drag_pictures_per_s = 0;
};

/// What advice was asked for, and what came of it.
struct AskedAdvice {
    plan::AdviceWanted wanted;
    float step_back_m = 0;                      ///< How much farther away the camera may go.
    std::shared_ptr<const scene::Scene> scene;  ///< Null: never asked.
    std::optional<plan::Advice> advice;
    AsyncTask<std::optional<plan::Advice>> work;
};
struct AskedOdds {
    int edition = -1;  ///< Of which it was asked last.
    optics::Grade grade = optics::Grade::fine;
    std::optional<plan::Odds> odds;
    AsyncTask<plan::Odds> work;
};

struct WindowState {
    explicit WindowState(rehearsal::Sitting sitting_, std::string widget_rects_path)
        : sitting{std::move(sitting_)}, widget_rects{std::move(widget_rects_path)} {}

    rehearsal::Sitting sitting;
    WidgetRects widget_rects;
    Theme theme = day();
    Fonts fonts;
    std::set<ImWchar> foreign_letters;  ///< That the fonts were loaded with.
    double scale = 1;
    double texels_per_unit = 1;  ///< Of the screen; 2 where the system enlarges the window.

    std::optional<Darkroom> darkroom;
    Hung picture;
    std::map<std::size_t, Hung> faces;
    std::map<std::size_t, FaceMeasures> measures;
    Work work = Work::none;
    double share = 0;
    std::string driver;
    std::string darkroom_complaint;

    bool at_full_size = false;              ///< One screen point is one camera pixel …
    rehearsal::ScreenPoint looked_at_px{};  ///< … round this one.
    bool marks = true;
    bool scroll_to_chosen = false;  ///< The strip shows whom a key has just chosen.
    render::CropRect part{};        ///< Of the picture, as last laid out.
    int face_width = 0;             ///< Texels, as last laid out.
    int face_height = 0;

    rehearsal::DrawingScale above;
    rehearsal::DrawingScale side;
    bool above_is_fitted = true;  ///< To what has to be seen, until somebody zooms.
    bool side_is_fitted = true;
    std::optional<Drag> drag;

    Tab tab = Tab::camera;
    Tab shown_tab = Tab::camera;  ///< As the toolkit has it.
    Sheet sheet = Sheet::none;
    std::string typed_path;
    std::string sheet_complaint;
    bool wants_to_leave = false;
    std::string open_after_leaving;  ///< Another scene to open; empty: the window closes.

    rehearsal::TwoStates two;
    Hung kept_picture;  ///< As it looked when it was kept.
    std::map<std::size_t, Hung> kept_faces;
    std::optional<rehearsal::Facts> kept_facts;
    int kept_edition = 0;
    std::string comparison;    ///< Of the kept state with this one, in words …
    int compared_edition = 0;  ///< … when it was of this edition.
    bool flips = false;
    AskedAdvice asked;
    AskedOdds odds;
    rehearsal::Recovery recovery;
    std::optional<std::string> left_behind;
    std::optional<SavedPicture> saving;
    std::string notice;  ///< What was done last, such as saving.
    bool changed_on_disk = false;
    double rested_s = 0;  ///< How long the pointer has not moved.
    Quickness quickness;

    /// What is to be seen: of the scene as it is, or of the kept one while its key is held.
    [[nodiscard]] const scene::Scene& shown_scene() const {
        return flips ? *two.kept() : sitting.scene();
    }
    [[nodiscard]] const rehearsal::Facts& shown_facts() const {
        return flips ? *kept_facts : sitting.facts();
    }

    /// Everything that changes the scene goes through here.
    void make(const rehearsal::Change& change, rehearsal::DragId of_drag = 0);
    /// The scene came about otherwise: undone, reloaded, opened.
    void note_change();
    /// Another scene in place of this one.
    void take_sitting(rehearsal::Sitting other);
};

/// The first letters of a number as long as they count: "8.4", "132".
[[nodiscard]] std::string short_number(double number);

/// "8.4 px, soft".
[[nodiscard]] std::string blur_words(const plan::Face& face);

/// One sentence of the trade, beside what the pointer rests on.
void teach(const WindowState& state, const char* sentence);

}  // namespace backrow::window
