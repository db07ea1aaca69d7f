#include "window/rehearsal_window.h"

#include "window/commands/commands.h"
#include "window/commands/keys.h"
#include "window/drawings/views.h"
#include "window/panels/panels.h"
#include "window/screen.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace backrow::window {
namespace {

// How often the file is looked at while nothing happens; the window is not drawn for it.
constexpr double rest_s = 1.0;
// A pointer that rests this long on something is told about it.
constexpr double before_lesson_s = 0.55;
// The toolkit needs frames beyond the one with the input: for what appears, and what was let go.
constexpr int frames_after_input = 3;

struct Layout {
    Area top, camera, faces, above, side, panel, foot;
};

Layout lay_out(const ImVec2& size, double scale) {
    const auto s = static_cast<float>(scale);
    const float gap = 6 * s;
    const float top = 34 * s;
    const float foot = 20 * s;
    const float middle = std::round(size.x * 0.60f);
    const float end = size.y - foot - gap;
    const float faces = std::max(150 * s, (end - top) * 0.25f);
    const float below = end - faces - gap;
    const float right_height = end - top - gap;
    const float panel = std::max(250 * s, right_height * 0.36f);
    const float above = std::round((right_height - panel - 2 * gap) * 0.6f);
    const float side_top = top + gap + above + gap;
    return {.top = {{gap, 0}, {size.x - gap, top}},
            .camera = {{gap, top + gap}, {middle - gap, below}},
            .faces = {{gap, below + gap}, {middle - gap, end}},
            .above = {{middle, top + gap}, {size.x - gap, top + gap + above}},
            .side = {{middle, side_top}, {size.x - gap, end - panel - gap}},
            .panel = {{middle, end - panel}, {size.x - gap, end}},
            .foot = {{gap, end + gap}, {size.x - gap, size.y}}};
}

void draw_all(WindowState& state) {
    const ImVec2 size = ImGui::GetIO().DisplaySize;
    const Layout layout = lay_out(size, state.scale);
    ImGui::SetNextWindowPos({0, 0});
    ImGui::SetNextWindowSize(size);
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, {0, 0});
    ImGui::PushStyleVar(ImGuiStyleVar_WindowRounding, 0);
    ImGui::PushStyleColor(ImGuiCol_WindowBg, state.theme.desk);
    ImGui::Begin("desk", nullptr,
                 ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove |
                     ImGuiWindowFlags_NoSavedSettings | ImGuiWindowFlags_NoBringToFrontOnFocus |
                     ImGuiWindowFlags_NoScrollWithMouse);
    ImGui::PopStyleColor();
    ImGui::PopStyleVar(2);
    draw_top_bar(state, layout.top);
    draw_view_from_above(state, layout.above);  // first: a drag here changes what the others show
    draw_view_from_the_side(state, layout.side);
    draw_camera_view(state, layout.camera);
    draw_faces(state, layout.faces);
    draw_panel(state, layout.panel);
    draw_foot(state, layout.foot);
    ImGui::End();
    draw_sheet(state);
}

/// What the darkroom is told, when that is something else than before.
void order_prints(WindowState& state, Order& last) {
    const Order order{.scene = state.sitting.shared_scene(),
                      .edition = state.sitting.edition(),
                      .part = state.part,
                      .in_hand = state.drag.has_value(),
                      .faces = state.sitting.facts().worst_first,
                      .face_width_texels = state.face_width,
                      .face_height_texels = state.face_height};
    if (last.scene && order.edition == last.edition && order.part == last.part &&
        order.in_hand == last.in_hand && order.face_width_texels == last.face_width_texels &&
        order.face_height_texels == last.face_height_texels)
        return;
    last = order;
    state.darkroom->order(order);
}

// A hand that rests gets no new pictures, so only stretches in which it kept moving count: those
// whose next picture came before long.
void note_drag_picture(Quickness& quickness, rehearsal::DragId drag) {
    constexpr double resting_s = 0.5;
    const auto now = Quickness::Clock::now();
    const auto before = std::exchange(quickness.last_drag_picture, now);
    if (quickness.measured_drag != drag) {
        quickness.measured_drag = drag;
        quickness.drag_pictures = 0;
        quickness.drag_s = 0;
        return;
    }
    const double apart_s = std::chrono::duration<double>(now - before).count();
    if (apart_s > resting_s)
        return;
    ++quickness.drag_pictures;
    quickness.drag_s += apart_s;
    quickness.drag_pictures_per_s = quickness.drag_pictures / quickness.drag_s;
}

