#include "delivery/preview.h"

#include "plan/faces/verdict.h"
#include "render/faces/face_crop.h"
#include "render/faces/face_meter.h"
#include "render/studio/open_studio.h"
#include "report/text/trouble_words.h"

#include <chrono>
#include <optional>
#include <utility>

namespace backrow::delivery {
namespace {

// Round a face on the sheet, a share of the head's height.
constexpr double sheet_margin = 0.22;

double seconds_since(std::chrono::steady_clock::time_point start) {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

/// What is lit and ready, and what is to be made in it.
struct Setup {
    const scene::Scene& scene;
    const scene::CameraView& view;
    const PreviewWanted& wanted;
    const render::OpenStudio& open;
    double stops_shown = 0;
    const StepProgress& progress;
};

/// The face at 100 %, empty where it lies behind the lens.
render::Finished<Image<Rgb8>> face_at_full_size(const Setup& setup, const scene::Person& person,
                                                const render::Progress& progress) {
    const auto at = render::face_crop(setup.view, person, sheet_margin);
    if (!at)
        return Image<Rgb8>{};
    // Here the face counts, not the far larger blur behind it.
    const auto quality = setup.wanted.quality == render::Quality::reference
                             ? render::Quality::fine
                             : render::Quality::draft;
    auto picture =
        make_picture(setup.open.studio(setup.stops_shown), setup.view, *at,
                     setup.open.samples_for(setup.view, *at, quality, setup.wanted.samples),
                     render::KeepLinear::no, progress);
    if (!picture)
        return tl::make_unexpected(picture.error());
    return std::move(picture->developed);
}

/// samples  those that the picture took
render::Finished<void> make_faces(const Setup& setup, const render::LensSamples& samples,
                                  plan::FaceTable& table, Preview& into) {
    const render::Gl& gl = setup.open.gl();
    const auto face_meter = render::FaceMeter::make(gl);
    if (!face_meter)
        return tl::make_unexpected(face_meter.error());
    const std::size_t count = setup.scene.people.size();
    for (std::size_t i = 0; i < count; ++i) {
        const auto tell = [&](double done) {
            return setup.progress(Step::faces,
                                  (static_cast<double>(i) + done) / static_cast<double>(count));
        };
        const scene::Person& person = setup.scene.people[i];
        plan::Face& face = table.faces[i];
        const auto measured_px = face_meter->blur_px(gl, setup.view, samples, person);
        into.numbers.measured_blur_px.push_back(measured_px);
        face.visible_fraction = face_meter->measured_visible_fraction(gl, setup.open.stage(),
                                                                      setup.view, setup.scene, i);
        if (setup.wanted.faces == FacesWanted::pictured) {
            auto pixels = face_at_full_size(setup, person, tell);
            if (!pixels)
                return tl::make_unexpected(pixels.error());
            into.faces.push_back({.pixels = std::move(*pixels),
                                  .name = face.name,
                                  .predicted_blur_px = face.predicted_blur_px,
                                  .measured_blur_px = measured_px,
                                  .verdict = verdict_of(face),
                                  .trouble = report::face_trouble_words(face)});
        }
        if (!tell(1))
            return tl::make_unexpected(render::Stopped{});
    }
    return {};
}

}  // namespace

render::Finished<Preview> make_preview(const scene::Scene& scene, const scene::CameraView& view,
                                       const stage::Stage& stage, const PreviewWanted& wanted,
                                       plan::FaceTable& table, const StepProgress& progress) {
    const auto opened = std::chrono::steady_clock::now();
    const auto open =
        render::OpenStudio::make(stage, wanted.look, view.position_m,
                                 [&](double done) { return progress(Step::light, done); });
    if (!open)
        return tl::make_unexpected(open.error());
    const auto stops_shown = wanted.look == render::Look::flat
                                 ? std::nullopt
                                 : std::optional{plan::stops_shown(scene.camera, table.metering)};
    const Setup setup{.scene = scene,
                      .view = view,
                      .wanted = wanted,
                      .open = *open,
                      .stops_shown = stops_shown.value_or(0.0),
                      .progress = progress};

    Preview preview;
    const double light_seconds = seconds_since(opened);
    const auto start = std::chrono::steady_clock::now();
    const auto crop = render::whole_frame(view, wanted.width_texels);
    const auto samples = open->samples_for(view, crop, wanted.quality, wanted.samples);
    auto picture =
        make_picture(open->studio(setup.stops_shown), view, crop, samples, wanted.keep_linear,
                     [&](double done) { return progress(Step::picture, done); });
    if (!picture)
        return tl::make_unexpected(picture.error());
    preview.picture = std::move(*picture);
    preview.numbers.facts = {.width_px = crop.width_texels,
                             .height_px = crop.height_texels,
                             .samples = preview.picture.passes,
                             .least_samples_measured = render::least_points_measured,
                             .stops_shown = stops_shown,
                             .seconds = seconds_since(start),
                             .light_seconds = light_seconds,
                             .faces_seconds = 0,
                             .driver = open->gl().driver};
    const auto faces_begun = std::chrono::steady_clock::now();
    if (wanted.faces != FacesWanted::none)
        if (const auto made = make_faces(setup, render::first_of(samples, preview.picture.passes),
                                         table, preview);
            !made)
            return tl::make_unexpected(made.error());
    preview.numbers.facts.faces_seconds = seconds_since(faces_begun);
    return preview;
}

}  // namespace backrow::delivery
