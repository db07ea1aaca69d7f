#include "window/window_state.h"

#include <fmt/format.h>

#include <cmath>
#include <utility>

namespace backrow::window {

void Hung::take(Print&& print_) {
    print = std::move(print_);
    picture.take(print.pixels);
}

void WindowState::make(const rehearsal::Change& change, rehearsal::DragId of_drag) {
    const int before = sitting.edition();
    sitting.make(change, of_drag);
    if (sitting.edition() != before)
        note_change();
}

void WindowState::note_change() {
    notice.clear();
    quickness.asked = Quickness::Clock::now();
    quickness.asked_edition = sitting.edition();
}

void WindowState::take_sitting(rehearsal::Sitting other) {
    recovery.end();
    recovery = {};
    sitting = std::move(other);
    sitting.start_at(quickness.asked_edition + 1);
    two.forget();
    kept_picture = {};
    kept_faces.clear();
    kept_facts.reset();
    faces.clear();
    measures.clear();
    asked.work.give_up();  // or its answer would come for a scene that is gone
    asked.scene.reset();
    asked.advice.reset();
    odds.work.give_up();
    odds.edition = -1;
    odds.odds.reset();
    above_is_fitted = true;
    side_is_fitted = true;
    at_full_size = false;
    sheet = Sheet::none;
    open_after_leaving.clear();
    changed_on_disk = false;
    note_change();
}

std::string short_number(double number) {
    if (!std::isfinite(number))
        return "∞";
    return std::abs(number) < 99.95 ? fmt::format("{:.1f}", number) : fmt::format("{:.0f}", number);
}

std::string blur_words(const plan::Face& face) {
    return short_number(face.predicted_blur_px) + " px, " + optics::to_word(face.grade);
}

void teach(const WindowState& state, const char* sentence) {
    // Whoever is on the way to a button does not want to be taught.
    constexpr double before_lesson_s = 0.5;
    if (!ImGui::IsItemHovered() || state.drag || state.rested_s < before_lesson_s)
        return;
    ImGui::BeginTooltip();
    ImGui::PushTextWrapPos(static_cast<float>(340 * state.scale));
    ImGui::TextUnformatted(sentence);
    ImGui::PopTextWrapPos();
    ImGui::EndTooltip();
}

}  // namespace backrow::window