/// Takes what the other threads have done. Whether any of it is new.
bool collect(WindowState& state) {
    bool is_new = false;
    Prints prints = state.darkroom->collect();
    Quickness& quickness = state.quickness;
    if (prints.picture) {
        is_new = true;
        if (quickness.asked && prints.picture->edition == quickness.asked_edition) {
            const std::chrono::duration<double, std::milli> took =
                Quickness::Clock::now() - *std::exchange(quickness.asked, std::nullopt);
            quickness.first_answer_ms = took.count();
        }
        if (state.drag)
            note_drag_picture(quickness, state.drag->id);
        // What is kept goes on getting better until the scene becomes another.
        if (state.kept_facts && prints.picture->edition == state.kept_edition)
            state.kept_picture.take(Print{*prints.picture});
        state.picture.take(std::move(*prints.picture));
    }
    for (auto& [person, print] : prints.faces) {
        is_new = true;
        if (state.kept_facts && print.edition == state.kept_edition)
            state.kept_faces[person].take(Print{print});
        state.faces[person].take(std::move(print));
    }
    for (const auto& [person, measures] : prints.measures) {
        is_new = true;
        state.measures[person] = measures;
    }
    is_new = is_new || prints.work != state.work || prints.share != state.share ||
             prints.complaint != state.darkroom_complaint || prints.driver != state.driver;
    state.work = prints.work;
    state.share = prints.share;
    state.driver = prints.driver;
    state.darkroom_complaint = prints.complaint;

    if (auto advice = state.asked.work.take()) {
        is_new = true;
        state.asked.advice = std::move(*advice);
    }
    if (auto odds = state.odds.work.take()) {
        is_new = true;
        state.odds.odds = std::move(*odds);
    }
    if (state.saving) {
        is_new = true;
        if (const auto end = state.saving->end()) {
            state.notice = end->line;
            state.saving.reset();
        }
    }
    return is_new;
}

void compare_with_kept(WindowState& state) {
    if (state.two.kept() == nullptr || state.compared_edition == state.sitting.edition())
        return;
    state.compared_edition = state.sitting.edition();
    const rehearsal::Comparison compared =
        rehearsal::compare(*state.two.kept(), state.sitting.scene());
    if (compared.differences.empty()) {
        state.comparison.clear();
        return;
    }
    const auto standing = [](const rehearsal::Standing& s) {
        return s.worst_face.name + " " + blur_words(s.worst_face);
    };
    state.comparison =
        fmt::format("{}; {:.1f} stops of light lost; background {:.2f} → {:.2f} %; worst {} → {}",
                    fmt::join(compared.differences, ", "), compared.stops_lost,
                    compared.before.background_percent, compared.after.background_percent,
                    standing(compared.before), standing(compared.after));
}

/// What must be kept though the machine may stop at any moment; not within a drag.
void keep_safe(WindowState& state) {
    if (state.drag)
        return;
    if (const auto kept = state.recovery.follow(state.sitting.edited()); !kept)
        state.sitting.complain(to_line(kept.error()));
}

bool is_settled(const WindowState& state) {
    const int edition = state.sitting.edition();
    return state.work == Work::none && !state.drag && state.picture.print.edition == edition &&
           state.picture.print.is_finished() && state.picture.print.part == state.part &&
           std::ranges::all_of(state.faces, [&](const auto& face) {
               return face.second.print.edition == edition && face.second.print.is_finished();
           });
}

const char* word(Sheet sheet) {
    switch (sheet) {
    case Sheet::keys:
        return "keys";
    case Sheet::open:
        return "open";
    case Sheet::save_as:
        return "save as";
    case Sheet::save_picture:
        return "save picture";
    case Sheet::leave:
        return "leave";
    case Sheet::left_behind:
        return "left behind";
    case Sheet::none:
        break;
    }
    return "";
}

/// Whatever is wrong, the nearest to the hand first.
const std::string& complaint(const WindowState& state) {
    if (state.sheet != Sheet::none && !state.sheet_complaint.empty())
        return state.sheet_complaint;
    return state.sitting.complaint().empty() ? state.darkroom_complaint : state.sitting.complaint();
}

