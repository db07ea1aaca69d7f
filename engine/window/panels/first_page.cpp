#include "window/panels/first_page.h"

#include "window/commands/commands.h"
#include "window/panels/panels.h"
#include "window/screen.h"

#include "rehearsal/files/recent_paths.h"
#include "stage/read_photograph.h"

#include "base/assets.h"

#include <fmt/format.h>
#include <imgui_stdlib.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <utility>

namespace backrow::window {
namespace {

namespace fs = std::filesystem;

using rehearsal::Bearing;
using rehearsal::TypedGuest;

constexpr std::size_t most_guests = 60;

std::string name_of(const std::string& path) {
    return fs::path{path}.stem().string();
}

// One picture a frame: the page is there at once, whatever the disk does.
void read_next_picture(FirstPage& page) {
    if (page.pictures_read >= page.demos.size())
        return;
    DemoScene& demo = page.demos[page.pictures_read++];
    const fs::path scene{demo.path};
    const std::string file = (scene.parent_path() / "pictures" / (demo.name + ".png")).string();
    std::error_code none;
    if (!fs::exists(file, none))
        return;
    auto read = stage::read_photograph(file, {.file = file}, stage::PhotographShape::any);
    if (!read)
        return;
    constexpr int enough_texels = 480;
    while (read->width_px() >= 2 * enough_texels && read->height_px() >= 2)
        *read = stage::halved(*read);
    Image<Rgb8> pixels{read->width_px(), read->height_px()};
    std::ranges::transform(read->pixels(), pixels.pixels().begin(), [](const Rgba8& p) {
        return Rgb8{p.r, p.g, p.b};
    });
    demo.picture.emplace();
    demo.picture->take(pixels);
    Screen::wake();  // for the next
}

void faint_words(const WindowState& state, const char* words) {
    ImGui::PushStyleColor(ImGuiCol_Text, state.style.theme.faint_ink);
    ImGui::PushTextWrapPos(0);
    ImGui::TextUnformatted(words);
    ImGui::PopTextWrapPos();
    ImGui::PopStyleColor();
}

/// Nothing where nothing is wrong.
void say_wrong(const WindowState& state, const std::string& complaint) {
    if (complaint.empty())
        return;
    ImGui::PushTextWrapPos(0);
    ImGui::TextColored(ImGui::ColorConvertU32ToFloat4(state.style.theme.accent), "%s",
                       complaint.c_str());
    ImGui::PopTextWrapPos();
}

bool field(WindowState& state, const char* id, std::size_t row, std::string& text, double width,
           const char* hint) {
    ImGui::SetNextItemWidth(state.style.units(width));
    ImGui::PushID(static_cast<int>(row));
    const bool entered = ImGui::InputTextWithHint((std::string{"##"} + id).c_str(), hint, &text);
    ImGui::PopID();
    state.widget_rects.note_last(fmt::format("{} {}", id, row + 1), Control::field(text));
    return entered;
}

void choose_bearing(WindowState& state, std::size_t row, TypedGuest& guest) {
    constexpr std::array words{
        std::pair{Bearing::as_arranged, "as it suits"}, std::pair{Bearing::seated, "sits"},
        std::pair{Bearing::kneeling, "kneels"}, std::pair{Bearing::carried, "is carried by"}};
    const auto now = std::ranges::find(words, guest.bearing, [](const auto& w) { return w.first; });
    ImGui::SetNextItemWidth(state.style.units(112));
    ImGui::PushID(static_cast<int>(row));
    if (ImGui::BeginCombo("##bearing", now->second)) {
        for (const auto& [bearing, word] : words) {
            if (ImGui::Selectable(word, bearing == guest.bearing))
                guest.bearing = bearing;
            state.widget_rects.note_last(std::string{"word "} + word,
                                         Control::choice(bearing == guest.bearing));
        }
        ImGui::EndCombo();
    }
    ImGui::PopID();
    state.widget_rects.note_last(fmt::format("bearing {}", row + 1), Control::list(now->second));
}

void set_number_of_guests(FirstPage& page, std::size_t number) {
    page.group.guests.resize(std::clamp<std::size_t>(number, 1, most_guests));
}

void draw_guests(WindowState& state, const char* height_hint) {
    FirstPage& page = state.first_page;
    std::vector<TypedGuest>& guests = page.group.guests;
    const Stepped stepped =
        draw_stepper(state, {"People", fmt::format("{}", guests.size()), "fewer##n", "more##n",
                             "How many will come; what is left empty below is chosen for you."});
    if (stepped.typed)
        set_number_of_guests(page, static_cast<std::size_t>(std::max(1.0, *stepped.typed)));
    else if (stepped.way != 0)
        set_number_of_guests(page, guests.size() + static_cast<std::size_t>(stepped.way));
    faint_words(state, "All of it may stay empty. Families and couples stay together; a tick puts "
                       "somebody in the middle.");
    for (std::size_t i = 0; i < guests.size(); ++i) {
        TypedGuest& guest = guests[i];
        // Not as it appears: the toolkit would put the field into the middle, and the page's
        // beginning out of sight.
        if (i == 0 && page.wants_keys && !ImGui::IsWindowAppearing() &&
            state.sheets.shown == Sheet::none) {
            page.wants_keys = false;
            state.field_opens = true;
            ImGui::SetKeyboardFocusHere();
        }
        field(state, "name", i, guest.name, 104, "name");
        ImGui::SameLine();
        field(state, "age", i, guest.age, 40, "age");
        ImGui::SameLine();
        field(state, "height", i, guest.height, 64, height_hint);
        ImGui::SameLine();
        field(state, "family", i, guest.family, 72, "family");
        ImGui::SameLine();
        field(state, "beside", i, guest.with, 98, "beside whom");
        beside_where_room(
            state.style.units(guest.bearing == Bearing::carried ? 112 + 84 + 37 : 112 + 30));
        if (ImGui::GetCursorPosX() < state.style.units(16))
            ImGui::SetCursorPosX(state.style.units(16));  // still the same guest
        choose_bearing(state, i, guest);
        if (guest.bearing == Bearing::carried) {
            ImGui::SameLine();
            field(state, "carrier", i, guest.carried_by, 84, "whom");
        }
        ImGui::SameLine();
        ImGui::PushID(static_cast<int>(i));
        ImGui::Checkbox("##celebrated", &guest.is_celebrated);
        ImGui::PopID();
        state.widget_rects.note_last(fmt::format("celebrated {}", i + 1),
                                     Control::tick(guest.is_celebrated));
        teach(state, "Whom the picture is about: in the middle.");
    }
}

template <class Value, std::size_t N>
void choose_among(WindowState& state, const char* label, const char* id,
                  const std::array<std::pair<Value, const char*>, N>& meanings, Value& value) {
    const auto word_of = [](const auto& meaning) { return std::string_view{meaning.second}; };
    const auto value_of = [](const auto& meaning) { return meaning.first; };
    std::array<std::string_view, N> words;
    std::ranges::transform(meanings, words.begin(), word_of);
    const auto now = std::ranges::find(meanings, value, value_of);
    if (const auto word = choose_word(state, label, id, word_of(*now), words,
                                      {.label_units = 110, .width_units = 220}))
        value = std::ranges::find(meanings, std::string_view{*word}, word_of)->first;
}

void draw_wishes(WindowState& state) {
    FirstPage& page = state.first_page;
    using rehearsal::Footing;
    constexpr std::array footings{std::pair{Footing::ground, "level ground"},
                                  std::pair{Footing::steps, "stairs, 17 cm each"},
                                  std::pair{Footing::high_steps, "risers, 40 cm each"}};
    choose_among(state, "Rows stand on", "footing", footings, page.group.footing);
    constexpr std::array uses{std::pair{scene::Use::phone, "a phone"},
                              std::pair{scene::Use::album, "an album"},
                              std::pair{scene::Use::wall, "a wall"},
                              std::pair{scene::Use::single_pixels, "single pixels"}};
    choose_among(state, "To be seen on", "use", uses, page.group.use);
    using Held = std::optional<scene::Orientation>;
    constexpr std::array held{std::pair{Held{}, "as it suits"},
                              std::pair{Held{scene::Orientation::landscape}, "landscape"},
                              std::pair{Held{scene::Orientation::portrait}, "portrait"}};
    choose_among(state, "Camera", "orientation", held, page.group.orientation);
    ImGui::AlignTextToFramePadding();
    const float left = ImGui::GetCursorPosX();
    ImGui::TextUnformatted("Lens");
    ImGui::SameLine(left + state.style.units(110));
    field(state, "lens", 0, page.typed_lens, 220, "as it suits, or: 85/1.8");
    if (page.group.footing != Footing::ground)
        faint_words(state, "Risers are built and rated for the people on them; steps are dry.");
}

void draw_group(WindowState& state) {
    FirstPage& page = state.first_page;
    ImGui::PushFont(state.style.fonts.large);
    ImGui::TextUnformatted("A new group");
    ImGui::PopFont();
    draw_wishes(state);
    ImGui::Spacing();
    draw_guests(state, state.style.lengths == Units::metric ? "height" : "ft in");
    ImGui::Spacing();
    say_wrong(state, page.complaint);
    if (button(state, "Arrange them", "Rows, places, lens, distance and focus, with the reasons."))
        arrange_new_group(state);
}

void draw_demo(WindowState& state, const DemoScene& demo, float width) {
    const float height = width * 2 / 3;
    ImGui::BeginGroup();
    const ImVec2 least = ImGui::GetCursorScreenPos();
    ImGui::PushID(demo.path.c_str());
    const bool pressed = ImGui::InvisibleButton("demo", {width, height});
    ImGui::PopID();
    state.widget_rects.note_last("demo " + demo.name);
    const bool is_marked = ImGui::IsItemHovered() || ImGui::IsItemFocused();
    ImDrawList& on = *ImGui::GetWindowDrawList();
    const ImVec2 most{least.x + width, least.y + height};
    on.AddRectFilled(least, most, state.style.theme.raised);
    if (demo.picture) {
        // The whole picture, as large as fits.
        const auto w = static_cast<float>(demo.picture->width_px());
        const auto h = static_cast<float>(demo.picture->height_px());
        const float scale = std::min(width / w, height / h);
        const ImVec2 at{least.x + (width - w * scale) / 2, least.y + (height - h * scale) / 2};
        on.AddImage(demo.picture->id(), at, {at.x + w * scale, at.y + h * scale});
    }
    if (is_marked)
        on.AddRect(least, most, state.style.theme.accent, 0, 0, state.style.units(2));
    ImGui::TextUnformatted(demo.name.c_str());
    ImGui::EndGroup();
    if (pressed)
        open(state, std::string{demo.path});
}

void draw_scenes(WindowState& state) {
    FirstPage& page = state.first_page;
    ImGui::PushFont(state.style.fonts.large);
    ImGui::TextUnformatted("A scene that is there");
    ImGui::PopFont();
    if (button(state, "Open a file", "A scene file (Ctrl O)."))
        show_file_sheet(state, Sheet::open);
    if (std::exchange(page.shows_no_scene, false))
        ImGui::SetScrollHereY();
    say_wrong(state, page.no_scene);
    if (!page.recent.empty())
        ImGui::TextDisabled("Opened last");
    for (const std::string& path : std::vector{page.recent}) {
        const std::string folder = fs::path{path}.parent_path().filename().string();
        if (ImGui::Selectable(fmt::format("{}   in {}##{}", name_of(path), folder, path).c_str()))
            open(state, path);
        state.widget_rects.note_last("recent " + name_of(path));
    }
    ImGui::Spacing();
    ImGui::TextDisabled("To try things with");
    const float gap = state.style.units(8);
    const float room = ImGui::GetContentRegionAvail().x;
    const int columns = std::max(1, static_cast<int>(room / state.style.units(150)));
    const float width = std::floor(room / static_cast<float>(columns)) - gap;
    for (std::size_t i = 0; i < page.demos.size(); ++i) {
        if (i % static_cast<std::size_t>(columns) != 0)
            ImGui::SameLine(0, gap);
        draw_demo(state, page.demos[i], width);
    }
}

/// A part of the page that scrolls by itself, so wide; 0 for all that is left.
void draw_column(WindowState& state, const char* name, float width, void (*draw)(WindowState&)) {
    ImGui::BeginChild(name, {width, 0});
    const std::size_t first = state.widget_rects.count();
    draw(state);
    state.widget_rects.note_part(name, first);
    ImGui::EndChild();
}

}  // namespace

void find_scenes(FirstPage& page) {
    page.recent = rehearsal::recent_paths(rehearsal::Recent::scenes);
    page.demos.clear();
    page.pictures_read = 0;
    const auto one = find_asset("scenes/choir.toml");
    if (!one)
        return;
    std::error_code trouble;
    fs::directory_iterator entry{fs::path{*one}.parent_path(), trouble};
    for (; !trouble && entry != fs::directory_iterator{}; entry.increment(trouble))
        if (entry->path().extension() == ".toml")
            page.demos.push_back(
                {.path = entry->path().string(), .name = entry->path().stem().string()});
    std::ranges::sort(page.demos, {}, &DemoScene::name);
}

void draw_first_page(WindowState& state, const Area& area) {
    read_next_picture(state.first_page);
    ImGui::GetWindowDrawList()->AddRectFilled(area.least, area.most, state.style.theme.paper);
    const float pad = state.style.units(14);
    ImGui::SetCursorScreenPos({area.least.x + pad, area.least.y + pad});
    const ImVec2 room{area.width() - 2 * pad, area.height() - 2 * pad};
    // Side by side where both have room, else one below the other.
    const float group = state.style.units(654);
    ImGui::BeginChild("first page", room);
    if (room.x > group + state.style.units(180)) {
        draw_column(state, "new group", group, draw_group);
        ImGui::SameLine(0, pad);
        draw_column(state, "scenes", 0, draw_scenes);
    } else {
        draw_column(state, "first page", 0, [](WindowState& all) {
            draw_group(all);
            ImGui::Spacing();
            draw_scenes(all);
        });
    }
    ImGui::EndChild();
}

}  // namespace backrow::window
