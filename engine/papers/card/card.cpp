#include "papers/card/card.h"

#include "papers/card/card_drawings.h"
#include "papers/card/card_words.h"
#include "papers/card/names_list.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace backrow::papers {
namespace {

constexpr double largest_text_pt = 11;
constexpr double phone_text_pt = 10;
constexpr int text_steps = 16;
constexpr int drawing_steps = 16;
// Of the width of the text.
constexpr double largest_picture = 0.46;
constexpr double smallest_picture = 0.26;

/// What a card of one size is made of.
struct CardLayout {
    double text_pt = least_text_pt;
    double drawings_pt = 0;                  ///< How high they are; 0: none.
    double picture_share = largest_picture;  ///< Of the width; 0: no picture.
    bool is_dense = false;                   ///< In three columns what has two, verdicts by signs.
    std::size_t most_names = std::numeric_limits<std::size_t>::max();
};

struct CardContents {
    const CardFacts& facts;
    const CardWords& words;
    const Image<Rgb8>& picture;
    const CardChoices& choices;
};

std::size_t names_on(const CardContents& card) {
    std::size_t names = 0;
    for (const NamesOfRow& row : card.words.names)
        names += row.people.size();
    return names;
}

class CardComposer {
public:
    CardComposer(Page& page, const CardContents& card, const CardLayout& layout)
        : page_{page}, card_{card}, layout_{layout}, size_{size_of(card.choices.paper)},
          plain_{.size_pt = layout.text_pt}, bold_{.size_pt = layout.text_pt, .bold = true},
          left_{static_cast<double>(size_.margin_pt)}, width_pt_{size_.width_pt - 2 * left_} {}

    /// Returns how far down it reaches.
    double compose() {
        const double gap_pt = (layout_.is_dense ? 0.3 : 0.55) * layout_.text_pt;
        double y = heading(left_);
        y = rule(y + 0.3 * gap_pt) + gap_pt;
        y = picture_and_settings(y) + gap_pt;
        y = cautions(y);
        y = drawings(y) + gap_pt;
        y = rule(y) + gap_pt;
        y = names(y) + gap_pt;
        y = rule(y) + gap_pt;
        return passages(y);
    }

private:
    [[nodiscard]] bool is_narrow() const { return card_.choices.paper == Paper::phone; }
    [[nodiscard]] double after_passage_pt() const {
        return (layout_.is_dense ? 0.15 : 0.35) * layout_.text_pt;
    }
    [[nodiscard]] double between_pt() const {
        return (layout_.is_dense ? 1.0 : 1.4) * layout_.text_pt;
    }

    double heading(double y) {
        const Letters title{.size_pt = (layout_.is_dense ? 1.15 : 1.35) * layout_.text_pt,
                            .bold = true};
        y = page_.paragraph(left_, y, width_pt_, card_.words.title, title);
        return page_.paragraph(left_, y, width_pt_, card_.words.group, plain_);
    }

    double rule(double y) {
        page_.canvas().line(left_, y, left_ + width_pt_, y, black, 0.6);
        return y;
    }

    double settings(double left, double y, double width_pt) {
        constexpr double least = 1.15, most = 1.45;  // Of the text, to stand on one line.
        Letters large{.size_pt = (layout_.is_dense ? least : most) * layout_.text_pt, .bold = true};
        const double needed_pt = page_.text_width_pt(card_.words.settings, large);
        large.size_pt = std::max(least * layout_.text_pt,
                                 large.size_pt * std::min(1.0, 0.999 * width_pt / needed_pt));
        y = page_.paragraph(left, y, width_pt, card_.words.settings, large);
        for (const std::string& note : card_.words.setting_notes)
            y = page_.paragraph(left, y, width_pt, note, plain_);
        return y;
    }

    /// What is set, and below it, or beside it, what is paced out.
    double settings_and_pacing(double left, double y, double width_pt) {
        if (!layout_.is_dense)
            return passage(left, settings(left, y, width_pt) + after_passage_pt(), width_pt,
                           card_.words.pacing);
        const double half_pt = (width_pt - between_pt()) / 2;
        return std::max(settings(left, y, half_pt),
                        passage(left + half_pt + between_pt(), y, half_pt, card_.words.pacing));
    }

