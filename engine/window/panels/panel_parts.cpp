#include "window/panels/panels.h"

#include "base/utf8.h"

#include <imgui_stdlib.h>

#include <algorithm>
#include <cfloat>
#include <iterator>
#include <string_view>
#include <utility>
#include <vector>

namespace backrow::window {

namespace {

/// A bare number means what the window shows: feet, or inches for what is small.
std::string with_usual_unit(const std::string& typed, Measure measure, Units units) {
    if (units == Units::metric || !is_plain_number(typed))
        return typed;
    switch (measure) {
    case Measure::metres:
    case Measure::stature_m:
        return typed + " ft";
    case Measure::centimetres:
        return typed + " in";
    default:
        return typed;
    }
}

/// What was typed, without the words that tell a side.
std::optional<double> read_typed(WindowState& state, const Stepper& stepper) {
    std::string text = state.typed_value;
    const std::string minus = stepper.minus;
    bool is_turned = false;
    for (const char* word :
         {stepper.minus, "left", "right", "before", "behind", "forward", "back", "°", "EV", "×"})
        if (const auto at = text.find(word); *word != 0 && at != text.npos) {
            text.erase(at, std::string_view{word}.size());
            is_turned = is_turned || word == minus;
        }
    while (!text.empty() && text.back() == ' ')
        text.pop_back();
    const auto number = number_typed(state, text, stepper.measure);
    if (!number) {
        state.sitting.complain(number.error());
        return std::nullopt;
    }
    return is_turned ? -*number : *number;
}

/// The field in place of the value.
std::optional<double> type_value(WindowState& state, const Stepper& stepper, float width) {
    ImGui::SetNextItemWidth(width);
    if (ImGui::IsWindowFocused() && !ImGui::IsAnyItemActive()) {
        state.field_opens = true;
        ImGui::SetKeyboardFocusHere();
    }
    const bool entered =
        ImGui::InputText("##typed", &state.typed_value,
                         ImGuiInputTextFlags_EnterReturnsTrue | ImGuiInputTextFlags_AutoSelectAll);
    state.widget_rects.note_last(std::string{stepper.label} + " typed",
                                 Control::field(state.typed_value));
    const bool is_left = ImGui::IsItemDeactivated();
    // Left for something else, it counts as well; Esc puts back what was there.
    const bool is_other = state.typed_value != stepper.words;
    std::optional<double> typed;
    if (entered || (is_left && is_other))
        typed = read_typed(state, stepper);
    if (typed || (is_left && !entered))
        state.typed_label.clear();
    return typed;
}

std::string spoken(std::string_view word) {
    std::string words{word};
    for (char& letter : words)
        if (letter == '_')
            letter = ' ';
    return words;
}

}  // namespace

tl::expected<double, std::string> number_typed(const WindowState& state, const std::string& text,
                                               Measure measure) {
    const auto number =
        number_from_spelling(with_usual_unit(text, measure, state.style.lengths), measure);
    if (number)
        return *number;
    return tl::unexpected(number.error().empty() ? "“" + text + "” is no number."
                                                 : "“" + text + "”: " + number.error());
}

std::optional<std::string> choose_word(WindowState& state, const char* label, const char* id,
                                       std::string_view now,
                                       std::span<const std::string_view> words,
                                       const ListLook& look) {
    const auto shown = [&](std::string_view word) {
        return word.empty() ? std::string{look.unsaid} : spoken(word);
    };
    ImGui::AlignTextToFramePadding();
    const float left = ImGui::GetCursorPosX();
    ImGui::TextUnformatted(label);
    ImGui::SameLine(left + state.style.units(look.label_units));
    ImGui::SetNextItemWidth(
        std::min(state.style.units(look.width_units), ImGui::GetContentRegionAvail().x));
    std::optional<std::string> chosen;
    if (ImGui::BeginCombo((std::string{"##"} + id).c_str(), shown(now).c_str())) {
        for (const std::string_view word : words) {
            if (ImGui::Selectable(shown(word).c_str(), word == now))
                chosen = std::string{word};
            state.widget_rects.note_last("word " + (word.empty() ? shown(word) : std::string{word}),
                                         Control::choice(word == now));
        }
        ImGui::EndCombo();
    }
    state.widget_rects.note_last(std::string{"choose "} + id, Control::list(shown(now)));
    return chosen;
}

Stepped draw_stepper(WindowState& state, const Stepper& stepper) {
    const auto column = state.style.units(70);
    const ImVec2 button_size{state.style.units(64), 0};
    // What a narrow panel lacks goes from the value, which stands in the middle.
    const float whole = column + state.style.units(172) + button_size.x;
    const float value =
        state.style.units(172) - std::max(0.0f, whole - ImGui::GetContentRegionAvail().x);
    ImGui::AlignTextToFramePadding();
    const float left = ImGui::GetCursorPosX();
    ImGui::TextUnformatted(stepper.label);
    teach(state, stepper.lesson);
    ImGui::SameLine(left + column);
    Stepped stepped;
    ImGui::PushID(stepper.label);
    ImGui::PushButtonRepeat(true);
    if (ImGui::Button(stepper.less, button_size))
        stepped.way = -1;
    state.widget_rects.note_last(std::string{stepper.label} + " less");
    ImGui::PopButtonRepeat();
    ImGui::SameLine();
    const float room = value - button_size.x - 2 * ImGui::GetStyle().ItemSpacing.x;
    if (state.typed_label == stepper.label) {
        stepped.typed = type_value(state, stepper, room);
    } else {
        ImFont* bold = state.style.fonts.bold;
        const bool fits =
            bold->CalcTextSizeA(bold->FontSize, FLT_MAX, 0, stepper.words.c_str()).x <= room;
        ImGui::PushFont(fits ? bold : state.style.fonts.small);
        ImGui::PushStyleColor(ImGuiCol_Button, IM_COL32_BLACK_TRANS);
        ImGui::PushStyleVar(ImGuiStyleVar_ButtonTextAlign, {0, 0.5f});
        ImGui::PushStyleVar(ImGuiStyleVar_FramePadding, {0, ImGui::GetStyle().FramePadding.y});
        if (ImGui::Button((stepper.words + "##value").c_str(), {room, 0})) {
            state.typed_label = stepper.label;
            state.typed_value = stepper.words;
            state.field_opens = true;
        }
        ImGui::PopStyleVar(2);
        ImGui::PopStyleColor();
        ImGui::PopFont();
        state.widget_rects.note_last(std::string{stepper.label} + " value",
                                     Control::quantity(stepper.words));
        teach(state, stepper.lesson);
    }
    ImGui::SameLine(left + column + value);
    ImGui::PushButtonRepeat(true);
    if (ImGui::Button(stepper.more, button_size))
        stepped.way = 1;
    state.widget_rects.note_last(std::string{stepper.label} + " more");
    ImGui::PopButtonRepeat();
    ImGui::PopID();
    return stepped;
}

void beside_or_below(const WindowState& state) {
    const float room = ImGui::GetContentRegionMax().x - ImGui::GetItemRectSize().x;
    if (room > state.style.units(190))
        ImGui::SameLine(0, state.style.units(10));
}

void beside_where_room(float width) {
    const float right = ImGui::GetWindowPos().x + ImGui::GetWindowContentRegionMax().x;
    if (ImGui::GetItemRectMax().x + ImGui::GetStyle().ItemSpacing.x + width <= right)
        ImGui::SameLine();
}

float button_width(const char* label) {
    return ImGui::CalcTextSize(label).x + 2 * ImGui::GetStyle().FramePadding.x;
}

bool choose_grade(WindowState& state, optics::Grade& grade, const char* name) {
    const optics::Grade before = grade;
    int number = grade == optics::Grade::crisp ? 1 : 0;
    ImGui::AlignTextToFramePadding();
    ImGui::TextUnformatted("Every face");
    ImGui::PushID(name);
    bool changed = false;
    for (const optics::Grade each : {optics::Grade::fine, optics::Grade::crisp}) {
        ImGui::SameLine();
        changed |= ImGui::RadioButton(optics::to_word(each), &number,
                                      each == optics::Grade::crisp ? 1 : 0);
        state.widget_rects.note_last(std::string{"grade "} + optics::to_word(each),
                                     Control::choice(each == before));
    }
    ImGui::PopID();
    grade = number == 1 ? optics::Grade::crisp : optics::Grade::fine;
    return changed;
}

bool button(WindowState& state, const char* label, const char* lesson) {
    const bool pressed = ImGui::Button(label);
    state.widget_rects.note_last(std::string{"button "} + label);
    teach(state, lesson);
    return pressed;
}

std::string cut_to(const std::string& words, float room) {
    std::string cut = words;
    std::vector<char32_t> letters = code_points(words);
    while (ImGui::CalcTextSize(cut.c_str()).x > room && !letters.empty()) {
        letters.pop_back();
        cut = utf8_from(letters) + "…";
    }
    return cut;
}

void end_of_path(const WindowState& state, const std::string& path, float room) {
    const std::string words = on_one_line(path);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float height = ImGui::GetFrameHeight();
    const float left_out = std::min(0.0f, room - ImGui::CalcTextSize(words.c_str()).x);
    ImDrawList& on = *ImGui::GetWindowDrawList();
    on.PushClipRect(at, {at.x + room, at.y + height}, true);
    on.AddText({at.x + left_out, at.y + ImGui::GetStyle().FramePadding.y},
               state.style.theme.faint_ink, words.c_str());
    on.PopClipRect();
    ImGui::Dummy({room, height});
    teach(state, words.c_str());
}

namespace {

struct NamedTab {
    Tab tab;
    const char* name;
    void (*draw)(WindowState&);
};
constexpr NamedTab tabs[]{{Tab::camera, "Camera", draw_camera_panel},
                          {Tab::person, "People", draw_person_panel},
                          {Tab::answers, "Advice", draw_advice_panel},
                          {Tab::odds, "Odds", draw_odds_panel},
                          {Tab::place, "Place", draw_place_panel}};

void draw_tab(WindowState& state, const NamedTab& named) {
    const Style& style = state.style;
    const bool is_shown = state.tab == named.tab;
    ImGui::PushStyleColor(ImGuiCol_Text, is_shown ? style.theme.ink : style.theme.faint_ink);
    ImGui::PushFont(is_shown ? style.fonts.bold : style.fonts.plain);
    ImGui::PushStyleColor(ImGuiCol_Button, IM_COL32_BLACK_TRANS);
    if (ImGui::Button(named.name))
        state.tab = named.tab;
    ImGui::PopStyleColor(2);
    ImGui::PopFont();
    state.widget_rects.note_last(std::string{"tab "} + named.name, Control::choice(is_shown));
    if (!is_shown)
        return;
    const ImVec2 least = ImGui::GetItemRectMin();
    const ImVec2 most = ImGui::GetItemRectMax();
    ImGui::GetWindowDrawList()->AddRectFilled(
        {least.x, most.y}, {most.x, most.y + style.units(2.5)}, style.theme.accent);
}

/// Beside each word of the tabs, so that all of them stand left of the enlarger.
float room_beside_words(const Style& style, float width) {
    constexpr double enlarger_units = 30;
    float words = 0;
    ImGui::PushFont(style.fonts.bold);
    for (const NamedTab& named : tabs)
        words += ImGui::CalcTextSize(named.name).x;
    ImGui::PopFont();
    const ImGuiStyle& usual = ImGui::GetStyle();
    const float each = (width - style.units(enlarger_units) - words) / std::size(tabs);
    return std::clamp((each - usual.ItemSpacing.x) / 2, 0.0f, usual.FramePadding.x);
}

}  // namespace

const char* name_of(Tab tab) noexcept {
    return std::ranges::find(tabs, tab, &NamedTab::tab)->name;
}

void draw_panel(WindowState& state, const Area& area) {
    const Style& style = state.style;
    ImGui::GetWindowDrawList()->AddRectFilled(area.least, area.most, style.theme.paper);
    ImGui::SetCursorScreenPos({area.least.x + style.units(8), area.least.y + style.units(6)});
    ImGui::BeginChild("panel", {area.width() - style.units(14), area.height() - style.units(10)});
    std::size_t first = state.widget_rects.count();
    const float beside = room_beside_words(style, ImGui::GetContentRegionAvail().x);
    ImGui::PushStyleVar(ImGuiStyleVar_FramePadding, {beside, ImGui::GetStyle().FramePadding.y});
    for (const NamedTab& named : tabs) {
        draw_tab(state, named);
        ImGui::SameLine();
    }
    ImGui::PopStyleVar();
    ImGui::NewLine();
    ImGui::Spacing();
    state.widget_rects.note_part("tabs", first);
    if (std::exchange(state.panel_wants_keys, false))
        ImGui::SetNextWindowFocus();
    ImGui::BeginChild(name_of(state.tab));  // each is scrolled by itself
    first = state.widget_rects.count();
    ImGui::PushTextWrapPos(0);
    for (const NamedTab& named : tabs)
        if (state.tab == named.tab)
            named.draw(state);
    ImGui::PopTextWrapPos();
    state.widget_rects.note_part("panel", first);
    ImGui::EndChild();
    ImGui::EndChild();
}

}  // namespace backrow::window
