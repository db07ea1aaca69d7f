#include "window/panels/camera_bag.h"

#include "rehearsal/hands/handling.h"

#include "base/problem.h"
#include "base/state_folder.h"

#include <algorithm>
#include <utility>

namespace backrow::window {

namespace {

std::vector<OwnLens> read_own_lenses() {
    std::vector<OwnLens> lenses;
    for (const std::string& named : scene_file::own_lenses())
        if (auto lens = scene_file::read_named_lens(named, "")) {
            std::string name = lens->title.empty() ? named : lens->title;
            if (named == scene_file::usual_lens)
                name += ": I have not measured mine";
            lenses.push_back({.named = named, .name = std::move(name), .lens = std::move(*lens)});
        }
    std::stable_partition(lenses.begin(), lenses.end(),
                          [](const OwnLens& lens) { return lens.named == scene_file::usual_lens; });
    lenses.insert(lenses.begin(), {.named = "", .name = "none: a perfect lens"});
    return lenses;
}

}  // namespace

std::string CameraBag::open() {
    own_lenses = read_own_lenses();
    if (const auto folder = config_folder())
        file = (*folder / "bag.toml").string();
    auto read = scene_file::read_bag(file);
    if (read) {
        bag = std::move(*read);
        return {};
    }
    std::string wrong = to_line(read.error().front());
    file.clear();  // so that nobody's own file is written over
    bag = *scene_file::read_bag({});
    return wrong;
}

std::string CameraBag::faults_of(const scene::Scene& scene) const {
    const std::string& named = scene.lens.profile_file;
    if (!scene.lens.profile)
        return "no faults: a perfect lens";
    const auto own = std::ranges::find(own_lenses, named, &OwnLens::named);
    const bool has_title = own != own_lenses.end() && !own->lens.title.empty();
    return "faults: " + (has_title ? own->lens.title : named);
}

std::string CameraBag::take(const scene::Scene& scene) {
    if (file.empty())
        return "There is no file for the bag; mend or remove it, or set XDG_CONFIG_HOME.";
    const scene_file::BagLens lens = rehearsal::lens_on_camera(scene);
    const scene_file::BagBody body = rehearsal::body_of_camera(scene);
    scene_file::Bag with = bag;
    if (std::ranges::find(with.lenses, lens) == with.lenses.end())
        with.lenses.push_back(lens);
    if (std::ranges::find(with.bodies, body) == with.bodies.end())
        with.bodies.push_back(body);
    if (const auto written = write_state(file, bag_toml(with)); !written)
        return to_line(written.error());
    bag = std::move(with);
    return {};
}

void KeptPlaces::open(const rehearsal::EditedScene& edited) {
    places.clear();
    for (rehearsal::CameraPlace& place : rehearsal::kept_camera_places(edited))
        places.push_back({.place = std::move(place)});
    edition = -1;
}

void KeptPlaces::keep(const rehearsal::EditedScene& edited) const {
    std::vector<rehearsal::CameraPlace> all;
    for (const KeptPlace& each : places)
        all.push_back(each.place);
    rehearsal::keep_camera_places(edited, all);
}

}  // namespace backrow::window
