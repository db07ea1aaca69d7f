#include "delivery/outputs.h"

#include "delivery/card.h"
#include "delivery/client_page.h"
#include "delivery/client_pictures.h"
#include "delivery/lesson.h"
#include "delivery/picture_file.h"
#include "delivery/strip_pictures.h"

#include "papers/lesson/lesson.h"
#include "plan/advice/advice.h"
#include "plan/comparing/tradeoff.h"
#include "plan/odds/odds.h"
#include "report/answers/advice_report.h"
#include "report/answers/odds_report.h"
#include "report/tradeoff/tradeoff_chart.h"

#include <algorithm>
#include <array>
#include <thread>
#include <utility>

namespace backrow::delivery {
namespace {

using MadeBytes = tl::expected<Bytes, NotMade>;

Bytes bytes_of(std::string_view text) {
    const auto* first = reinterpret_cast<const std::byte*>(text.data());
    return {first, first + text.size()};
}

template <const char* ending>
const char* always(const Choices&) {
    return ending;
}
constexpr char png[] = ".png", pdf[] = ".pdf", csv[] = ".csv", txt[] = ".txt", html[] = ".html";

const char* ending_of_picture(const Choices& choices) {
    return choices.format == PictureFormat::jpeg ? ".jpg" : png;
}

/// Of the preview, which the first output that needs it makes for both.
double preview_work_s(const Workshop& shop) {
    const int width_px = picture_width_px(shop.choices(), shop.view());
    const double megapixels = 1e-6 * width_px * render::height_for_width(shop.view(), width_px);
    const auto faces = static_cast<double>(shop.scene().people.size());
    return 1 + 1.2 * megapixels + (is_wanted(shop.choices(), "faces") ? 0.25 * faces : 0);
}

double faces_work_s(const Workshop& shop) {
    return is_wanted(shop.choices(), "picture") ? 0.3 : preview_work_s(shop);
}

MadeBytes make_picture_file(Workshop& shop, const render::Progress& progress) {
    const auto preview = shop.preview(progress);
    if (!preview)
        return tl::make_unexpected(preview.error());
    const Image<Rgb8>& picture = (*preview)->picture.developed;
    const Choices& choices = shop.choices();
    auto bytes =
        picture_bytes(choices.with_captions
                          ? with_captions(picture, shop.scene(), shop.view(), shop.table().faces)
                          : picture,
                      choices.format == PictureFormat::jpeg, choices.jpeg_quality);
    if (!bytes)
        return tl::make_unexpected(NotMade{bytes.error()});
    return std::move(*bytes);
}

MadeBytes make_faces_sheet(Workshop& shop, const render::Progress& progress) {
    const auto preview = shop.preview(progress);
    if (!preview)
        return tl::make_unexpected(preview.error());
    return png_bytes(report::faces_sheet((*preview)->faces, shop.scene().title));
}

/// As `lesson` makes it of whoever asks for nothing else.
MadeBytes make_lesson(Workshop& shop, const render::Progress& progress) {
    const auto language = papers::Language::of(shop.asked().language);
    if (!language)
        return tl::make_unexpected(NotMade{language.error()});
    const papers::LessonFacts facts = papers::lesson_facts(shop.scene());
    if (const auto faceless = faceless_frame(facts.strip))
        return tl::make_unexpected(NotMade{Problem{{}, faceless->what, faceless->mend}});
    const auto stage = stage_of_strip(shop.scene(), facts.strip);
    if (!stage)
        return tl::make_unexpected(not_made(stage.error()));
    const auto pictures = lesson_pictures(facts, *stage, [&](Step step, double done) {
        return progress(share_of_all(step, done, false));
    });
    if (!pictures)
        return tl::make_unexpected(not_made(pictures.error()));
    return lesson_bytes(facts, *pictures, {.units = shop.asked().units, .language = *language},
                        report::PageKind::pdf);
}

template <report::PageKind kind>
MadeBytes make_strip_file(Workshop& shop, const render::Progress& progress) {
    const auto strip = shop.strip(progress);
    if (!strip)
        return tl::make_unexpected(strip.error());
    return strip_bytes((*strip)->sheet, (*strip)->layout, kind);
}

double strip_work_s(const Workshop&) {
    return 8.0;
}

MadeBytes make_chart(Workshop& shop, const render::Progress&) {
    const scene::Scene& scene = shop.scene();
    return tradeoff_chart_bytes(
        {.scene = scene,
         .tradeoff = plan::tradeoff(scene, plan::tradeoff_range(scene, {}, {}), {}),
         .units = shop.asked().units},
        report::PageKind::pdf);
}

MadeBytes make_table(Workshop& shop, const render::Progress&) {
    const scene::Scene& scene = shop.scene();
    return bytes_of(report::faces_csv(
        report::face_report(scene, camera_view(scene), shop.table(), shop.asked().units)));
}

MadeBytes make_odds(Workshop& shop, const render::Progress&) {
    return bytes_of(odds_text(report::odds_report(
        shop.scene(), shop.asked().odds_grade,
        {.threads = std::max(1, static_cast<int>(std::thread::hardware_concurrency()))},
        shop.asked().units)));
}

MadeBytes make_advice(Workshop& shop, const render::Progress& progress) {
    auto advice = plan::advise(shop.scene(), shop.asked().advice, progress);
    if (!advice)
        return tl::make_unexpected(NotMade{render::Stopped{}});
    return bytes_of(report::advice_text({.scene = shop.scene(),
                                         .wanted = shop.asked().advice,
                                         .advice = std::move(*advice),
                                         .units = shop.asked().units}));
}

/// As `card` makes it of whoever asks for nothing else.
MadeBytes make_card(Workshop& shop, const render::Progress& progress) {
    const auto language = papers::Language::of(shop.asked().language);
    if (!language)
        return tl::make_unexpected(NotMade{language.error()});
    const auto stage = stage::build_stage(shop.scene(), shop.view());
    if (!stage)
        return tl::make_unexpected(not_made(stage.error()));
    const auto picture =
        card_picture(shop.scene(), shop.view(), *stage, [&](Step step, double done) {
            return progress(share_of_all(step, done, false));
        });
    if (!picture)
        return tl::make_unexpected(not_made(picture.error()));
    return card_bytes(papers::card_facts(shop.scene(), {}), *picture,
                      {.units = shop.asked().units, .language = *language}, report::PageKind::pdf);
}

/// As `client` makes it of whoever asks for nothing else.
MadeBytes make_client_page(Workshop& shop, const render::Progress& progress) {
    const scene::Scene& scene = shop.scene();
    const auto language = papers::Language::of(shop.asked().language);
    if (!language)
        return tl::make_unexpected(NotMade{language.error()});
    const plan::Strip strip = plan::strip(scene,
                                          {{.lens_to_mark_m = scene.camera.lens_to_mark_m,
                                            .focal_length_mm = scene.camera.focal_length_mm}},
                                          plan::f_numbers_until_fine(scene));
    if (const auto problem = cannot_be_leafed_through(strip))
        return tl::make_unexpected(NotMade{*problem});
    const auto stage = stage_of_strip(scene, strip);
    if (!stage)
        return tl::make_unexpected(not_made(stage.error()));
    const auto pictures = client_pictures(
        scene, strip, *stage, {.width_texels = usual_client_width_px(shop.view())},
        [&](Step step, double done) { return progress(share_of_all(step, done, false)); });
    if (!pictures)
        return tl::make_unexpected(not_made(pictures.error()));
    const auto page = client_page(papers::client_facts(scene, strip, papers::Leafing::apertures),
                                  *pictures, {.units = shop.asked().units, .language = *language});
    if (!page)
        return tl::make_unexpected(page.error());
    return bytes_of(page->html);
}

/// A picture for each aperture, and each face in it.
double client_work_s(const Workshop& shop) {
    constexpr double pictures = 5;
    return pictures * (3 + 0.25 * static_cast<double>(shop.scene().people.size()));
}

constexpr std::array table{
    Output{"picture", "The picture", "At full quality, as it will be seen.", true,
           ending_of_picture, preview_work_s, make_picture_file},
    Output{"faces", "Every face at 100 %", "One pixel of the camera is one of the sheet.", false,
           always<png>, faces_work_s, make_faces_sheet},
    Output{"card", "Card for the shoot", "On one page, to be read in the sun.", false, always<pdf>,
           [](const Workshop&) { return 2.0; }, make_card},
    Output{"strip", "Strip of apertures",
           "The same frame from the scene's aperture on three stops down, side by side.", false,
           always<png>, strip_work_s, make_strip_file<report::PageKind::png>},
    Output{"strip-page", "Strip to print", "The same as a page, its letters no picture.", false,
           always<pdf>,
           [](const Workshop& shop) {
               return is_wanted(shop.choices(), "strip") ? 0.3 : strip_work_s(shop);
           },
           make_strip_file<report::PageKind::pdf>},
    Output{"client", "Page for the client",
           "A slider through apertures, every face up close; opens on a phone.", false,
           always<html>, client_work_s, make_client_page},
    Output{"lesson", "Lesson for a class",
           "Distance against aperture on one page, with exercises and answers.", false, always<pdf>,
           [](const Workshop&) { return 10.0; }, make_lesson},
    Output{"chart", "Chart of distance and aperture", "On one page, for the bag.", false,
           always<pdf>, [](const Workshop&) { return 0.5; }, make_chart},
    Output{"table", "Table of the faces", "For a spreadsheet.", false, always<csv>,
           [](const Workshop&) { return 0.1; }, make_table},
    Output{"odds", "Odds, and frames to shoot", "To read at the shoot.", false, always<txt>,
           [](const Workshop&) { return 0.3; }, make_odds},
    Output{"advice", "Advice", "Within the limits of the panel Advice.", false, always<txt>,
           [](const Workshop&) { return 1.0; }, make_advice},
};

}  // namespace

std::span<const Output> outputs() {
    return table;
}

bool is_wanted(const Choices& choices, std::string_view key) {
    return std::ranges::any_of(
        choices.pieces, [&](const Piece& piece) { return piece.key == key && piece.is_wanted; });
}

std::string file_name(const Choices& choices, std::size_t i) {
    return choices.stem + choices.pieces[i].tail + outputs()[i].ending(choices);
}

}  // namespace backrow::delivery
