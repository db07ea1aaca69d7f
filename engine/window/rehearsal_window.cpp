#include "window/rehearsal_window.h"

#include "window/commands/commands.h"
#include "window/commands/keys.h"
#include "window/drawings/views.h"
#include "window/frames_due.h"
#include "window/panels/panels.h"
#include "window/screen.h"

#include "rehearsal/files/recent_paths.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <utility>

namespace backrow::window {
namespace {

std::string title_of(const WindowState& state) {
    return state.has_scene ? state.sitting.scene().title + " – Backrow" : std::string{"Backrow"};
}

/// Stands behind the first page until there is a scene.
rehearsal::Sitting stand_in() {
    const auto group = rehearsal::begin_group({.guests = std::vector<rehearsal::TypedGuest>(2)});
    return *rehearsal::Sitting::begin(group.value().text, rehearsal::free_scene_path("."));
}

void draw_all(WindowState& state) {
    const ImVec2 size = ImGui::GetIO().DisplaySize;
    const Layout layout = lay_out(
        size, state.style.scale,
        {.top = top_bar_height(state, size.x), .foot = foot_height(state, size.x)}, state.enlarged);
    ImGui::SetNextWindowPos({0, 0});
    ImGui::SetNextWindowSize(size);
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, {0, 0});
    ImGui::PushStyleVar(ImGuiStyleVar_WindowRounding, 0);
    ImGui::PushStyleColor(ImGuiCol_WindowBg, state.style.theme.desk);
    ImGui::Begin("desk", nullptr,
                 ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove |
                     ImGuiWindowFlags_NoSavedSettings | ImGuiWindowFlags_NoBringToFrontOnFocus |
                     ImGuiWindowFlags_NoScrollWithMouse);
    ImGui::PopStyleColor();
    ImGui::PopStyleVar(2);
    if (!layout.of(Part::faces))
        state.wanted_prints.face_width_texels = state.wanted_prints.face_height_texels = 0;
    const bool has_sheet = state.sheets.shown != Sheet::none;
    FocusRing& ring = state.widget_rects.ring;
    if (state.shows_first_page) {
        if (!has_sheet)
            ring.open();
        draw_first_page(state, {{0, 0}, size});
        ring.close();
        ImGui::End();
        draw_sheet(state);
        return;
    }
    draw_top_bar(state, layout.top);
    state.widget_rects.note_part("desk", 0);
    // First where something can be dragged: that changes what the others show.
    struct Drawn {
        Part part;
        void (*draw)(WindowState&, const Area&);
    };
    constexpr std::array drawn{Drawn{Part::above, draw_view_from_above},
                               Drawn{Part::side, draw_view_from_the_side},
                               Drawn{Part::picture, draw_camera_view},
                               Drawn{Part::faces, draw_faces}, Drawn{Part::panel, draw_panel}};
    for (const auto& [part, draw] : drawn)
        if (const std::optional<Area>& area = layout.of(part)) {
            if (part == Part::panel && !has_sheet)
                ring.open();
            draw(state, *area);
            ring.close();
            draw_enlarger(state, part, *area);
        }
    draw_foot(state, layout.foot);
    ImGui::End();
    draw_sheet(state);
}

/// What the darkroom is told, when that is something else than before.
void order_prints(WindowState& state, Order& last) {
    if (!state.has_scene)
        return;
    const Order order{.scene = state.sitting.shared_scene(),
                      .edition = state.sitting.edition(),
                      .part = state.wanted_prints.picture,
                      .in_hand = state.drawings.drag.has_value(),
                      .faces = state.wanted_prints.face_width_texels > 0
                                   ? state.sitting.facts().worst_first
                                   : std::vector<std::size_t>{},
                      .face_width_texels = state.wanted_prints.face_width_texels,
                      .face_height_texels = state.wanted_prints.face_height_texels};
    if (last.scene && order.edition == last.edition && order.part == last.part &&
        order.in_hand == last.in_hand && order.face_width_texels == last.face_width_texels &&
        order.face_height_texels == last.face_height_texels)
        return;
    last = order;
    state.darkroom->order(order);
}

/// Takes what the other threads have done, and says how soon it must be shown.
News collect(WindowState& state) {
    Prints prints = state.darkroom->collect();
    const std::optional<rehearsal::Drag>& drag = state.drawings.drag;
    if (prints.picture)
        state.quickness.note_picture(prints.picture->edition, prints.picture->shows_all,
                                     drag ? std::optional{drag->id} : std::nullopt,
                                     std::chrono::steady_clock::now());
    state.kept.take(prints);
    News news = state.pictures.take(std::move(prints));
    if (state.advice.collect() || state.odds.collect())
        news = News::at_once;
    if (state.giving) {
        collect_given(state);
        news = state.giving ? std::max(news, News::can_wait) : News::at_once;
    }
    return news;
}

/// What must be kept though the machine may stop at any moment; not within a drag.
void keep_safe(WindowState& state) {
    if (state.drawings.drag || !state.has_scene)
        return;
    if (const auto kept = state.recovery.follow(state.sitting.edited()); !kept)
        state.sitting.complain(to_line(kept.error()));
}

/// Whatever is wrong, the nearest to the hand first.
const std::string& complaint(const WindowState& state) {
    if (state.sheets.shown != Sheet::none && !state.sheets.complaint.empty())
        return state.sheets.complaint;
    if (state.shows_first_page && !state.first_page.no_scene.empty())
        return state.first_page.no_scene;
    if (state.shows_first_page && !state.first_page.complaint.empty())
        return state.first_page.complaint;
    return state.sitting.complaint().empty() ? state.pictures.complaint : state.sitting.complaint();
}

/// Letters and lines as large as was asked for, or as the window has room for.
void fit_scale(WindowState& state, Screen& screen) {
    constexpr double steps_in_one = 20;  // so that a window that is being enlarged is not all fonts
    Style& style = state.style;
    const double greatest =
        std::floor(greatest_scale(ImGui::GetIO().DisplaySize) * steps_in_one) / steps_in_one;
    const double fitting = std::min(style.asked_scale, greatest);
    if (fitting == style.scale || fitting <= 0)
        return;
    style.scale = fitting;
    apply(style.theme, style.scale);
    style.fonts = load_fonts(style.scale, style.foreign_letters);
    screen.take_new_fonts();
}

/// Letters of names and of what is typed, when there are some that the fonts do not have yet.
void load_new_letters(WindowState& state, Screen& screen) {
    std::string texts = state.sitting.edited().path() + state.sheets.letters() + complaint(state) +
                        state.notice + state.failure;
    for (const scene::Scene* scene : {&state.sitting.scene(), state.kept.scene()}) {
        if (scene == nullptr)
            continue;
        texts += scene->title;
        for (const scene::Person& person : scene->people)
            texts += person.name;
    }
    Style& style = state.style;
    std::set<ImWchar> letters = foreign_letters(texts);
    if (std::ranges::includes(style.foreign_letters, letters))
        return;
    letters.merge(style.foreign_letters);
    style.foreign_letters = std::move(letters);
    style.fonts = load_fonts(style.scale, style.foreign_letters);
    screen.take_new_fonts();
}

Made<void> tell_status(WindowState& state) {
    const auto chosen = state.sitting.chosen();
    const int edition = state.sitting.edition();
    const bool is_holding = state.drawings.drag.has_value();
    return state.widget_rects.end(
        {.edition = edition,
         .is_settled =
             !is_holding && state.pictures.is_settled(edition, state.wanted_prints.picture,
                                                      state.wanted_prints.face_width_texels > 0),
         .undo = state.sitting.edited().undone_next(state.style.lengths),
         .chosen = chosen ? state.sitting.scene().people[*chosen].name : std::string{},
         .complaint = complaint(state),
         .notice = state.notice,
         .failure = state.failure,
         .panel = name_of(state.tab),
         .sheet = to_word(state.sheets.shown),
         .is_holding = is_holding,
         .is_typing = ImGui::GetIO().WantTextInput,
         .is_walking = (ImGui::GetIO().ConfigFlags & ImGuiConfigFlags_NavEnableKeyboard) != 0,
         .has_unsaved_changes = state.sitting.edited().has_unsaved_changes(),
         .was_changed_on_disk = state.changed_on_disk,
         .is_giving_away = state.giving.has_value(),
         .is_dark = state.style.theme.is_dark,
         .picture_samples = state.pictures.picture.print.samples,
         .first_answer_ms = state.quickness.first_answer_ms(),
         .drag_pictures_per_s = state.quickness.drag_pictures_per_s()});
}

/// Whether the file has just been found to be another than was read.
bool has_changed_on_disk(WindowState& state) {
    if (state.changed_on_disk)
        return false;
    state.changed_on_disk = state.sitting.edited().was_changed_on_disk();
    return state.changed_on_disk;
}

void begin(WindowState& state, const WindowWanted& wanted, const Screen& screen) {
    Style& style = state.style;
    style.asked_scale = wanted.scale > 0 ? wanted.scale : screen.scale();
    style.scale = style.asked_scale;
    style.lengths = wanted.lengths;
    style.theme = wanted.is_dark ? night() : day();
    state.darkroom.emplace(Screen::wake);
    // The stage takes longer than all that comes before the first frame, which will say how large
    // the picture is.
    if (state.has_scene)
        state.darkroom->order(
            {.scene = state.sitting.shared_scene(), .edition = state.sitting.edition()});
    style.fonts = load_fonts(style.scale, {});
    apply(style.theme, style.scale);
    if (std::string wrong = state.bag.open(); !wrong.empty())
        state.sitting.complain(std::move(wrong));
    state.note_change();
    state.places.open(state.sitting.edited());
    if (!state.has_scene)
        show_first_page(state);
    look_for_left_behind(state);
    rehearsal::note_recent(rehearsal::Recent::scenes, state.sitting.edited().path());
}

/// Sleeps until something happens, and takes what has happened.
void wait(WindowState& state, Screen& screen, FramesDue& due) {
    screen.wait(due.wait_s(std::chrono::steady_clock::now()));
    const auto now = std::chrono::steady_clock::now();
    if (screen.is_closing()) {
        screen.keep_open();
        leave(state);
        due.note_input(now);
    }
    if (screen.had_input())
        due.note_input(now);
    else
        due.note_rest(now);
    state.rested_s = due.rested_s(now);
    due.note_news(collect(state));
}

void draw_frame(WindowState& state, Screen& screen) {
    state.style.texels_per_unit = ImGui::GetIO().DisplayFramebufferScale.x;
    fit_scale(state, screen);
    load_new_letters(state, screen);
    screen.begin_frame(std::exchange(state.field_opens, false));
    state.widget_rects.begin();
    obey_keys(state, screen.take_keys());
    state.widget_rects.ring.begin_frame();
    state.kept.compare_with(state.sitting, state.style.lengths);
    draw_all(state);
    // Only now: the last stretch of a quick drag comes with the button already up.
    if (!ImGui::IsMouseDown(ImGuiMouseButton_Left))
        state.drawings.drag.reset();
    screen.end_frame(state.style.theme.desk);
}

}  // namespace

