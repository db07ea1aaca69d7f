#include "window/commands/place_commands.h"

#include "window/panels/file_chooser.h"
#include "window/panels/panels.h"

#include "rehearsal/hands/place_handling.h"
#include "stage/read_photograph.h"

#include <algorithm>
#include <filesystem>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace backrow::window {
namespace {

constexpr int longest_shown_px = 2048;

/// Whether it could be made; else the sheet says why not.
bool make_from_sheet(WindowState& state, const rehearsal::Change& change) {
    state.make(change);
    state.sheets.complaint = state.sitting.complaint();
    return state.sheets.complaint.empty();
}

/// Or the sheet says what is wrong with it.
std::optional<Image<Rgba8>> picture_for_sheet(WindowState& state, const std::string& file,
                                              stage::PhotographShape shape) {
    auto picture = stage::read_photograph(file, {.file = file}, shape);
    if (picture)
        return std::move(*picture);
    state.sheets.complaint = to_line(picture.error().front());
    return std::nullopt;
}

void show_photo(WindowState& state, std::size_t backdrop, Image<Rgba8> picture) {
    while (std::max(picture.width_px(), picture.height_px()) > longest_shown_px)
        picture = stage::halved(picture);
    Image<Rgb8> shown{picture.width_px(), picture.height_px()};
    std::ranges::transform(picture.pixels(), shown.pixels().begin(), [](const Rgba8& pixel) {
        return Rgb8{pixel.r, pixel.g, pixel.b};
    });
    PhotoOnSheet& photo =
        state.place.photo.emplace(PhotoOnSheet{.number = backdrop, .picture = {}});
    photo.picture.take(shown);
    state.sheets.show(Sheet::photo_size);
}

std::string name_of(const WindowState& state, const std::string& path) {
    return rehearsal::scene_name_of(path, state.sitting.edited().path());
}

std::string file_of(const WindowState& state, const std::string& name) {
    return rehearsal::file_named(name, state.sitting.edited().path());
}

}  // namespace

void ask_for_place_file(WindowState& state, Sheet sheet) {
    state.sheets.show(sheet);
    std::error_code ignored;
    const std::filesystem::path scene{state.sitting.edited().path()};
    state.sheets.chooser = file_chooser(
        rehearsal::ChoiceOf::file_to_read,
        sheet == Sheet::model_file
            ? std::vector<std::string>{".glb", ".gltf", ".obj", ".ply", ".fbx", ".stl", ".dae"}
            : std::vector<std::string>{".jpg", ".jpeg", ".png", ".bmp", ".tga"},
        std::filesystem::absolute(scene, ignored).parent_path().string(), false);
}

void hang_photo(WindowState& state, const std::string& path) {
    const std::string name = name_of(state, path);
    auto picture = picture_for_sheet(state, file_of(state, name), stage::PhotographShape::any);
    if (!picture)
        return;
    const scene::Scene& scene = state.sitting.scene();
    // In place of what is looked at, or it would hang unseen behind that.
    const std::size_t number = std::min(state.place.backdrop, scene.setting.backdrops.size());
    if (!make_from_sheet(state, rehearsal::hang_photo(scene, number, name,
                                                      rehearsal::frame_width_at_m(scene, number))))
        return;
    state.place.backdrop = number;
    show_photo(state, number, std::move(*picture));
}

void hang_panorama(WindowState& state, const std::string& path) {
    const std::string name = name_of(state, path);
    if (picture_for_sheet(state, file_of(state, name), stage::PhotographShape::equirectangular) &&
        make_from_sheet(state, rehearsal::hang_panorama(name)))
        state.sheets.close();
}

void add_model(WindowState& state, const std::string& path) {
    const scene::Scene& scene = state.sitting.scene();
    const std::size_t number = scene.models.size();
    if (!make_from_sheet(state, rehearsal::add_model(scene, name_of(state, path))))
        return;
    // What cannot be read is not left in the scene.
    if (!state.sitting.scene().models[number].read.shape) {
        state.sitting.undo();
        state.note_change();
        state.sheets.complaint = path + " holds no model that can be read; export it as glTF";
        return;
    }
    state.place.model = number;
    state.sheets.close();
}

void ask_for_photo_size(WindowState& state, std::size_t backdrop) {
    const std::string file = state.sitting.scene().setting.backdrops[backdrop].photograph.file;
    if (auto picture = picture_for_sheet(state, file, stage::PhotographShape::any))
        show_photo(state, backdrop, std::move(*picture));
    else
        state.sitting.complain(state.sheets.complaint);
}

void size_photo(WindowState& state) {
    const PhotoOnSheet& photo = *state.place.photo;
    if (photo.points.size() < 2) {
        state.sheets.complaint = "Click two points on the photo first.";
        return;
    }
    const auto apart_m = number_typed(state, photo.typed_apart, Measure::metres);
    const auto width_m =
        apart_m ? rehearsal::width_between_m(photo.points[0], photo.points[1], *apart_m)
                : std::nullopt;
    if (!apart_m)
        state.sheets.complaint = apart_m.error();
    else if (!width_m || *apart_m <= 0)
        state.sheets.complaint = "Two points must lie apart, and so must what was typed.";
    else if (make_from_sheet(state, rehearsal::scale_photo(photo.number, *width_m)))
        state.sheets.close();
}

}  // namespace backrow::window
