#include "window/commands/commands.h"
#include "window/face_words.h"
#include "window/panels/panels.h"

#include "rehearsal/hands/group_handling.h"
#include "rehearsal/hands/looks.h"
#include "rehearsal/hands/people_handling.h"
#include "rehearsal/hands/row_handling.h"
#include "scene/index_of.h"
#include "scene/rows.h"
#include "scene/set_people.h"
#include "scene/settle.h"

#include "base/units.h"

#include <fmt/format.h>
#include <imgui_stdlib.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace backrow::window {
namespace {

constexpr double row_step_m = 0.05;
constexpr double spacing_step_m = 0.02;

std::string side(double metres, const char* minus, const char* plus, Units units) {
    const double cm = std::round(metres * 100);
    const LengthScale scale =
        std::abs(cm) < 100 ? LengthScale::whole_centimetres : LengthScale::metres;
    const std::string length = length_words(std::abs(metres), scale, units);
    return cm == 0 ? length : length + ' ' + (cm < 0 ? minus : plus);
}

void tell_place(const WindowState& state, const plan::Face& face) {
    ImGui::PushFont(state.style.fonts.small);
    ImGui::PushTextWrapPos(0);
    const Units units = state.style.lengths;
    const auto drift = [&](double m) {
        return std::isinf(m) ? std::string{"any"}
                             : length_words(m, LengthScale::whole_centimetres, units);
    };
    ImGui::TextUnformatted(fmt::format("{} from the lens, {}; margin {} forward, {} back",
                                       length_words(face.axial_m, LengthScale::metres, units),
                                       offset_words(face, units), drift(face.margin.front_m),
                                       drift(face.margin.back_m))
                               .c_str());
    ImGui::PopTextWrapPos();
    ImGui::PopFont();
}

/// What can be done to everybody who stands in a row.
void draw_row(WindowState& state, int row, double up_m) {
    const std::vector<std::size_t> people = scene::people_in_row(state.sitting.scene(), row);
    if (button(state, "Choose them all", "Everybody in this row, to dress or lead them together."))
        state.sitting.choose_all(people);
    ImGui::PushButtonRepeat(true);
    if (button(state, "forward##row", "All of them by 5 cm towards the camera side."))
        state.make(rehearsal::step(state.sitting.scene(), people, 0, -row_step_m));
    ImGui::SameLine();
    if (button(state, "back##row", "All of them by 5 cm away from the camera side."))
        state.make(rehearsal::step(state.sitting.scene(), people, 0, row_step_m));
    ImGui::SameLine();
    if (button(state, "up##row",
               "Onto a step 5 cm higher. Risers must be built and rated for the people on them."))
        state.make(rehearsal::raise_row(row, up_m + row_step_m));
    ImGui::SameLine();
    if (button(state, "down##row", "Onto a step 5 cm lower."))
        state.make(rehearsal::raise_row(row, up_m - row_step_m));
    ImGui::PopButtonRepeat();
    if (button(state, "Line up on the focus",
               "Each of them until the nearer eye lies in the plane of focus: what straightens a "
               "row before the lens has to be stopped down."))
        state.make(rehearsal::line_up(state.sitting.scene(), state.sitting.facts().view, people));
    if (button(state, "behind gaps",
               "Half a place aside, so that heads look through between those in front."))
        state.make(rehearsal::stagger_row(row, true));
    ImGui::SameLine();
    if (button(state, "behind heads", "Without the half place."))
        state.make(rehearsal::stagger_row(row, false));
    const double spacing_m = rehearsal::row_spacing_m(state.sitting.scene(), row);
    if (spacing_m <= 0)
        return;
    if (button(state, "closer##row",
               "Shoulders behind shoulders; at about half a metre they touch."))
        state.make(rehearsal::space_row(row, spacing_m - spacing_step_m));
    ImGui::SameLine();
    if (button(state, "wider##row", "More room between them."))
        state.make(rehearsal::space_row(row, spacing_m + spacing_step_m));
    ImGui::SameLine();
    ImGui::Text(
        "%s", length_words(spacing_m, LengthScale::whole_centimetres, state.style.lengths).c_str());
}

/// Who is looked at: of several, the one who was chosen last.
void tell_name(WindowState& state, std::size_t number, const plan::Face& face) {
    if (state.named_person != face.name) {
        state.named_person = face.name;
        state.typed_name = face.name;
    }
    ImGui::SetNextItemWidth(state.style.units(150));
    const bool entered =
        ImGui::InputText("##name", &state.typed_name,
                         ImGuiInputTextFlags_EnterReturnsTrue | ImGuiInputTextFlags_AutoSelectAll);
    state.widget_rects.note_last("name", Control::field(state.typed_name));
    teach(state, "Another name: type it and press Enter. Where nothing else is said, the name "
                 "decides how somebody looks.");
    if (entered || ImGui::IsItemDeactivatedAfterEdit()) {
        const std::vector<std::size_t> chosen = state.sitting.all_chosen();
        state.make(rehearsal::rename(state.sitting.scene(), number, state.typed_name));
        state.sitting.choose_all(chosen);  // under another name still the same
    }
    ImGui::SameLine();
    const ImVec2 at = ImGui::GetCursorScreenPos();
    draw_verdict(*ImGui::GetWindowDrawList(), {at.x, at.y + state.style.units(3)}, verdict_of(face),
                 state.style.scale);
    ImGui::SetCursorScreenPos({at.x + state.style.units(30), at.y});
    ImGui::AlignTextToFramePadding();
    ImGui::TextUnformatted(blur_words(face).c_str());
    if (const std::size_t others = state.sitting.all_chosen().size() - 1; others > 0) {
        ImGui::SameLine();
        ImGui::TextDisabled("and %zu more", others);
    }
}

void draw_people_buttons(WindowState& state) {
    if (button(state, "Add",
               "Somebody new at picture right of the chosen, or at the end of the "
               "front row (Insert)."))
        add_person(state);
    ImGui::SameLine();
    if (state.sitting.all_chosen().empty())
        return;
    if (button(state, "Copy", "Another like this, beside them."))
        add_another_like_chosen(state);
    ImGui::SameLine();
    if (button(state, "Take out", "Whoever is chosen leaves the picture (Delete)."))
        remove_chosen(state);
    if (state.sitting.all_chosen().size() == 2) {
        beside_where_room(button_width("Change places"));
        if (button(state, "Change places", "The two who are chosen, each where the other was."))
            state.make(rehearsal::change_places(state.sitting.scene(),
                                                state.sitting.all_chosen()[0],
                                                state.sitting.all_chosen()[1]));
    }
}

/// Which page of the panel shows.
void choose_page(WindowState& state) {
    constexpr std::array pages{std::pair{PersonPage::place, "Place"},
                               std::pair{PersonPage::looks, "Looks"},
                               std::pair{PersonPage::row, "Row"}};
    for (const auto& [page, name] : pages) {
        if (ImGui::RadioButton(name, state.person_page == page))
            state.person_page = page;
        state.widget_rects.note_last(std::string{"page "} + name,
                                     Control::choice(state.person_page == page));
        ImGui::SameLine();
    }
    ImGui::NewLine();
}

/// Some value of the chosen people.
struct Bodily {
    Stepper stepper;
    void (*step)(WindowState&, int way);
    void (*set)(WindowState&, double value);
};

void draw_bodily(WindowState& state, std::span<const Bodily> all) {
    for (const Bodily& one : all) {
        const Stepped stepped = draw_stepper(state, one.stepper);
        if (stepped.typed)
            one.set(state, *stepped.typed);
        else if (stepped.way != 0)
            one.step(state, stepped.way);
    }
}

void draw_place_page(WindowState& state, std::size_t number) {
    const std::shared_ptr<const scene::Scene> scene = state.sitting.shared_scene();
    const scene::Person& person = scene->people[number];
    const Units units = state.style.lengths;
    const Bodily steppers[]{
        {{"Across", side(person.place.across_m, "left", "right", units), "left##a", "right##a",
          "From the mark, to picture left or right.", Measure::centimetres, "left"},
         [](WindowState& s, int way) { nudge_chosen(s, way * 0.01, 0); },
         [](WindowState& s, double cm) { put_chosen(s, m_from_cm(cm), std::nullopt); }},
        {{"Depth", side(person.place.back_m, "before", "behind", units), "forward##b", "back##b",
          "A step of a few centimetres towards the plane of focus is the cheapest sharpness there "
          "is: it costs no light.",
          Measure::centimetres, "before"},
         [](WindowState& s, int way) { nudge_chosen(s, 0, way * 0.01); },
         [](WindowState& s, double cm) { put_chosen(s, std::nullopt, m_from_cm(cm)); }},
        {{"Lean", side(person.pose.lean_m, "forward", "back", units), "forward##l", "back##l",
          "Who leans in or away leaves the row with the face, which is what counts, and keeps the "
          "feet in line, which is what one sees.",
          Measure::centimetres, "forward"},
         [](WindowState& s, int way) { lean_chosen(s, way * 0.01); },
         [](WindowState& s, double cm) {
             s.make(rehearsal::lean(s.sitting.scene(), *s.sitting.chosen(), m_from_cm(cm)));
         }},
        {{"Turn", fmt::format("{:.0f}°", person.pose.turn_deg), "left##t", "right##t",
          "Turned aside, one eye is nearer than the other: it is the nearer one that must be "
          "sharp."},
         [](WindowState& s, int way) { turn_chosen(s, way * 5); },
         [](WindowState& s, double deg) {
             s.make(rehearsal::turn(s.sitting.scene(), *s.sitting.chosen(), deg));
         }}};
    ImGui::BeginGroup();
    draw_bodily(state, steppers);
    ImGui::EndGroup();
    beside_or_below(state);
    ImGui::BeginGroup();
    tell_place(state, state.sitting.facts().table.faces[number]);
    if (button(state, "Focus here", "On the nearer eye (F)."))
        focus_on_chosen(state);
    ImGui::SameLine();
    if (button(state, "Aim here", "The camera points at this face, and keeps to it."))
        state.make(rehearsal::aim_at(state.sitting.scene(), number));
    if (button(state, "Turn to the lens", "The whole body faces the camera."))
        state.make(rehearsal::turn_towards(state.sitting.scene(), number,
                                           state.sitting.facts().above.lens.x_m,
                                           state.sitting.facts().above.lens.y_m));
    if (button(state, "Onto the plane of focus",
               "So many steps forward or back that the nearer eye lies in it (T)."))
        line_up_chosen(state);
    ImGui::EndGroup();
}

void choose_gaze(WindowState& state, const scene::Scene& scene, const scene::Person& person) {
    std::vector<std::string_view> whom{"camera", "ahead"};
    for (const scene::Person& other : scene.people)
        if (other.name != person.name)
            whom.push_back(other.name);
    std::string_view now = "camera";
    if (std::holds_alternative<scene::GazeAhead>(person.gaze))
        now = "ahead";
    else if (const auto* at = std::get_if<scene::GazeAtPerson>(&person.gaze))
        now = at->name;
    if (const auto word = choose_word(state, "Looks at", "gaze", now, whom))
        state.make(rehearsal::look_at(state.sitting.scene(), state.sitting.all_chosen(), *word));
}

void choose_carrier(WindowState& state, const scene::Scene& scene, std::size_t number) {
    const scene::Person& person = scene.people[number];
    std::vector<std::string_view> who{"nobody"};
    for (const scene::Person& other : scene.people)
        if (other.name != person.name && other.carrier < 0 &&
            other.pose.posture == figures::Posture::standing)
            who.push_back(other.name);
    const std::string_view now =
        person.carrier < 0
            ? std::string_view{"nobody"}
            : std::string_view{scene.people[static_cast<std::size_t>(person.carrier)].name};
    const auto word = choose_word(state, "Carried by", "carrier", now, who);
    teach(state, "A child in somebody's arm. Whether it should be carried is for those who know "
                 "both to say.");
    if (!word)
        return;
    state.make(rehearsal::carry(state.sitting.scene(), number, index_of(scene, *word)));
}

void draw_looks_page(WindowState& state, std::size_t number) {
    const std::shared_ptr<const scene::Scene> scene = state.sitting.shared_scene();
    const scene::Person& person = scene->people[number];
    const Bodily steppers[]{
        {{"Height",
          length_words(person.measures.stature_m, LengthScale::metres, state.style.lengths),
          "shorter##s", "taller##s",
          "Tall people at the back and in the middle, if you can choose.", Measure::stature_m},
         [](WindowState& s, int way) { grow_chosen(s, way * 0.01); },
         [](WindowState& s, double m) {
             s.make(rehearsal::grow(s.sitting.scene(), *s.sitting.chosen(), m));
         }},
        {{"Age", fmt::format("{:.0f}", person.measures.age_years), "younger##g", "older##g",
          "Proportions and looks; the height, too, where none was said."},
         [](WindowState& s, int way) {
             const auto who = *s.sitting.chosen();
             s.make(rehearsal::grow_to_age(s.sitting.scene(), who,
                                           s.sitting.scene().people[who].measures.age_years + way));
         },
         [](WindowState& s, double years) {
             s.make(rehearsal::grow_to_age(s.sitting.scene(), *s.sitting.chosen(), years));
         }}};
    draw_bodily(state, steppers);
    const float wide = state.style.units(222);
    const bool has_room_for_two = ImGui::GetContentRegionAvail().x > 2 * wide;
    bool is_left = true;
    const auto next = [&] {
        if (has_room_for_two && !is_left)
            ImGui::SameLine(wide);
        is_left = !is_left;
    };
    for (const rehearsal::Look& look : rehearsal::looks()) {
        next();
        if (const auto word = choose_word(state, look.name, look.key, look.now(person), look.words,
                                          {.unsaid = look.unsaid()}))
            state.make(rehearsal::choose_look(state.sitting.scene(), state.sitting.all_chosen(),
                                              look, *word));
    }
    next();
    choose_gaze(state, *scene, person);
    next();
    choose_carrier(state, *scene, number);
}

/// What arranging again goes by.
void draw_company(WindowState& state, std::size_t number) {
    const std::shared_ptr<const scene::Scene> scene = state.sitting.shared_scene();
    const scene::Person& person = scene->people[number];
    const auto tick = [&](const char* label, bool now, const char* key, const char* lesson) {
        bool is = now;
        const bool changed = ImGui::Checkbox(label, &is);
        state.widget_rects.note_last(label, Control::tick(is));
        teach(state, lesson);
        if (changed)
            state.make(
                rehearsal::say_of(*scene, state.sitting.all_chosen(), key, is ? "true" : "false"));
    };
    tick("stays here", person.company.pinned, "pinned",
         "Keeps the place when the others are arranged again.");
    ImGui::SameLine();
    tick("celebrated", person.company.celebrated, "celebrated",
         "Whom the picture is about: in the middle.");
    std::vector<std::string_view> names{"nobody"};
    for (const scene::Person& other : scene->people)
        if (other.name != person.name)
            names.push_back(other.name);
    const std::string_view beside = person.company.with.empty()
                                        ? std::string_view{"nobody"}
                                        : std::string_view{person.company.with.front()};
    if (const auto word = choose_word(state, "Stays beside", "beside", beside, names))
        state.make(
            rehearsal::stay_beside(*scene, number, *word == "nobody" ? std::string_view{} : *word));
    if (button(state, "Arrange all again",
               "Who stands where: families and couples together, the small in front, the "
               "celebrated in the middle. Whoever stays here does."))
        arrange_again(state, std::nullopt);
    if (person.row >= 0) {
        ImGui::SameLine();
        if (button(state, "This row", "The order in this row alone."))
            arrange_again(state, person.row);
    }
}

void draw_row_page(WindowState& state, std::size_t number) {
    const std::shared_ptr<const scene::Scene> scene = state.sitting.shared_scene();
    const scene::Person& person = scene->people[number];
    const int rows = scene::row_count(*scene);
    std::vector<std::string> names;
    for (int row = 0; row < rows; ++row)
        names.push_back(fmt::format("row {}", row + 1));
    names.emplace_back("a new row behind");
    names.emplace_back("alone");
    const std::vector<std::string_view> words(names.begin(), names.end());
    const std::size_t feet = on_whose_feet(scene->people, number);
    const int row = scene->people[feet].row;
    const std::string_view now = row < 0 ? words.back() : words[static_cast<std::size_t>(row)];
    if (const auto word = choose_word(state, "Stands in", "row", now, words)) {
        const auto to = std::ranges::find(names, *word) - names.begin();
        if (to == rows + 1)
            state.make(rehearsal::leave_row(state.sitting.scene(), feet));
        else
            state.make(
                rehearsal::stand_in_row(state.sitting.scene(), feet, static_cast<int>(to),
                                        rehearsal::position_in_row(*scene, static_cast<int>(to),
                                                                   feet, person.place.across_m)));
        return;
    }
    draw_company(state, number);
    if (row >= 0)
        draw_row(state, row, scene::row_line(*scene, row).up_m);
}

}  // namespace

void draw_person_panel(WindowState& state) {
    draw_people_buttons(state);
    if (!state.sitting.chosen()) {
        ImGui::TextDisabled("Nobody is chosen. Click a face, or press Tab or W.");
        return;
    }
    const std::size_t number = *state.sitting.chosen();
    tell_name(state, number, plan::Face{state.sitting.facts().table.faces[number]});
    if (!state.sitting.chosen())
        return;
    choose_page(state);
    const std::size_t still = *state.sitting.chosen();
    switch (state.person_page) {
    case PersonPage::place:
        return draw_place_page(state, still);
    case PersonPage::looks:
        return draw_looks_page(state, still);
    case PersonPage::row:
        return draw_row_page(state, still);
    }
}

}  // namespace backrow::window
