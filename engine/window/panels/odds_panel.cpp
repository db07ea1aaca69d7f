#include "window/panels/panels.h"
#include "window/screen.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <numeric>
#include <string>
#include <vector>

namespace backrow::window {
namespace {

void tell_frames(const plan::Odds& odds) {
    const auto words = [](const std::optional<std::int64_t>& count) {
        return count ? fmt::format("{}", *count) : std::string{"–"};
    };
    ImGui::TextUnformatted(
        fmt::format("Frames to shoot for one good one: {} for 90 % certainty, {} for 95 %, {} for "
                    "99 %",
                    words(odds.frames.p90), words(odds.frames.p95), words(odds.frames.p99))
            .c_str());
}

/// Those whose faces are sharp least often.
void tell_faces(const plan::Odds& odds, const char* grade) {
    constexpr std::size_t most_told = 3;
    std::vector<std::size_t> order(odds.faces.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::stable_sort(order, {}, [&](std::size_t i) { return odds.faces[i].sharp.value; });
    ImGui::Spacing();
    for (std::size_t i = 0; i < std::min(most_told, order.size()); ++i)
        ImGui::TextUnformatted(fmt::format("{}: {} in {:.1f} %", odds.faces[order[i]].name, grade,
                                           odds.faces[order[i]].sharp.value * 100)
                                   .c_str());
}

}  // namespace

void draw_odds_panel(WindowState& state) {
    optics::Grade grade = state.odds.grade();
    choose_grade(state, grade, "odds");
    if (!state.drawings.drag)
        state.odds.ask(state.sitting.shared_scene(), state.sitting.edition(), grade, Screen::wake);
    if (!state.odds.odds()) {
        ImGui::TextDisabled("counting …");
        return;
    }
    const plan::Odds& odds = *state.odds.odds();
    ImGui::TextUnformatted(fmt::format("All faces {}: {:.1f} % of frames", optics::to_word(grade),
                                       odds.sharp.value * 100)
                               .c_str());
    teach(state, "Nobody stands like a statue: people sway, and so does the photographer.");
    ImGui::TextUnformatted(fmt::format("All eyes open: {:.1f} %", odds.eyes_open * 100).c_str());
    teach(state, "Of twelve people somebody blinks in every other frame.");
    ImGui::TextUnformatted(fmt::format("Both: {:.1f} %", odds.both.value * 100).c_str());
    tell_frames(odds);
    tell_faces(odds, optics::to_word(grade));
}

}  // namespace backrow::window
