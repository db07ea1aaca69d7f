#pragma once

// What must hold of every page.

#include "papers/page/page.h"
#include "papers/page/paper.h"
#include "papers/words/language.h"

#include "base/length_words.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cstddef>
#include <cstdlib>
#include <string>
#include <vector>

namespace backrow::papers {

/// In which language and in which units.
struct Spoken {
    const char* language;
    Units units;
};

/// All that can be chosen, or of four pages in turn each another one: BACKROW_ALL_PAPERS in the
/// environment asks for more than a test run has time for.
inline std::vector<Spoken> spoken(std::size_t turn) {
    const std::vector<Spoken> all{{"en", Units::metric},
                                  {"de", Units::imperial},
                                  {"en", Units::imperial},
                                  {"de", Units::metric}};
    return std::getenv("BACKROW_ALL_PAPERS") != nullptr ? all : std::vector{all[turn % all.size()]};
}

inline bool overlap(const report::Frame& a, const report::Frame& b) {
    // What is worked out in points is not lettered to a thousandth of one.
    constexpr double touching_pt = 0.01;
    return std::min(a.right, b.right) - std::max(a.left, b.left) > touching_pt &&
           std::min(a.bottom, b.bottom) - std::max(a.top, b.top) > touching_pt;
}

inline void check_apart(const std::vector<Box>& boxes) {
    for (std::size_t i = 0; i < boxes.size(); ++i)
        for (std::size_t j = 0; j < i; ++j)
            if (overlap(boxes[i].place, boxes[j].place))
                FAIL_CHECK("“" << boxes[j].text << "” lies on “" << boxes[i].text << "”");
}

inline void check_legible(const Page& page, Paper paper) {
    const double margin_pt = size_of(paper).margin_pt;
    const Image<Rgb8> whole = page.canvas().pixels(1);
    for (const auto* boxes : {&page.boxes(), &page.labels()})
        for (const Box& box : *boxes) {
            CAPTURE(box.text, box.place.left, box.place.top, box.place.right, box.place.bottom);
            CHECK((box.text_pt == 0 || box.text_pt >= least_text_pt));
            CHECK(box.place.left >= margin_pt - 0.01);
            CHECK(box.place.top >= margin_pt - 0.01);
            CHECK(box.place.right <= whole.width_px() - margin_pt + 0.01);
            CHECK(box.place.bottom <= whole.height_px() - margin_pt + 0.01);
        }
    check_apart(page.boxes());
    check_apart(page.labels());
}

inline bool says(const Page& page, const std::string& text) {
    return std::ranges::any_of(
        page.boxes(), [&](const Box& box) { return box.text.find(text) != box.text.npos; });
}

}  // namespace backrow::papers
