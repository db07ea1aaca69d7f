#include "delivery/client_pictures.h"

#include "delivery/picture_work.h"

#include "plan/faces/metering.h"
#include "plan/faces/worst_face.h"
#include "render/faces/face_crop.h"
#include "render/studio/open_studio.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

namespace backrow::delivery {
namespace {

struct Tiling {
    std::vector<std::size_t> people;
    int columns = 1;
    int width_px = 0;
    int height_px = 0;
};

/// Whoever has a whole head in one of the pictures, in the order of the scene.
Tiling tiling(const plan::Strip& strip) {
    const auto is_in_a_picture = [&](std::size_t person) {
        return std::ranges::any_of(strip.frames, [&](const plan::StripFrame& frame) {
            return frame.faces[person].cropping.has_whole_head;
        });
    };
    Tiling tiling{.people = plan::worst_first(strip.frames.front().faces)};
    std::erase_if(tiling.people, [&](std::size_t person) { return !is_in_a_picture(person); });
    tiling.people.resize(std::min(tiling.people.size(), most_closer_looks / strip.frames.size()));
    std::ranges::sort(tiling.people);

    double tallest_px = 1;
    for (const plan::StripFrame& frame : strip.frames)
        for (const std::size_t person : tiling.people)
            if (frame.faces[person].cropping.has_whole_head)
                tallest_px = std::max(tallest_px, frame.faces[person].face_height_px);
    // A head with its hair and something round it, of heads' proportions.
    constexpr double height_of_face = 1.5;
    constexpr double width_of_face = 1.2;
    const scene::CameraView& view = strip.frames.front().view;
    const auto sized = [](double wanted_px, int largest_px, int frame_px) {
        return std::clamp(static_cast<int>(std::lround(wanted_px)), 1,
                          std::min(largest_px, frame_px));
    };
    tiling.width_px = sized(width_of_face * tallest_px, largest_tile_width_px, view.width_px);
    tiling.height_px = sized(height_of_face * tallest_px, largest_tile_height_px, view.height_px);
    tiling.columns = std::max(
        1, static_cast<int>(std::ceil(std::sqrt(static_cast<double>(tiling.people.size())))));
    return tiling;
}

/// One picture to make.
struct ClientJob {
    std::size_t frame = 0;
    std::optional<std::size_t> tile{};  ///< None: the whole frame.
    render::CropRect crop{};
    render::LensSamples samples{};
};

struct ClientJobs {
    std::vector<ClientJob> list;
    double work = 0;
};

ClientJobs client_jobs(const scene::Scene& scene, const render::OpenStudio& open,
                       const plan::Strip& strip, const Tiling& tiling,
                       const ClientRendering& rendering) {
    // A face counts, not the far larger blur behind it.
    const auto quality_of_faces = rendering.quality == render::Quality::reference
                                      ? render::Quality::fine
                                      : render::Quality::draft;
    ClientJobs jobs;
    const auto add = [&](std::size_t frame, std::optional<std::size_t> tile,
                         const render::CropRect& crop, render::Quality quality) {
        auto samples = open.samples_for(strip.frames[frame].view, crop, quality, rendering.samples);
        jobs.work += work_of(samples, crop);
        jobs.list.push_back(
            {.frame = frame, .tile = tile, .crop = crop, .samples = std::move(samples)});
    };
    for (std::size_t i = 0; i < strip.frames.size(); ++i) {
        const scene::CameraView& view = strip.frames[i].view;
        add(i, std::nullopt, render::whole_frame(view, rendering.width_texels), rendering.quality);
        for (std::size_t tile = 0; tile < tiling.people.size(); ++tile)
            if (const auto crop = render::face_detail(view, scene.people[tiling.people[tile]],
                                                      tiling.width_px, tiling.height_px, 1))
                add(i, tile, *crop, quality_of_faces);
    }
    return jobs;
}

/// Nobody whose face lies outside of the picture with its middle.
std::optional<papers::FacePlace> place_of_face(const scene::CameraView& view,
                                               const scene::Person& person) {
    constexpr double margin = 0.08;
    const auto crop = render::face_crop(view, person, margin);
    if (!crop)
        return std::nullopt;
    const papers::FacePlace place{.left = crop->left_px / view.width_px,
                                  .top = crop->top_px / view.height_px,
                                  .width = crop->width_px / view.width_px,
                                  .height = crop->height_px / view.height_px};
    const double across = place.left + place.width / 2;
    const double down = place.top + place.height / 2;
    if (across < 0 || across > 1 || down < 0 || down > 1)
        return std::nullopt;
    return place;
}

void put_tile(const Image<Rgb8>& tile, int left, int top, Image<Rgb8>& into) {
    for (int y = 0; y < tile.height_px(); ++y)
        for (int x = 0; x < tile.width_px(); ++x)
            into.at(left + x, top + y) = tile.at(x, y);
}

}  // namespace

render::Finished<papers::ClientPictures>
client_pictures(const scene::Scene& scene, const plan::Strip& strip, const stage::Stage& stage,
                const ClientRendering& rendering, const StepProgress& progress) {
    // As in a strip: the sun's highlights are those that the scene's own camera sees.
    const auto open =
        render::OpenStudio::make(stage, render::Look::lit, lens_position_m(scene.camera),
                                 [&](double done) { return progress(Step::light, done); });
    if (!open)
        return tl::make_unexpected(open.error());

    const Tiling tiles = tiling(strip);
    papers::ClientPictures made{.pictures = std::vector<papers::ClientPicture>(strip.frames.size()),
                                .looked_at = tiles.people,
                                .columns = tiles.columns,
                                .tile_width_px = tiles.width_px,
                                .tile_height_px = tiles.height_px};
    const int rows = (static_cast<int>(tiles.people.size()) + tiles.columns - 1) / tiles.columns;
    for (std::size_t i = 0; i < strip.frames.size(); ++i) {
        if (rows > 0)
            made.pictures[i].faces =
                Image<Rgb8>{tiles.columns * tiles.width_px, rows * tiles.height_px};
        for (const std::size_t person : tiles.people)
            made.pictures[i].places.push_back(
                place_of_face(strip.frames[i].view, scene.people[person]));
    }

    const ClientJobs jobs = client_jobs(scene, *open, strip, tiles, rendering);
    double worked = 0;
    for (const ClientJob& job : jobs.list) {
        const scene::CameraView& view = strip.frames[job.frame].view;
        const double work = work_of(job.samples, job.crop);
        const double shown = plan::stops_shown(scene.camera, plan::metering(scene, view));
        auto picture =
            make_picture(open->studio(shown), view, job.crop, job.samples, render::KeepLinear::no,
                         [&](double done) {
                             return progress(Step::frames, (worked + done * work) / jobs.work);
                         });
        if (!picture)
            return tl::make_unexpected(picture.error());
        worked += work;
        papers::ClientPicture& into = made.pictures[job.frame];
        if (!job.tile)
            into.whole = std::move(picture->developed);
        else
            put_tile(picture->developed,
                     static_cast<int>(*job.tile) % tiles.columns * tiles.width_px,
                     static_cast<int>(*job.tile) / tiles.columns * tiles.height_px, into.faces);
    }
    return made;
}

}  // namespace backrow::delivery