Made<void> rehearse(std::optional<rehearsal::Sitting> sitting, const WindowWanted& wanted) {
    const bool has_scene = sitting.has_value();
    WindowState state{has_scene ? std::move(*sitting) : stand_in(), wanted.widget_rects};
    state.has_scene = has_scene;
    std::string title = title_of(state);
    auto screen = Screen::open(title, wanted.width, wanted.height);
    if (!screen)
        return tl::make_unexpected(screen.error());
    begin(state, wanted, *screen);
    Order ordered;
    FramesDue due{std::chrono::steady_clock::now()};
    while (!state.sheets.is_leaving) {
        wait(state, *screen, due);
        if (state.darkroom->failure())
            return tl::make_unexpected(*state.darkroom->failure());
        const auto begun = std::chrono::steady_clock::now();
        if (!due.take(begun)) {
            if (has_changed_on_disk(state))
                due.note_news();
            continue;
        }
        const bool was_in_field = ImGui::IsAnyItemActive();
        draw_frame(state, *screen);
        due.note_drawn(begun, std::chrono::steady_clock::now(), state.drawings.drag.has_value());
        // The toolkit says only with the next frame whether keys go into a field.
        if (std::exchange(state.wants_frame, false) || state.field_opens ||
            state.widget_rects.is_moving() || ImGui::IsAnyItemActive() != was_in_field)
            due.note_news();
        order_prints(state, ordered);
        keep_safe(state);
        if (std::string now = title_of(state); now != title) {
            title = std::move(now);
            screen->set_title(title);
        }
        if (auto told = tell_status(state); !told)
            return told;
    }
    state.recovery.end();
    return {};
}

}  // namespace backrow::window
