#include "papers/lesson/lesson.h"

#include "papers/lesson/lesson_words.h"
#include "papers/page/passage.h"

#include "report/drawing/verdict_mark.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace backrow::papers {
namespace {

constexpr double largest_text_pt = 11;
constexpr int steps = 12;
// How high pictures are, against the height at which they fill the width of the page.
constexpr double lowest_pictures = 0.35;
constexpr double usual_pictures = 0.8;

struct LessonLayout {
    double text_pt = least_text_pt;
    double pictures = usual_pictures;
};

struct LessonContents {
    const LessonFacts& facts;
    const LessonWords& words;
    const report::StripPictures& pictures;
    PaperSize size;
};

double shape_of(const report::Box& box) {
    return static_cast<double>(box.width) / box.height;
}

class LessonComposer {
public:
    LessonComposer(Page& page, const LessonContents& lesson, const LessonLayout& layout)
        : page_{page}, lesson_{lesson}, layout_{layout}, cell_size_{lesson_picture_size(
                                                             lesson.facts)},
          plain_{.size_pt = layout.text_pt}, bold_{.size_pt = layout.text_pt, .bold = true},
          left_{static_cast<double>(lesson.size.margin_pt)}, width_pt_{lesson.size.width_pt -
                                                                       2 * left_} {}

    /// All but the answers. Returns how far down it reaches.
    double compose() {
        double y = heading(left_);
        y = grid(rule(y + 0.3 * gap_pt()) + gap_pt());
        y = page_.paragraph(left_, y, width_pt_, lesson_.words.cells_told, plain_) + gap_pt();
        y = rule(y) + gap_pt();
        return reasons_and_exercises(y);
    }

    /// How high the answers are.
    double answers_pt() {
        Page scratch{lesson_.size.width_pt, 1};
        return LessonComposer{scratch, lesson_, layout_}.answers(0);
    }

    /// From this height down, on its head.
    void answers_above(double bottom) {
        const double high_pt = answers_pt();
        rule(bottom - high_pt - gap_pt());
        page_.turn_about({left_ + width_pt_ / 2, bottom - high_pt / 2});
        answers(bottom - high_pt);
        page_.turn_no_more();
    }

    [[nodiscard]] double gap_pt() const { return 0.6 * layout_.text_pt; }

private:
    [[nodiscard]] double between_pt() const { return 1.4 * layout_.text_pt; }

    [[nodiscard]] Letters head_letters() const {
        return {.size_pt = 1.15 * layout_.text_pt, .bold = true};
    }

    double rule(double y) {
        page_.canvas().line(left_, y, left_ + width_pt_, y, black, 0.6);
        return y;
    }

    double heading(double y) {
        const Letters title{.size_pt = 1.5 * layout_.text_pt, .bold = true};
        y = page_.paragraph(left_, y, width_pt_, lesson_.words.title, title);
        return page_.paragraph(left_, y, width_pt_, lesson_.words.group, plain_);
    }

    double head(double left, double y, double width_pt, const LessonHead& words) {
        y = page_.paragraph(left, y, width_pt, words.title, head_letters());
        return page_.paragraph(left, y, width_pt, words.note, plain_);
    }

    /// Frame and face, side by side, and what is said of them. Returns how far down it reaches.
    double cell(double left, double y, double width_pt, std::size_t i) {
        const double shapes = shape_of(cell_size_.whole) + shape_of(cell_size_.face);
        const double beside_pt = 0.3 * layout_.text_pt;
        const double high_pt = layout_.pictures * (width_pt - beside_pt) / shapes;
        const report::StripMade& made = lesson_.pictures.made[i];
        const double frame_pt = high_pt * shape_of(cell_size_.whole);
        page_.picture(made.whole, {left, y, left + frame_pt, y + high_pt});
        const double face_left = left + frame_pt + beside_pt;
        if (!made.face.empty())
            page_.picture(made.face, {face_left, y, face_left + high_pt * shape_of(cell_size_.face),
                                      y + high_pt});
        return caption(left, y + high_pt + 0.2 * layout_.text_pt, width_pt, lesson_.words.cells[i]);
    }

    double caption(double left, double y, double width_pt, const LessonCell& words) {
        if (words.sign) {
            const double size = 0.95 * layout_.text_pt / report::verdict_mark_height_px;
            page_.sign(left, y + 0.12 * layout_.text_pt, *words.sign, size);
            const double indent_pt = size * report::verdict_mark_width_px + 0.3 * layout_.text_pt;
            y = page_.paragraph(left + indent_pt, y, width_pt - indent_pt, words.least_sharp,
                                bold_);
        }
        y = page_.paragraph(left, y, width_pt, words.blur, plain_);
        return page_.paragraph(left, y, width_pt, words.sharp, plain_);
    }

    double distance_heads_pt() {
        constexpr double most = 0.24;  // Of the width.
        double widest_pt = 0;
        for (const LessonHead& words : lesson_.words.distances)
            widest_pt = std::max({widest_pt, page_.text_width_pt(words.title, head_letters()),
                                  page_.text_width_pt(words.note, plain_)});
        return std::min(most * width_pt_, widest_pt + 1);
    }

