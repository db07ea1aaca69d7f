#pragma once

// Everything that the parts of the window share, in parts that each know how to begin anew.

#include "window/drawings/drawings.h"
#include "window/giving_away.h"
#include "window/layout.h"
#include "window/panels/asked_advice.h"
#include "window/panels/asked_odds.h"
#include "window/panels/camera_bag.h"
#include "window/panels/first_page.h"
#include "window/panels/place_state.h"
#include "window/panels/sheet_state.h"
#include "window/pictures/darkroom.h"
#include "window/pictures/kept_state.h"
#include "window/pictures/picture_layout.h"
#include "window/pictures/shown_pictures.h"
#include "window/quickness.h"
#include "window/screen.h"
#include "window/style.h"
#include "window/widget_rects.h"

#include "rehearsal/files/recovery.h"
#include "rehearsal/sitting/sitting.h"

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace backrow::window {

enum class Tab { camera, person, answers, odds, place };
/// Of the panel of people.
enum class PersonPage { place, looks, row };

struct WindowState {
    explicit WindowState(rehearsal::Sitting sitting_, std::string widget_rects_path)
        : sitting{std::move(sitting_)}, widget_rects{std::move(widget_rects_path)} {}

    rehearsal::Sitting sitting;
    rehearsal::Recovery recovery;
    bool changed_on_disk = false;

    WidgetRects widget_rects;
    Style style;
    Tab tab = Tab::camera;
    PersonPage person_page = PersonPage::place;
    std::string typed_name;      ///< In the field of the name …
    std::string named_person;    ///< … of whom.
    bool keys_in_panel = false;  ///< Tab, arrows, Space and Enter work its buttons and fields …
    bool panel_wants_keys = false;      ///< … from the next frame on.
    std::vector<KeyPress> after_field;  ///< Pressed in a field, and not meant for it.
    std::optional<Part> enlarged;       ///< Takes the room of the other parts.
    std::string typed_value;            ///< What is being typed in place of a value …
    std::string typed_label;            ///< … of which stepper; empty for none.
    std::string notice;                 ///< What was done last, such as saving.
    std::string failure;        ///< Why nothing was given away, until somebody has taken note.
    bool wants_frame = false;   ///< One more, though nothing else is new.
    bool field_opens = false;   ///< What is typed now is for a field that gets the keys next frame.
    double rested_s = 0;        ///< How long the pointer has not moved.
    bool has_marks = true;      ///< Over faces in the picture that are not sharp.
    bool shows_chosen = false;  ///< The strip of faces goes to whom a key has just chosen.

    bool shows_first_page = false;
    bool has_scene = true;  ///< Else the sitting only stands in for one until there is.
    FirstPage first_page;
    std::optional<Darkroom> darkroom;
    ShownPictures pictures;
    std::vector<std::string> names_of_faces;  ///< Whose the shown faces are, in order.
    PictureLook look;
    WantedPrints wanted_prints;
    std::optional<GivingAway> giving;
    Quickness quickness;
    Drawings drawings;
    SheetState sheets;
    CameraBag bag;
    KeptPlaces places;
    KeptState kept;
    AskedAdvice advice;
    AskedOdds odds;
    PlaceState place;

    /// What is to be seen: of the scene as it is, or of the kept one while its key is down.
    [[nodiscard]] const scene::Scene& shown_scene() const {
        return kept.is_shown ? *kept.scene() : sitting.scene();
    }
    [[nodiscard]] const rehearsal::Facts& shown_facts() const {
        return kept.is_shown ? *kept.facts : sitting.facts();
    }

    /// Everything that changes the scene goes through here.
    void make(const rehearsal::Change& change, rehearsal::DragId of_drag = 0);
    /// The scene came about otherwise: undone, reloaded, opened.
    void note_change();
    /// Another scene in place of this one.
    void take_sitting(rehearsal::Sitting other);
};

/// One sentence of the trade, beside what the pointer rests on.
void teach(const WindowState& state, const char* sentence);

}  // namespace backrow::window
