#include "delivery/strip_pictures.h"

#include "delivery/picture_work.h"

#include "plan/faces/metering.h"
#include "render/faces/face_crop.h"
#include "render/faces/face_meter.h"
#include "render/studio/open_studio.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <utility>
#include <vector>

namespace backrow::delivery {
namespace {

/// One picture to make.
struct Job {
    std::size_t frame = 0;
    bool is_face = false;
    render::CropRect crop;
    render::LensSamples samples;
    double work = 0;  ///< In proportion to the time that it takes.
};

struct Jobs {
    std::vector<Job> list;
    double work = 0;
};

Jobs jobs_of(const scene::Scene& scene, const render::OpenStudio& studio, const plan::Strip& strip,
             const report::StripCell& size, double face_scale, const StripRendering& rendering) {
    Jobs jobs;
    const auto add = [&](std::size_t i, bool is_face, const render::CropRect& crop) {
        auto samples =
            studio.samples_for(strip.frames[i].view, crop, rendering.quality, rendering.samples);
        const double work = work_of(samples, crop);
        jobs.work += work;
        jobs.list.push_back({.frame = i,
                             .is_face = is_face,
                             .crop = crop,
                             .samples = std::move(samples),
                             .work = work});
    };
    for (std::size_t i = 0; i < strip.frames.size(); ++i) {
        const scene::CameraView& view = strip.frames[i].view;
        add(i, false, render::whole_frame(view, size.whole.width, size.whole.height));
        if (const auto detail =
                render::face_detail(view, scene.people[strip.frames[i].worst->person],
                                    size.face.width, size.face.height, face_scale))
            add(i, true, *detail);
    }
    return jobs;
}

void show_where(const render::CropRect& crop, const scene::CameraView& view,
                report::StripMade& made) {
    made.face_left = crop.left_px / view.width_px;
    made.face_top = crop.top_px / view.height_px;
    made.face_right = (crop.left_px + crop.width_px) / view.width_px;
    made.face_bottom = (crop.top_px + crop.height_px) / view.height_px;
}

double tallest_face_px(const plan::Strip& strip) {
    double tallest_px = 0;
    for (const plan::StripFrame& frame : strip.frames)
        tallest_px = std::max(tallest_px, frame.worst->face.face_height_px);
    return tallest_px;
}

}  // namespace

std::optional<FacelessFrame> faceless_frame(const plan::Strip& strip) {
    const auto empty = std::ranges::find(
        strip.frames, false, [](const plan::StripFrame& frame) { return frame.worst.has_value(); });
    if (empty == strip.frames.end())
        return std::nullopt;
    const auto frame = static_cast<std::size_t>(std::distance(strip.frames.begin(), empty));
    const plan::StripPlace& place = strip.places[frame / strip.f_numbers.size()];
    return FacelessFrame{
        .place = place,
        .what = fmt::format("from {:.4g} m with {:.4g} mm nobody's face lies whole in the frame",
                            place.lens_to_mark_m, place.focal_length_mm),
        .mend = "stand further back, take a shorter lens, or aim elsewhere"};
}

Checked<stage::Stage> stage_of_strip(const scene::Scene& scene, const plan::Strip& strip) {
    std::vector<scene::CameraView> views;
    for (const plan::StripFrame& frame : strip.frames)
        views.push_back(frame.view);
    return stage::build_stage(scene, views);
}

render::Finished<report::StripPictures>
make_strip_pictures(const scene::Scene& scene, const plan::Strip& strip,
                    const report::StripCell& size, const stage::Stage& stage,
                    const StripRendering& rendering, const StepProgress& progress) {
    const double face_scale = report::strip_face_scale(size.face, tallest_face_px(strip),
                                                       strip.frames.front().view.width_px);
    // The sun's highlights are those that the scene's own camera sees, in every frame: they move
    // little along the ground, and one light makes the frames comparable.
    const auto open =
        render::OpenStudio::make(stage, render::Look::lit, lens_position_m(scene.camera),
                                 [&](double done) { return progress(Step::light, done); });
    if (!open)
        return tl::make_unexpected(open.error());
    const render::Gl& gl = open->gl();
    const auto face_meter = render::FaceMeter::make(gl);
    if (!face_meter)
        return tl::make_unexpected(face_meter.error());

    const Jobs jobs = jobs_of(scene, *open, strip, size, face_scale, rendering);
    std::vector<report::StripMade> made(strip.frames.size());
    double worked = 0;
    for (const Job& job : jobs.list) {
        const plan::StripFrame& frame = strip.frames[job.frame];
        report::StripMade& into = made[job.frame];
        const double shown = plan::stops_shown(scene.camera, plan::metering(scene, frame.view));
        auto picture =
            make_picture(open->studio(shown), frame.view, job.crop, job.samples,
                         render::KeepLinear::no, [&](double done) {
                             return progress(Step::frames, (worked + done * job.work) / jobs.work);
                         });
        if (!picture)
            return tl::make_unexpected(picture.error());
        worked += job.work;
        if (job.is_face) {
            into.face = std::move(picture->developed);
            show_where(job.crop, frame.view, into);
            continue;
        }
        into.whole = std::move(picture->developed);
        into.samples = picture->passes;
        into.measured_blur_px =
            face_meter->blur_px(gl, frame.view, render::first_of(job.samples, picture->passes),
                                scene.people[frame.worst->person]);
    }
    return report::StripPictures{.face_scale = face_scale, .made = std::move(made)};
}

render::Finished<report::StripReport>
make_strip(report::StripSubject subject, report::StripLayout layout, const stage::Stage& stage,
           const StripRendering& rendering, const StepProgress& progress) {
    auto pictures = make_strip_pictures(subject.scene, subject.strip, layout.cells.front(), stage,
                                        rendering, progress);
    if (!pictures)
        return tl::make_unexpected(pictures.error());
    return report::StripReport{.subject = std::move(subject),
                               .layout = std::move(layout),
                               .face_scale = pictures->face_scale,
                               .made = std::move(pictures->made)};
}

}  // namespace backrow::delivery