/// Letters of names and of what is typed, when there are some that the fonts do not have yet.
void load_new_letters(WindowState& state, Screen& screen) {
    std::string texts =
        state.sitting.edited().path() + state.typed_path + complaint(state) + state.notice;
    for (const scene::Scene* scene : {&state.sitting.scene(), state.two.kept()}) {
        if (scene == nullptr)
            continue;
        texts += scene->title;
        for (const scene::Person& person : scene->people)
            texts += person.name;
    }
    std::set<ImWchar> letters = foreign_letters(texts);
    if (std::ranges::includes(state.foreign_letters, letters))
        return;
    letters.merge(state.foreign_letters);
    state.foreign_letters = std::move(letters);
    state.fonts = load_fonts(state.scale, state.foreign_letters);
    screen.take_new_fonts();
}

Made<void> tell_status(WindowState& state) {
    const auto chosen = state.sitting.chosen();
    return state.widget_rects.end(
        {.edition = state.sitting.edition(),
         .is_settled = is_settled(state),
         .undo = state.sitting.edited().undone_next(),
         .chosen = chosen ? state.sitting.scene().people[*chosen].name : std::string{},
         .complaint = complaint(state),
         .notice = state.notice,
         .sheet = word(state.sheet),
         .is_holding = state.drag.has_value(),
         .is_typing = ImGui::GetIO().WantTextInput,
         .has_unsaved_changes = state.sitting.edited().has_unsaved_changes(),
         .was_changed_on_disk = state.changed_on_disk,
         .is_saving_picture = state.saving.has_value(),
         .is_dark = state.theme.is_dark,
         .picture_samples = state.picture.print.samples,
         .first_answer_ms = state.quickness.first_answer_ms,
         .drag_pictures_per_s = state.quickness.drag_pictures_per_s});
}

void look_for_left_behind(WindowState& state) {
    auto left = left_behind(state.sitting.edited());
    if (!left) {
        state.sitting.complain(to_line(left.error().front()));
    } else if (*left) {
        state.left_behind = std::move(*left);
        state.sheet = Sheet::left_behind;
    }
}

}  // namespace

Made<void> rehearse(rehearsal::Sitting sitting, const WindowWanted& wanted) {
    auto screen = Screen::open(sitting.scene().title + " – Backrow", wanted.width, wanted.height);
    if (!screen)
        return tl::make_unexpected(screen.error());
    WindowState state{std::move(sitting), wanted.widget_rects};
    state.scale = wanted.scale > 0 ? wanted.scale : screen->scale();
    state.theme = wanted.is_dark ? night() : day();
    state.fonts = load_fonts(state.scale, {});
    apply(state.theme, state.scale);
    state.darkroom.emplace(Screen::wake);
    state.note_change();
    look_for_left_behind(state);

    Order ordered;
    int frames_due = frames_after_input;
    std::string titled;
    auto moved = Quickness::Clock::now();
    bool is_lesson_due = false;
    while (!state.wants_to_leave) {
        screen->wait(frames_due > 0 ? 0 : is_lesson_due ? before_lesson_s : rest_s);
        if (screen->is_closing()) {
            screen->keep_open();
            leave(state);
            frames_due = frames_after_input;
        }
        state.rested_s = std::chrono::duration<double>(Quickness::Clock::now() - moved).count();
        if (screen->had_input()) {
            frames_due = frames_after_input;
            moved = Quickness::Clock::now();
            state.rested_s = 0;
            is_lesson_due = true;
        } else if (is_lesson_due && state.rested_s > before_lesson_s) {
            is_lesson_due = false;
            frames_due = std::max(frames_due, 1);
        }
        if (collect(state))
            frames_due = std::max(frames_due, 1);
        if (state.darkroom->failure())
            return tl::make_unexpected(*state.darkroom->failure());
        if (frames_due == 0) {
            if (!state.changed_on_disk && state.sitting.edited().was_changed_on_disk()) {
                state.changed_on_disk = true;
                frames_due = 1;
            }
            continue;
        }
        --frames_due;
        state.texels_per_unit = ImGui::GetIO().DisplayFramebufferScale.x;
        load_new_letters(state, *screen);
        screen->begin_frame();
        state.widget_rects.begin();
        obey_keys(state, screen->take_keys());
        compare_with_kept(state);
        draw_all(state);
        // Only now: the last stretch of a quick drag comes with the button already up.
        if (!ImGui::IsMouseDown(ImGuiMouseButton_Left))
            state.drag.reset();
        screen->end_frame(state.theme.desk);
        order_prints(state, ordered);
        keep_safe(state);
        if (const std::string title = state.sitting.scene().title + " – Backrow"; title != titled) {
            screen->set_title(title);
            titled = title;
        }
        if (auto told = tell_status(state); !told)
            return told;
    }
    state.recovery.end();
    return {};
}

}  // namespace backrow::window
