#include "delivery/workshop.h"

#include "delivery/outputs.h"
#include "delivery/strip_pictures.h"

#include "scene/camera_view.h"

#include <algorithm>
#include <utility>

namespace backrow::delivery {
namespace {

// Of the time without a graphics card, roughly.
constexpr double share_of_light = 0.15;
constexpr double share_of_faces = 0.4;

constexpr int strip_width_px = 1920;

}  // namespace

int picture_width_px(const Choices& choices, const scene::CameraView& view) {
    switch (choices.size) {
    case PictureSize::screen:
        return std::min(render::usual_width_texels(view), view.width_px);
    case PictureSize::own:
        return std::min(choices.own_width_px, view.width_px);
    case PictureSize::camera:
        break;
    }
    return view.width_px;
}

double share_of_all(Step step, double done, bool has_faces) noexcept {
    const double before_faces = has_faces ? 1 - share_of_faces : 1;
    switch (step) {
    case Step::light:
        return share_of_light * done;
    case Step::picture:
        return share_of_light + (before_faces - share_of_light) * done;
    case Step::faces:
        return before_faces + share_of_faces * done;
    case Step::frames:
        break;
    }
    return share_of_light + (1 - share_of_light) * done;
}

Workshop::Workshop(const scene::Scene& scene, const Choices& choices, const Asked& asked)
    : scene_{scene}, choices_{choices}, asked_{asked}, view_{camera_view(scene)},
      table_{plan::face_table(scene, view_)} {}

tl::expected<const Preview*, NotMade> Workshop::preview(const render::Progress& progress) {
    if (preview_)
        return &*preview_;
    const auto stage = stage::build_stage(scene_, view_);
    if (!stage)
        return tl::make_unexpected(not_made(stage.error()));
    const bool has_faces = is_wanted(choices_, "faces");
    plan::FaceTable measured = table_;
    auto made = make_preview(scene_, view_, *stage,
                             {.width_texels = picture_width_px(choices_, view_),
                              .faces = has_faces ? FacesWanted::pictured : FacesWanted::none},
                             measured, [&](Step step, double done) {
                                 return progress(share_of_all(step, done, has_faces));
                             });
    if (!made)
        return tl::make_unexpected(not_made(made.error()));
    preview_ = std::move(*made);
    return &*preview_;
}

tl::expected<const Workshop::Strip*, NotMade> Workshop::strip(const render::Progress& progress) {
    if (strip_)
        return &*strip_;
    const auto refuse = [](std::string what, std::string mend) {
        return tl::make_unexpected(NotMade{Problem{{}, std::move(what), std::move(mend)}});
    };
    plan::Strip strip = plan::strip(scene_,
                                    {{.lens_to_mark_m = scene_.camera.lens_to_mark_m,
                                      .focal_length_mm = scene_.camera.focal_length_mm}},
                                    plan::strip_f_numbers(scene_));
    if (const auto faceless = faceless_frame(strip))
        return refuse(faceless->what, faceless->mend);
    auto layout = report::strip_layout(report::strip_shape(scene_, strip, strip_width_px));
    if (strip.frames.size() < 2 || !layout)
        return refuse("there are no apertures to compare",
                      "leave the strip out, or choose another f-number");
    const auto stage = stage_of_strip(scene_, strip);
    if (!stage)
        return tl::make_unexpected(not_made(stage.error()));
    auto made = make_strip({.scene = scene_, .strip = std::move(strip), .units = asked_.units},
                           std::move(*layout), *stage, {}, [&](Step step, double done) {
                               return progress(share_of_all(step, done, false));
                           });
    if (!made)
        return tl::make_unexpected(not_made(made.error()));
    report::StripSheet sheet = strip_sheet_of(*made);
    strip_ = Strip{.sheet = std::move(sheet), .layout = std::move(made->layout)};
    return &*strip_;
}

}  // namespace backrow::delivery