    /// A row for each distance, a column for each aperture.
    double grid(double y) {
        const LessonWords& words = lesson_.words;
        const double head_pt = distance_heads_pt();
        const double first_left = left_ + head_pt + between_pt();
        const auto columns = static_cast<double>(words.apertures.size());
        const double across_pt = left_ + width_pt_ - first_left;
        const double each_pt = (across_pt - (columns - 1) * between_pt()) / columns;
        const auto left_of = [&](std::size_t column) {
            return first_left + static_cast<double>(column) * (each_pt + between_pt());
        };
        double bottom = y;
        for (std::size_t i = 0; i < words.apertures.size(); ++i)
            bottom = std::max(bottom, head(left_of(i), y, each_pt, words.apertures[i]));
        for (std::size_t j = 0; j < words.distances.size(); ++j) {
            y = bottom + gap_pt();
            bottom = head(left_, y, head_pt, words.distances[j]);
            for (std::size_t i = 0; i < words.apertures.size(); ++i)
                bottom =
                    std::max(bottom, cell(left_of(i), y, each_pt, j * words.apertures.size() + i));
        }
        return bottom + gap_pt();
    }

    double numbered(double left, double y, double width_pt, std::size_t i,
                    const std::string& text) {
        const double indent_pt = page_.text_width_pt("0. ", plain_);
        page_.paragraph(left, y, indent_pt + 1, fmt::format("{}.", i + 1), plain_);
        return page_.paragraph(left + indent_pt + 1, y, width_pt - indent_pt - 1, text, plain_);
    }

    /// Side by side.
    double reasons_and_exercises(double y) {
        const LessonWords& words = lesson_.words;
        const double half_pt = (width_pt_ - between_pt()) / 2;
        double reasons = page_.paragraph(left_, y, half_pt, words.theory_heading, bold_);
        for (const std::string& sentence : words.theory)
            reasons = page_.paragraph(left_, reasons, half_pt, sentence, plain_) + 0.4 * gap_pt();
        reasons = draw_in_frame(page_, left_, reasons + 0.4 * gap_pt(), half_pt,
                                {.heading = words.mind_heading, .sentences = words.mind}, plain_);
        const double right = left_ + half_pt + between_pt();
        double exercises = page_.paragraph(right, y, half_pt, words.exercises_heading, bold_);
        for (std::size_t i = 0; i < words.exercises.size(); ++i)
            exercises = numbered(right, exercises, half_pt, i, words.exercises[i]) + 0.4 * gap_pt();
        return std::max(reasons, exercises);
    }

    double answers(double y) {
        y = page_.paragraph(left_, y, width_pt_, lesson_.words.answers_heading, bold_);
        for (std::size_t i = 0; i < lesson_.words.answers.size(); ++i)
            y = numbered(left_, y, width_pt_, i, lesson_.words.answers[i]);
        return y;
    }

    Page& page_;
    const LessonContents& lesson_;
    LessonLayout layout_;
    report::StripCell cell_size_;
    Letters plain_;
    Letters bold_;
    double left_;
    double width_pt_;
};

bool fits(const LessonContents& lesson, const LessonLayout& layout) {
    Page scratch{lesson.size.width_pt, 1};
    LessonComposer composer{scratch, lesson, layout};
    const double reach_pt = composer.compose() + 2 * composer.gap_pt() + composer.answers_pt();
    return reach_pt <= lesson.size.height_pt - lesson.size.margin_pt;
}

/// The largest that fits, else the smallest.
template <class Changed>
LessonLayout grown(const LessonContents& lesson, const Changed& changed) {
    for (int step = steps; step > 0; --step)
        if (const LessonLayout layout = changed(static_cast<double>(step) / steps);
            fits(lesson, layout))
            return layout;
    return changed(0);
}

LessonLayout fitted_layout(const LessonContents& lesson) {
    LessonLayout layout;
    layout = grown(lesson, [&](double share) {
        LessonLayout changed = layout;
        changed.text_pt = std::lerp(least_text_pt, largest_text_pt, share);
        return changed;
    });
    return grown(lesson, [&](double share) {
        LessonLayout changed = layout;
        changed.pictures = std::lerp(lowest_pictures, 1.0, share);
        return changed;
    });
}

}  // namespace

report::StripCell lesson_picture_size(const LessonFacts& facts) {
    // At the width of a page, 300 pixels an inch or more.
    constexpr int longest_texels = 480;
    constexpr int face_texels = 360;
    const scene::CameraView& view = facts.strip.frames.front().view;
    const int longer_px = std::max(view.width_px, view.height_px);
    const auto texels = [&](int side_px) {
        return std::max(1, static_cast<int>(std::lround(static_cast<double>(longest_texels) *
                                                        side_px / longer_px)));
    };
    return {.whole = {0, 0, texels(view.width_px), texels(view.height_px)},
            .face = {0, 0, face_texels, face_texels},
            .caption{}};
}

Page lesson(const LessonFacts& facts, const report::StripPictures& pictures,
            const LessonChoices& choices) {
    const LessonWords words = lesson_words(facts, pictures, choices.language, choices.units);
    const LessonContents contents{
        .facts = facts, .words = words, .pictures = pictures, .size = size_of(choices.paper)};
    const LessonLayout layout = fitted_layout(contents);
    Page page{contents.size.width_pt, contents.size.height_pt};
    LessonComposer composer{page, contents, layout};
    composer.compose();
    composer.answers_above(contents.size.height_pt - contents.size.margin_pt);
    return page;
}

Bytes lesson_bytes(const LessonFacts& facts, const report::StripPictures& pictures,
                   const LessonChoices& choices, report::PageKind kind) {
    constexpr int pixels_a_point = 3;
    const Page page = lesson(facts, pictures, choices);
    return report::page_bytes(page.canvas(), kind, pixels_a_point, facts.scene.title);
}

}  // namespace backrow::papers
