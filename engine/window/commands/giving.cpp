#include "window/commands/commands.h"

#include "window/screen.h"

#include <utility>

namespace backrow::window {

// What was chosen is kept while the sheet is away; another scene begins with what was kept last.
void show_give_away_sheet(WindowState& state) {
    state.sheets.show(Sheet::give_away);
    if (!state.sheets.give_away)
        state.sheets.give_away = {.choices = delivery::kept_choices(state.sitting.edited().path())};
    state.sheets.give_away->to_replace.clear();
}

void give_away(WindowState& state) {
    GiveAwayForm& form = *state.sheets.give_away;
    state.sheets.complaint.clear();
    state.failure.clear();
    if (const auto why = delivery::hindrance(form.choices)) {
        state.sheets.complaint = delivery::to_line(*why);
        return;
    }
    const auto asked_about = std::exchange(form.to_replace, {});
    if (auto standing = delivery::standing_already(form.choices); standing != asked_about) {
        form.to_replace = std::move(standing);
        return;
    }
    delivery::keep(form.choices);
    const auto& scene = state.sitting.shared_scene();
    state.giving.emplace(scene, form.choices,
                         delivery::Asked{.odds_grade = state.odds.grade(),
                                         .advice = state.advice.wanted_of(*scene),
                                         .units = state.style.lengths,
                                         .language = papers::language_of_environment()},
                         Screen::wake);
}

void collect_given(WindowState& state) {
    auto end = state.giving->end();
    if (!end)
        return;
    state.giving.reset();
    state.failure = std::move(end->failure);
    if (end->notice.empty())
        return;
    state.notice = std::move(end->notice);
    if (state.sheets.shown == Sheet::give_away && !state.sheets.chooser)
        state.sheets.close();
}

}  // namespace backrow::window
