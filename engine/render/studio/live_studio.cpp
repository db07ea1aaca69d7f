#include "render/studio/live_studio.h"

#include "scene/index_of.h"

#include "stage/stage_change.h"
#include "stage/stage_people.h"

#include <glm/ext/matrix_transform.hpp>

#include <algorithm>
#include <cmath>
#include <span>
#include <string>
#include <utility>

namespace backrow::render {
namespace {

/// Painting its sheets takes as long as rough light.
figures::HasSkinDetail skin_detail_for(LightCare care) {
    return care == LightCare::full ? figures::HasSkinDetail::yes : figures::HasSkinDetail::no;
}

/// In which row somebody stands, and as how manieth carries, is not to be seen of them.
scene::Person as_seen(scene::Person person) {
    person.row = -1;
    person.carrier = person.carrier < 0 ? -1 : 0;
    return person;
}

bool same_figure(const scene::Person& one, const scene::Person& other) {
    return as_seen(one) == as_seen(other);
}

bool only_shifted(scene::Person before, const scene::Person& now) {
    if (before.place == now.place)
        return false;
    before.place = now.place;
    before.own = now.own;
    return same_figure(before, now);
}

}  // namespace

LiveStudio::LiveStudio(HeadlessContext context, PicturePrograms programs, FaceMeter face_meter)
    : context_{std::move(context)}, programs_{std::move(programs)}, face_meter_{
                                                                        std::move(face_meter)} {}

Made<LiveStudio> LiveStudio::open() {
    auto context = HeadlessContext::make();
    if (!context)
        return tl::make_unexpected(context.error());
    auto programs = PicturePrograms::make(context->gl(), Look::lit);
    if (!programs)
        return tl::make_unexpected(programs.error());
    auto face_meter = FaceMeter::make(context->gl());
    if (!face_meter)
        return tl::make_unexpected(face_meter.error());
    return LiveStudio{std::move(*context), std::move(*programs), std::move(*face_meter)};
}

void LiveStudio::follow(const scene::Scene& scene, const scene::CameraView& view) {
    const std::optional<scene::Scene> before = std::exchange(scene_, scene);
    view_ = view;
    if (!has_stage())
        return;
    find_numbers();
    const std::size_t newcomers_before = newcomers_;
    for (std::size_t i = 0; i < scene.people.size(); ++i) {
        const scene::Person& now = scene.people[i];
        const int number = numbers_[i];
        const scene::Person* was = before ? person_named(*before, now.name) : nullptr;
        const bool was_hidden = hidden_.erase(number) != 0;
        const bool is_known = was != nullptr && !was_hidden;
        if (number < 0)
            add(i);
        else if (is_known && only_shifted(*was, now))
            shift(i);
        else if ((!is_known || !same_figure(*was, now)) && !put_in_place(i))
            shows_all_ = false;
    }
    if (newcomers_ > newcomers_before &&
        !lighting_->light_newcomers(gl(), *on_gpu_, view_.position_m))
        shows_all_ = false;
    for (std::size_t i = 0; i < built_scene_->people.size(); ++i)
        if (const int number = static_cast<int>(i);
            std::ranges::find(numbers_, number) == numbers_.end() && !hidden_.contains(number))
            hide(number);
    if (!stage::same_surroundings(scene, *built_scene_))
        shows_all_ = false;
    is_current_ = care_ == LightCare::full && newcomers_ == 0 &&
                  scene.people == built_scene_->people &&
                  stage::same_surroundings(scene, *built_scene_) &&
                  stage::stage_serves(scene, built_view_, view);
}

// Eyes go on looking where they looked until the stage is built anew.
void LiveStudio::shift(std::size_t person) {
    for (std::size_t i = 0; i < stage_.parts.size(); ++i) {
        stage::Part& part = stage_.parts[i];
        if (part.person != numbers_[person])
            continue;
        part.world_from_part =
            glm::translate(glm::dmat4{1}, figure_origin_m(scene_->people[person]));
        on_gpu_->move_vertices(i, part);
    }
}

// Other clothes, or a body so much larger in the picture that it deserves more detail, have other
// triangles and wait.
bool LiveStudio::put_in_place(std::size_t person) {
    std::array<stage::Part, 2> anew =
        stage::person_parts(*scene_, std::span{&view_, 1}, person, skin_detail_for(care_));
    std::size_t placed = 0;
    for (stage::Part& part : anew) {
        part.person = numbers_[person];
        for (std::size_t i = 0; i < stage_.parts.size(); ++i) {
            stage::Part& there = stage_.parts[i];
            if (there.person != part.person || there.role != part.role ||
                there.mesh.vertices.size() != part.mesh.vertices.size() ||
                there.mesh.indices != part.mesh.indices)
                continue;
            part.material = there.material;  // with the sheet of skin_detail, if one lies over them
            on_gpu_->move_vertices(i, part);
            there = std::move(part);
            ++placed;
            break;
        }
    }
    return placed == anew.size();
}

void LiveStudio::add(std::size_t person) {
    for (stage::Part& part :
         stage::person_parts(*scene_, std::span{&view_, 1}, person, figures::HasSkinDetail::no)) {
        part.person = static_cast<int>(built_scene_->people.size());
        stage_.parts.push_back(std::move(part));
        on_gpu_->add_last_part(gl(), stage_);
    }
    numbers_[person] = static_cast<int>(built_scene_->people.size());
    built_scene_->people.push_back(scene_->people[person]);
    ++newcomers_;
}

// A body of micrometres is not to be seen; one of nothing would have no normals.
void LiveStudio::hide(int number) {
    for (std::size_t i = 0; i < stage_.parts.size(); ++i) {
        stage::Part& part = stage_.parts[i];
        if (part.person != number)
            continue;
        part.world_from_part = part.world_from_part * glm::scale(glm::dmat4{1}, glm::dvec3{1e-6});
        on_gpu_->move_vertices(i, part);
    }
    hidden_.insert(number);
}

void LiveStudio::find_numbers() {
    numbers_.clear();
    for (const scene::Person& person : scene_->people) {
        const auto built = index_of(*built_scene_, person.name);
        numbers_.push_back(built ? static_cast<int>(*built) : -1);
    }
}

Checked<Finished<void>> LiveStudio::build(LightCare care, const Progress& progress) {
    auto stage = stage::build_stage(*scene_, std::span{&view_, 1}, skin_detail_for(care), stage_);
    if (!stage)
        return tl::unexpected(stage.error());
    if (!progress(0))
        return Finished<void>{tl::make_unexpected(Stopped{})};
    auto on_gpu = std::make_unique<StageOnGpu>(gl(), *stage);
    auto lighting = Lighting::make(gl(), *on_gpu, Look::lit, view_.position_m, progress, care);
    if (!lighting)
        return Finished<void>{tl::make_unexpected(lighting.error())};
    stage_ = std::move(*stage);
    on_gpu_ = std::move(on_gpu);
    coarse_ = {};
    lighting_ = std::move(*lighting);
    built_scene_ = scene_;
    built_view_ = view_;
    newcomers_ = 0;
    hidden_.clear();
    find_numbers();
    care_ = care;
    shows_all_ = true;
    is_current_ = care == LightCare::full;
    return Finished<void>{};
}

Studio LiveStudio::studio(double stops_shown) const {
    return {gl(), programs_, *on_gpu_, *lighting_, static_cast<float>(std::exp2(stops_shown))};
}

Studio LiveStudio::quick_studio(double stops_shown) {
    Studio quick = studio(stops_shown);
    quick.coarse = &coarse_;
    return quick;
}

}  // namespace backrow::render