    double picture_and_settings(double y) {
        const Image<Rgb8>& picture = card_.picture;
        if (layout_.picture_share == 0 || picture.empty())
            return settings_and_pacing(left_, y, width_pt_);
        const double shape = static_cast<double>(picture.height_px()) / picture.width_px();
        const double beside_pt = is_narrow() ? width_pt_ : layout_.picture_share * width_pt_;
        // No higher than wide: one held upright is narrower.
        const double wide_pt = shape > 1 ? 0.75 * beside_pt / shape : beside_pt;
        const double bottom = y + wide_pt * shape;
        page_.picture(picture, {left_, y, left_ + wide_pt, bottom});
        if (is_narrow())
            return settings_and_pacing(left_, bottom + 0.5 * layout_.text_pt, width_pt_);
        const double left = left_ + wide_pt + between_pt();
        return std::max(bottom, settings_and_pacing(left, y, left_ + width_pt_ - left));
    }

    double cautions(double y) {
        const Passage& mind = card_.words.mind;
        if (mind.sentences.empty())
            return y;
        return draw_in_frame(page_, left_, y, width_pt_, mind, plain_) + 0.6 * layout_.text_pt;
    }

    double passage(double left, double y, double width_pt, const Passage& passage) {
        return draw_passage(page_, left, y, width_pt, passage, plain_) + after_passage_pt();
    }

    [[nodiscard]] DrawnCard drawn() const {
        return {
            .facts = card_.facts, .language = card_.choices.language, .units = card_.choices.units};
    }

    double plan(double left, double y, double width_pt, double height_pt) {
        draw_plan(page_, {left, y, left + width_pt, y + height_pt}, drawn());
        return page_.paragraph(left, y + height_pt + 0.2 * layout_.text_pt, width_pt,
                               card_.words.plan_caption, plain_);
    }

    double side(double left, double y, double width_pt, double height_pt) {
        draw_side(page_, {left, y, left + width_pt, y + height_pt}, drawn());
        return page_.paragraph(left, y + height_pt + 0.2 * layout_.text_pt, width_pt,
                               card_.words.side_caption, plain_);
    }

    /// The scene from above, and beside it the heads from the side.
    double drawings(double y) {
        if (layout_.drawings_pt == 0)
            return y;
        if (is_narrow()) {
            y = plan(left_, y, width_pt_, layout_.drawings_pt) + 0.5 * layout_.text_pt;
            return side(left_, y, width_pt_, 0.4 * width_pt_);
        }
        const double plan_pt = 0.6 * width_pt_;
        const double left = left_ + plan_pt + between_pt();
        const double beside_pt = width_pt_ - plan_pt - between_pt();
        return std::max(side(left, y, beside_pt, layout_.drawings_pt),
                        plan(left_, y, plan_pt, layout_.drawings_pt));
    }

    double names(double y) {
        y = page_.paragraph(left_, y, width_pt_, card_.words.names_heading, plain_);
        y = draw_names(page_, {left_, y, width_pt_, plain_, layout_.is_dense}, card_.words.names,
                       layout_.most_names);
        const std::size_t all = names_on(card_);
        if (layout_.most_names < all)
            y = page_.paragraph(left_, y, width_pt_,
                                more_people_words(all - layout_.most_names, card_.choices.language),
                                bold_);
        return y;
    }

    [[nodiscard]] double height_pt(const Passage& passage, double width_pt) {
        int lines = page_.lines(width_pt, passage.heading, bold_);
        for (const std::string& sentence : passage.sentences)
            lines += page_.lines(width_pt, sentence, plain_);
        return lines * plain_.line_pt() + after_passage_pt();
    }

    /// One after the other, in columns that are as low as their order allows.
    double passages(double y) {
        std::vector<Passage> all = card_.words.otherwise;
        all.insert(all.end(), card_.words.at_the_shoot.begin(), card_.words.at_the_shoot.end());
        const int columns = is_narrow() ? 1 : layout_.is_dense ? 3 : 2;
        const double each_pt = (width_pt_ - (columns - 1) * between_pt()) / columns;
        std::vector<double> heights_pt;
        heights_pt.reserve(all.size());
        for (const Passage& each : all)
            heights_pt.push_back(height_pt(each, each_pt));
        const auto columns_needed = [&](double most_pt) {
            int needed = 1;
            double used_pt = 0;
            for (const double each : heights_pt) {
                if (used_pt > 0 && used_pt + each > most_pt) {
                    ++needed;
                    used_pt = 0;
                }
                used_pt += each;
            }
            return needed;
        };
        double most_pt = std::ranges::max(heights_pt);
        while (columns_needed(most_pt) > columns)
            most_pt += 1;
        double left = left_, bottom = y, lowest = y;
        for (std::size_t i = 0; i < all.size(); ++i) {
            if (bottom > y && bottom + heights_pt[i] > y + most_pt + 0.01) {
                left += each_pt + between_pt();
                bottom = y;
            }
            bottom = passage(left, bottom, each_pt, all[i]);
            lowest = std::max(lowest, bottom);
        }
        return lowest;
    }

