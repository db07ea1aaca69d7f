#include "window/pictures/saved_picture.h"

#include "base/files_read.h"
#include "base/image_files.h"
#include "base/whole_files.h"
#include "plan/faces/metering.h"
#include "render/studio/open_studio.h"
#include "scene/camera_view.h"
#include "stage/stage.h"

#include <chrono>
#include <exception>
#include <filesystem>
#include <new>
#include <utility>

namespace backrow::window {
namespace {

// Of the time without a graphics card, roughly.
constexpr double share_of_light = 0.15;

SavedPicture::End failed(const std::string& why) {
    return {.line = "The picture was not saved: " + why};
}

SavedPicture::End unfinished(const render::Unfinished& why) {
    const auto* failure = std::get_if<MachineFailure>(&why);
    return failed(failure != nullptr ? to_line(*failure) : "stopped.");
}

SavedPicture::End make_and_save(const scene::Scene& scene, const std::string& path,
                                int width_texels, const render::Progress& progress) {
    if (const auto writable = check_writable(path); !writable)
        return failed(to_line(writable.error()));
    const scene::CameraView view = camera_view(scene);
    const auto stage = stage::build_stage(scene, view);
    if (!stage)
        return failed(to_line(stage.error().front()));
    if (was_read(path))
        return failed("this file is part of the scene; choose another name.");
    const auto open =
        render::OpenStudio::make(*stage, render::Look::lit, view.position_m,
                                 [&](double done) { return progress(share_of_light * done); });
    if (!open)
        return unfinished(open.error());
    const render::CropRect crop = render::whole_frame(view, width_texels);
    const auto samples = open->samples_for(view, crop, render::Quality::fine);
    const double stops = plan::stops_shown(scene.camera, plan::metering(scene, view));
    const auto picture = make_picture(
        open->studio(stops), view, crop, samples, render::KeepLinear::no,
        [&](double done) { return progress(share_of_light + (1 - share_of_light) * done); });
    if (!picture)
        return unfinished(picture.error());
    PendingFiles files;
    if (const auto aside = files.add(path, png_bytes(picture->developed)); !aside)
        return failed(to_line(aside.error()));
    if (const auto kept = files.keep(); !kept)
        return failed(to_line(kept.error()));
    return {.line = "Saved " + std::filesystem::path{path}.filename().string(), .is_saved = true};
}

}  // namespace

SavedPicture::SavedPicture(std::shared_ptr<const scene::Scene> scene, std::string path,
                           int width_texels, std::function<void()> wake)
    : path_{std::move(path)} {
    work_ = std::async(std::launch::async,
                       [this, scene = std::move(scene), width_texels, wake = std::move(wake)] {
                           End end;
                           try {
                               end = make_and_save(*scene, path_, width_texels, [&](double done) {
                                   share_ = done;
                                   wake();
                                   return !is_cancelled_;
                               });
                           } catch (const std::bad_alloc&) {
                               end = failed(to_line(too_little_memory()));
                           } catch (const std::exception& error) {
                               end = failed(error.what());
                           }
                           share_ = 1;
                           wake();
                           return end;
                       });
}

SavedPicture::~SavedPicture() {
    cancel();
}

std::optional<SavedPicture::End> SavedPicture::end() {
    if (!work_.valid() || work_.wait_for(std::chrono::seconds{0}) != std::future_status::ready)
        return std::nullopt;
    return work_.get();
}

}  // namespace backrow::window
