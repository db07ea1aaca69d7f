#include "window/commands/place_commands.h"
#include "window/panels/panels.h"

#include "rehearsal/hands/light_handling.h"
#include "rehearsal/hands/place_handling.h"
#include "report/text/sun_words.h"
#include "scene/words.h"

#include "base/units.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <functional>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace backrow::window {
namespace {

constexpr double sun_step_deg = 5;
constexpr double third_of_a_stop = 1.0 / 3;
constexpr double window_step_m = 0.1;
constexpr double backdrop_step_m = 0.25;
constexpr double photo_step_m = 0.1;
constexpr double model_step_m = 0.05;
constexpr double model_turn_deg = 5;
constexpr double model_growth = 1.05;

std::string metres(const WindowState& state, double m) {
    return length_words(m, LengthScale::metres, state.style.lengths);
}

/// A value of the place, and the change that gives it another.
struct PlaceValue {
    Stepper stepper;
    double now;   ///< In the measure's unit, as what is typed.
    double step;  ///< By which a button changes it.
    std::function<rehearsal::Change(double)> to;
};

void draw_values(WindowState& state, std::span<const PlaceValue> values) {
    for (const PlaceValue& value : values) {
        const Stepped stepped = draw_stepper(state, value.stepper);
        if (stepped.typed)
            state.make(value.to(*stepped.typed));
        else if (stepped.way != 0)
            state.make(value.to(value.now + stepped.way * value.step));
    }
}

void tell_small(const WindowState& state, const std::string& words, bool is_faint = false) {
    ImGui::PushFont(state.style.fonts.small);
    ImGui::PushTextWrapPos(0);
    if (is_faint)
        ImGui::PushStyleColor(ImGuiCol_Text, state.style.theme.faint_ink);
    ImGui::TextUnformatted(words.c_str());
    if (is_faint)
        ImGui::PopStyleColor();
    ImGui::PopTextWrapPos();
    ImGui::PopFont();
}

template <class Value, std::size_t N>
std::vector<std::string_view> words_of(const scene::Words<Value, N>& words) {
    std::vector<std::string_view> all;
    for (const auto& [word, value] : words)
        all.push_back(word);
    return all;
}

template <class Value, std::size_t N>
Value meaning_of(const scene::Words<Value, N>& words, std::string_view word) {
    return std::ranges::find(words, word, &std::pair<std::string_view, Value>::first)->second;
}

// Light

void choose_light(WindowState& state, const scene::Light& light) {
    for (const auto& [kind, name] : {std::pair{scene::LightKind::open, "Open sky"},
                                     std::pair{scene::LightKind::window, "Window of a room"}}) {
        if (kind != scene::LightKind::open)
            beside_where_room(ImGui::GetFrameHeight() + button_width(name));
        if (ImGui::RadioButton(name, light.kind == kind) && light.kind != kind)
            state.make(rehearsal::light_by(kind));
        state.widget_rects.note_last(std::string{"light "} + name,
                                     Control::choice(light.kind == kind));
    }
}

void draw_sun_values(WindowState& state, const scene::Scene& scene) {
    const scene::Light& light = scene.light;
    const PlaceValue values[]{
        {{"Sun", fmt::format("{:.0f}°", light.sun_azimuth_deg), "back##u", "round##u",
          "Round the group: 0° is behind the camera, 90° at picture right, 180° behind the group. "
          "It can be dragged in the view from above."},
         light.sun_azimuth_deg,
         sun_step_deg,
         [&](double deg) { return rehearsal::turn_sun(scene, deg); }},
        {{"Its height", fmt::format("{:.0f}°", light.sun_elevation_deg), "lower##v", "higher##v",
          "A low sun is warm and shines into eyes and under hats; a high one shades them."},
         light.sun_elevation_deg,
         sun_step_deg,
         [](double deg) { return rehearsal::raise_sun(deg); }}};
    draw_values(state, values);
    tell_small(state,
               fmt::format("{}; {}", rehearsal::side_words(light.sun_azimuth_deg),
                           rehearsal::height_words(light.sun_elevation_deg)),
               true);
}

void draw_window_values(WindowState& state, const scene::Scene& scene) {
    const scene::WindowPlace& window = scene.light.window;
    const auto with = [&](double scene::WindowPlace::*length) {
        return [&scene, length](double value) {
            scene::WindowPlace other = scene.light.window;
            other.*length = value;
            return rehearsal::move_window(scene, other);
        };
    };
    const PlaceValue values[]{
        {{"Window", fmt::format("{:.0f}°", window.azimuth_deg), "back##w", "round##w",
          "Where it is: 0° is behind the camera, 90° at picture right. It can be dragged in the "
          "view from above."},
         window.azimuth_deg,
         sun_step_deg,
         with(&scene::WindowPlace::azimuth_deg)},
        {{"Away", metres(state, window.distance_m), "nearer##w", "farther##w",
          "From the mark. Near a window light falls off fast from face to face.", Measure::metres},
         window.distance_m,
         window_step_m,
         with(&scene::WindowPlace::distance_m)},
        {{"Wide", metres(state, window.width_m), "less##ww", "more##ww",
          "The larger it is for the faces, the softer its light.", Measure::metres},
         window.width_m,
         window_step_m,
         with(&scene::WindowPlace::width_m)},
        {{"High", metres(state, window.height_m), "less##wh", "more##wh",
          "From the sill to its upper edge.", Measure::metres},
         window.height_m,
         window_step_m,
         with(&scene::WindowPlace::height_m)},
        {{"Sill", metres(state, window.sill_m), "lower##ws", "higher##ws",
          "Its lower edge above the floor.", Measure::metres},
         window.sill_m,
         window_step_m,
         with(&scene::WindowPlace::sill_m)}};
    draw_values(state, values);
    tell_small(state, rehearsal::side_words(window.azimuth_deg), true);
}

void draw_brightness(WindowState& state, double ev100) {
    std::vector<std::string_view> words;
    for (const rehearsal::Weather& weather : rehearsal::weathers())
        words.emplace_back(weather.words);
    if (const auto word =
            choose_word(state, "Weather", "weather", rehearsal::weather_at(ev100).words, words,
                        {.width_units = 206}))
        state.make(rehearsal::brighten(
            std::ranges::find(rehearsal::weathers(), *word, &rehearsal::Weather::words)->ev100));
    const PlaceValue values[]{
        {{"Metered", fmt::format("EV {:.3g}", ev100), "darker##e", "brighter##e",
          "Exposure value at ISO 100, as an incident meter tells it at the faces."},
         ev100,
         third_of_a_stop,
         [](double ev) { return rehearsal::brighten(ev); }}};
    draw_values(state, values);
}

void tell_checks(const WindowState& state) {
    const rehearsal::Facts& facts = state.shown_facts();
    const auto checks = plan::sun_checks(state.shown_scene(), facts.view, facts.table);
    for (const report::LightAdvice& advice : report::light_advice(checks, facts.table.faces)) {
        ImGui::PushStyleColor(ImGuiCol_Text,
                              advice.is_caution ? state.style.theme.accent : state.style.theme.ink);
        ImGui::PushFont(state.style.fonts.bold);
        ImGui::PushTextWrapPos(0);
        ImGui::TextUnformatted(advice.what.c_str());
        ImGui::PopTextWrapPos();
        ImGui::PopFont();
        ImGui::PopStyleColor();
        tell_small(state, advice.mend);
    }
}

void draw_light_page(WindowState& state) {
    const std::shared_ptr<const scene::Scene> scene = state.sitting.shared_scene();
    ImGui::BeginGroup();
    choose_light(state, scene->light);
    if (scene->light.kind == scene::LightKind::open)
        draw_sun_values(state, *scene);
    else
        draw_window_values(state, *scene);
    draw_brightness(state, scene->light.scene_ev100);
    ImGui::EndGroup();
    beside_or_below(state);
    ImGui::BeginGroup();
    tell_checks(state);
    ImGui::EndGroup();
}

// Ground and backdrops

/// One of several things by number; whether another was chosen.
void choose_thing(WindowState& state, const char* label, const char* id, std::size_t& number,
                  const std::vector<std::string>& names) {
    std::vector<std::string> numbered;
    for (std::size_t i = 0; i < names.size(); ++i)
        numbered.push_back(fmt::format("{}  {}", i + 1, names[i]));
    const std::vector<std::string_view> words(numbered.begin(), numbered.end());
    number = std::min(number, names.size() - 1);
    if (const auto word = choose_word(state, label, id, words[number], words, {.width_units = 206}))
        number = static_cast<std::size_t>(std::ranges::find(numbered, *word) - numbered.begin());
}

void draw_photo_values(WindowState& state, const setting::Photograph& photo, std::size_t number) {
    const PlaceValue values[]{
        {{"Wide", metres(state, photo.width_m), "less##pw", "more##pw",
          "How wide the place is that the photo shows.", Measure::metres},
         photo.width_m,
         photo_step_m,
         [=](double m) { return rehearsal::scale_photo(number, m); }},
        {{"Up", metres(state, photo.up_m), "lower##pu", "higher##pu",
          "Its lower edge above the ground: below it where the photo shows ground.",
          Measure::metres},
         photo.up_m,
         photo_step_m,
         [=](double m) { return rehearsal::raise_photo(number, m); }},
        {{"Across", metres(state, photo.across_m), "left##pa", "right##pa",
          "Its middle, from the mark.", Measure::metres},
         photo.across_m,
         photo_step_m,
         [=](double m) { return rehearsal::shift_photo(number, m); }}};
    draw_values(state, values);
}

void draw_backdrop(WindowState& state, const scene::Scene& scene, std::size_t number) {
    const setting::Backdrop& backdrop = scene.setting.backdrops[number];
    const bool is_photo = backdrop.kind == setting::BackdropKind::photo;
    std::vector<std::string_view> kinds = words_of(scene::words::backdrop_kind);
    const std::string_view photo =
        scene::word_for(scene::words::backdrop_kind, setting::BackdropKind::photo);
    if (backdrop.photograph.file.empty())
        std::erase(kinds, photo);
    if (const auto word =
            choose_word(state, "Kind", "kind",
                        scene::word_for(scene::words::backdrop_kind, backdrop.kind), kinds))
        return state.make(rehearsal::choose_backdrop(
            scene, number, meaning_of(scene::words::backdrop_kind, *word)));
    const PlaceValue distance[]{
        {{"Behind", metres(state, backdrop.back_m), "nearer##b", "farther##b",
          "Behind the mark. The farther it stands, the more it melts; faces stay as they are. It "
          "can be dragged in the view from above.",
          Measure::metres},
         backdrop.back_m,
         backdrop_step_m,
         [&](double m) { return rehearsal::move_backdrop(scene, number, m); }}};
    draw_values(state, distance);
    if (backdrop.kind == setting::BackdropKind::wall)
        if (const auto word = choose_word(state, "Finish", "finish",
                                          scene::word_for(scene::words::finish, backdrop.finish),
                                          words_of(scene::words::finish)))
            state.make(rehearsal::choose_finish(number, meaning_of(scene::words::finish, *word)));
    if (is_photo)
        draw_photo_values(state, backdrop.photograph, number);
}

void draw_panorama(WindowState& state, const scene::Setting& setting) {
    const PlaceValue values[]{
        {{"Sky", fmt::format("{:.0f}°", setting.panorama_turn_deg), "left##sk", "right##sk",
          "Where the middle of the picture lies: 0° is behind the group."},
         setting.panorama_turn_deg,
         sun_step_deg,
         [](double deg) { return rehearsal::turn_panorama(deg); }}};
    draw_values(state, values);
    if (button(state, "Built sky", "The picture all round goes; the program's own sky is back."))
        state.make(rehearsal::take_panorama_away());
}

void draw_place_buttons(WindowState& state, const scene::Scene& scene) {
    const std::size_t count = scene.setting.backdrops.size();
    const std::size_t shown = state.place.backdrop;
    if (button(state, "Add", "Another backdrop, 3 m behind the last.")) {
        state.make(rehearsal::add_backdrop(scene));
        state.place.backdrop = count;
    }
    beside_where_room(button_width("Photo…"));
    if (button(
            state, "Photo…",
            "Your own picture of the place, sharp throughout, in place of this backdrop. Its size "
            "is told by two points."))
        ask_for_place_file(state, Sheet::photo_file);
    beside_where_room(button_width("Panorama…"));
    if (button(state, "Panorama…", "A picture all round, twice as wide as high, as the sky."))
        ask_for_place_file(state, Sheet::panorama_file);
    if (count == 0)
        return;
    if (button(state, "Take away", "This backdrop goes."))
        state.make(rehearsal::take_backdrop_away(scene, shown));
    if (scene.setting.backdrops[shown].kind == setting::BackdropKind::photo &&
        button(state, "Size by two points…", "Two points on the photo whose distance you know."))
        ask_for_photo_size(state, shown);
}

void draw_backdrops_page(WindowState& state) {
    const std::shared_ptr<const scene::Scene> scene = state.sitting.shared_scene();
    std::vector<std::string> names;
    for (const setting::Backdrop& backdrop : scene->setting.backdrops)
        names.push_back(fmt::format(
            "{}, {}", scene::word_for(scene::words::backdrop_kind, backdrop.kind),
            length_words(backdrop.back_m, LengthScale::short_metres, state.style.lengths)));
    ImGui::BeginGroup();
    if (const auto word = choose_word(state, "Ground", "ground",
                                      scene::word_for(scene::words::ground, scene->setting.ground),
                                      words_of(scene::words::ground)))
        state.make(rehearsal::lay_ground(meaning_of(scene::words::ground, *word)));
    if (!names.empty()) {
        choose_thing(state, "Backdrop", "backdrop", state.place.backdrop, names);
        draw_backdrop(state, *scene, state.place.backdrop);
    }
    ImGui::EndGroup();
    beside_or_below(state);
    ImGui::BeginGroup();
    draw_place_buttons(state, *scene);
    if (!scene->setting.panorama.empty())
        draw_panorama(state, scene->setting);
    ImGui::EndGroup();
}

// Models

void draw_model(WindowState& state, const scene::Scene& scene, std::size_t number) {
    const scene::Model& model = scene.models[number];
    const auto with = [&](double scene::FromMark::*coordinate) {
        return [&scene, number, coordinate](double m) {
            scene::FromMark place = scene.models[number].place;
            place.*coordinate = m;
            return rehearsal::place_model(scene, number, place);
        };
    };
    const PlaceValue values[]{
        {{"Across", metres(state, model.place.across_m), "left##ma", "right##ma",
          "From the mark. It can be dragged in the view from above.", Measure::metres},
         model.place.across_m,
         model_step_m,
         with(&scene::FromMark::across_m)},
        {{"Depth", metres(state, model.place.back_m), "forward##mb", "back##mb", "Behind the mark.",
          Measure::metres},
         model.place.back_m,
         model_step_m,
         with(&scene::FromMark::back_m)},
        {{"Up", metres(state, model.place.up_m), "lower##mu", "higher##mu",
          "Its lowest point above the ground.", Measure::metres},
         model.place.up_m,
         model_step_m,
         with(&scene::FromMark::up_m)},
        {{"Turn", fmt::format("{:.0f}°", model.turn_deg), "left##mt", "right##mt",
          "Towards picture right."},
         model.turn_deg,
         model_turn_deg,
         [=](double deg) { return rehearsal::turn_model(number, deg); }}};
    draw_values(state, values);
    const Stepped sized =
        draw_stepper(state, {"Size", fmt::format("× {:.4g}", model.scale), "less##ms", "more##ms",
                             "× 1 where its file is in metres, × 0.001 where in millimetres."});
    if (sized.typed)
        state.make(rehearsal::size_model(number, *sized.typed));
    else if (sized.way != 0)
        state.make(rehearsal::size_model(number, model.scale * std::pow(model_growth, sized.way)));
}

void draw_models_page(WindowState& state) {
    const std::shared_ptr<const scene::Scene> scene = state.sitting.shared_scene();
    std::vector<std::string> names;
    for (const scene::Model& model : scene->models)
        names.push_back(rehearsal::short_name(model.file));
    ImGui::BeginGroup();
    if (names.empty()) {
        ImGui::TextDisabled("No model stands here.");
    } else {
        choose_thing(state, "Model", "model", state.place.model, names);
        draw_model(state, *scene, state.place.model);
    }
    ImGui::EndGroup();
    beside_or_below(state);
    ImGui::BeginGroup();
    if (button(state, "Add…", "A bench, an arch, a scan of the place: glTF, OBJ, PLY and more."))
        ask_for_place_file(state, Sheet::model_file);
    if (!names.empty()) {
        beside_where_room(button_width("Take away"));
        if (button(state, "Take away", "This model goes."))
            state.make(rehearsal::take_model_away(*scene, state.place.model));
    }
    ImGui::EndGroup();
}

}  // namespace

void draw_place_panel(WindowState& state) {
    struct NamedPage {
        PlacePage page;
        const char* name;
        void (*draw)(WindowState&);
    };
    constexpr NamedPage pages[]{{PlacePage::light, "Light", draw_light_page},
                                {PlacePage::backdrops, "Backdrops", draw_backdrops_page},
                                {PlacePage::models, "Models", draw_models_page}};
    for (const NamedPage& named : pages) {
        if (named.page != PlacePage::light)
            beside_where_room(ImGui::GetFrameHeight() + button_width(named.name));
        if (ImGui::RadioButton(named.name, state.place.page == named.page))
            state.place.page = named.page;
        state.widget_rects.note_last(std::string{"page "} + named.name,
                                     Control::choice(state.place.page == named.page));
    }
    for (const NamedPage& named : pages)
        if (state.place.page == named.page)
            return named.draw(state);
}

}  // namespace backrow::window
