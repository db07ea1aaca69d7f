#include "window/window_state.h"

#include <algorithm>
#include <utility>

namespace backrow::window {

void WindowState::make(const rehearsal::Change& change, rehearsal::DragId of_drag) {
    const int before = sitting.edition();
    sitting.make(change, of_drag);
    if (sitting.edition() != before)
        note_change();
}

void WindowState::note_change() {
    notice.clear();
    if (!std::ranges::equal(sitting.scene().people, names_of_faces, {}, &scene::Person::name)) {
        names_of_faces.clear();
        for (const scene::Person& person : sitting.scene().people)
            names_of_faces.push_back(person.name);
        pictures.forget_faces(sitting.edition());
    }
    quickness.ask(sitting.edition(), std::chrono::steady_clock::now());
}

void WindowState::take_sitting(rehearsal::Sitting other) {
    shows_first_page = false;
    has_scene = true;
    recovery.end();
    recovery = {};
    changed_on_disk = false;
    const int next_edition = sitting.edition() + 1;
    sitting = std::move(other);
    sitting.start_at(next_edition);
    names_of_faces.clear();
    look = {};
    drawings.show_all();
    sheets = {};
    kept = {};
    places.open(sitting.edited());
    advice.forget();
    odds.forget();
    place = {};
    note_change();
}

void teach(const WindowState& state, const char* sentence) {
    // Whoever is on the way to a button does not want to be taught.
    constexpr double before_lesson_s = 0.5;
    if (!ImGui::IsItemHovered() || state.drawings.drag || state.rested_s < before_lesson_s)
        return;
    ImGui::BeginTooltip();
    ImGui::PushTextWrapPos(state.style.units(340));
    ImGui::TextUnformatted(sentence);
    ImGui::PopTextWrapPos();
    ImGui::EndTooltip();
}

}  // namespace backrow::window