    Page& page_;
    const CardContents& card_;
    CardLayout layout_;
    PaperSize size_;
    Letters plain_;
    Letters bold_;
    double left_;
    double width_pt_;
};

/// How far down it would reach on a page without an end.
double reach_pt(const CardContents& card, const CardLayout& layout) {
    Page scratch{size_of(card.choices.paper).width_pt, 1};
    return CardComposer{scratch, card, layout}.compose();
}

/// The most, from none to all, that fit; none where not even that does.
template <class Fits>
std::size_t most_that_fit(std::size_t all, const Fits& fits) {
    std::size_t least = 0;
    while (least < all) {
        const std::size_t middle = (least + all + 1) / 2;
        if (fits(middle))
            least = middle;
        else
            all = middle - 1;
    }
    return least;
}

/// On a paper that ends.
CardLayout fitted_layout(const CardContents& card) {
    const PaperSize size = size_of(card.choices.paper);
    const double bottom_pt = size.height_pt - size.margin_pt;
    const double free_pt = bottom_pt - size.margin_pt;
    constexpr double least_drawings = 0.13, most_drawings = 0.42;
    CardLayout layout{.drawings_pt = least_drawings * free_pt};
    const auto fits = [&](const CardLayout& tried) {
        // A crowd need not be lettered to see that its names alone do not fit.
        const double lines =
            static_cast<double>(std::min(tried.most_names, names_on(card))) / most_name_columns;
        return lines * Letters{.size_pt = tried.text_pt}.line_pt() <= free_pt &&
               reach_pt(card, tried) <= bottom_pt;
    };
    // Whatever grows makes the card higher.
    const auto grown = [&](int steps, const auto& changed) {
        const std::size_t step = most_that_fit(static_cast<std::size_t>(steps), [&](std::size_t i) {
            return fits(changed(static_cast<double>(i) / steps));
        });
        return changed(static_cast<double>(step) / steps);
    };
    const auto with_text = [&](double share) {
        CardLayout changed = layout;
        changed.text_pt = std::lerp(least_text_pt, largest_text_pt, share);
        return changed;
    };
    const auto with_drawings = [&](double share) {
        CardLayout changed = layout;
        changed.drawings_pt = free_pt * std::lerp(least_drawings, most_drawings, share);
        return changed;
    };
    layout = grown(text_steps, with_text);
    if (!fits(layout)) {
        layout.is_dense = true;
        layout.picture_share = smallest_picture;
    }
    if (!fits(layout))
        layout.picture_share = 0;
    if (!fits(layout)) {
        layout.drawings_pt = 0;
        // What they leave may hold the picture, which is lower.
        CardLayout pictured = layout;
        pictured.picture_share = smallest_picture;
        if (fits(pictured))
            layout = pictured;
    }
    if (!fits(layout)) {
        layout.most_names = most_that_fit(names_on(card), [&](std::size_t names) {
            CardLayout tried = layout;
            tried.most_names = names;
            return fits(tried);
        });
        return layout;
    }
    return layout.drawings_pt == 0 ? grown(text_steps, with_text)
                                   : grown(drawing_steps, with_drawings);
}

CardLayout endless_layout(const CardContents& card) {
    const PaperSize size = size_of(card.choices.paper);
    const double width_pt = size.width_pt - 2 * size.margin_pt;
    return {.text_pt = phone_text_pt,
            .drawings_pt =
                std::clamp(plan_height_pt(card.facts, width_pt), 0.5 * width_pt, 1.5 * width_pt)};
}

}  // namespace

Page card(const CardFacts& facts, const Image<Rgb8>& picture, const CardChoices& choices) {
    const CardWords words = card_words(facts, choices.language, choices.units);
    const CardContents contents{
        .facts = facts, .words = words, .picture = picture, .choices = choices};
    const PaperSize size = size_of(choices.paper);
    const bool ends = size.height_pt > 0;
    const CardLayout layout = ends ? fitted_layout(contents) : endless_layout(contents);
    const int height_pt =
        ends ? size.height_pt
             : static_cast<int>(std::ceil(reach_pt(contents, layout))) + size.margin_pt;
    Page page{size.width_pt, height_pt};
    CardComposer{page, contents, layout}.compose();
    return page;
}

Bytes card_bytes(const CardFacts& facts, const Image<Rgb8>& picture, const CardChoices& choices,
                 report::PageKind kind) {
    constexpr int pixels_a_point = 3;
    const Page page = card(facts, picture, choices);
    return report::page_bytes(page.canvas(), kind, pixels_a_point, facts.scene.title);
}

}  // namespace backrow::papers
