#include "plan/faces/face_table.h"

#include "plan/faces/head_in_picture.h"
#include "plan/faces/visibility.h"
#include "scene/judged_blur.h"
#include "scene/model_shape.h"

#include "optics/blur/blur_circle.h"
#include "optics/lens/spot.h"

#include "base/units.h"

#include <glm/matrix.hpp>

#include <algorithm>
#include <filesystem>
#include <functional>
#include <limits>
#include <utility>

namespace backrow::plan {
namespace {

double blur_mm(const scene::CameraView& view, const scene::Seen& eye) {
    if (eye.axial_m <= 0)
        return std::numeric_limits<double>::infinity();
    return optics::blur_diameter_mm(view.focused(), eye.axial_m, eye.image_height);
}

optics::BlurParts blur_parts(const scene::CameraView& view, const scene::Seen& eye) {
    if (eye.axial_m <= 0)
        return {.defocus_mm = std::numeric_limits<double>::infinity()};
    return optics::blur_parts(view.focused(), eye.axial_m, eye.image_height);
}

void judge(Face& face, const scene::Scene& scene, const scene::CameraView& view,
           double blur_on_sensor_mm) {
    face.predicted_blur_um = um_from_mm(blur_on_sensor_mm);
    face.predicted_blur_px = blur_on_sensor_mm * view.px_per_mm();
    face.judged_blur = judged_blur(blur_on_sensor_mm, scene, view);
    face.grade = grade_of(face.judged_blur);
}

double best_focus_m(const optics::Lens& lens) {
    const double dpt = 1 / lens.focus_m() + spot_at(lens, 0).best_focus_dpt;
    return spot_at(lens, 0).best_focus_dpt == 0 ? lens.focus_m()
           : dpt > 0                            ? 1 / dpt
                                                : std::numeric_limits<double>::infinity();
}

void place_head(Face& face, const scene::CameraView& view, const figures::ReferencePoints& points,
                const std::optional<optics::AxialRange>& fine) {
    double near_m = std::numeric_limits<double>::infinity();
    double far_m = -near_m;
    for (const glm::dvec3& point_m : {points.nose_tip_m, points.left_eye_m, points.right_eye_m,
                                      points.left_ear_m, points.right_ear_m}) {
        const double axial = axial_m(view, point_m);
        near_m = std::min(near_m, axial);
        far_m = std::max(far_m, axial);
    }
    face.head_near_mm = mm_from_m(near_m - view.lens.focus_m);
    face.head_far_mm = mm_from_m(far_m - view.lens.focus_m);
    face.whole_head_fine = fine && near_m >= fine->near_m && far_m <= fine->far_m;
}

struct Hiders {
    std::vector<Body> bodies;          ///< Of everybody, hair and all.
    std::vector<Obstacle> obstacles;   ///< Models whose shape is known …
    std::vector<std::string> names{};  ///< … and what they are called.
};

Hiders hiders_of(const scene::Scene& scene, const std::vector<figures::PosedBody>& bodies) {
    Hiders hiders;
    for (const figures::PosedBody& body : bodies) {
        std::vector<figures::Capsule> solids = body.solids;
        solids.insert(solids.end(), body.hair.begin(), body.hair.end());
        hiders.bodies.push_back(body_from_solids(std::move(solids)));
    }
    for (const scene::Model& model : scene.models) {
        if (!model.read.shape)
            continue;
        hiders.obstacles.push_back(
            {.shape = model.read.shape.get(),
             .model_from_world = glm::inverse(world_from_model(model, model.read.shape->lowest))});
        hiders.names.push_back(std::filesystem::path{model.file}.stem().string());
    }
    return hiders;
}

std::vector<std::string> names_of(const Visibility& visibility, const scene::Scene& scene,
                                  const Hiders& hiders) {
    constexpr double worth_naming = 0.2;
    std::vector<std::pair<double, std::string>> all;
    const auto add = [&](double share, const std::string& name) {
        if (share > 0)
            all.emplace_back(share, name);
    };
    for (std::size_t i = 0; i < visibility.hidden_by_body.size(); ++i)
        add(visibility.hidden_by_body[i], scene.people[i].name);
    for (std::size_t i = 0; i < visibility.hidden_by_obstacle.size(); ++i)
        add(visibility.hidden_by_obstacle[i], hiders.names[i]);
    std::ranges::stable_sort(all, std::greater{}, &std::pair<double, std::string>::first);
    std::vector<std::string> names;
    for (const auto& [share, name] : all)
        if (share >= worth_naming || names.empty())
            names.push_back(name);
    return names;
}

void see_face(Face& face, const Visibility& visibility, const scene::Scene& scene,
              const Hiders& hiders) {
    face.visible_fraction = visibility.fraction;
    face.hiders = names_of(visibility, scene, hiders);
}

}  // namespace

FaceTable face_table(const scene::Scene& scene, const scene::CameraView& view) {
    const double fine_mm = grade_limit_mm(optics::Grade::fine, scene.viewing, view);
    FaceTable table{.title = scene.title,
                    .focus_m = view.lens.focus_m,
                    .zone = optics::sharp_zone(view.focused(), fine_mm),
                    .best_focus_m = best_focus_m(view.focused()),
                    .hyperfocal_m = optics::hyperfocal_m(view.lens.focal_length_mm,
                                                         view.lens.f_number, fine_mm),
                    .diffraction_mm = diffraction_mm(scene, view),
                    .metering = metering(scene, view),
                    .faces = {}};
    const auto best = view.focused().focused_at(table.best_focus_m);
    table.best_zone = best ? optics::sharp_zone(*best, fine_mm) : table.zone;
    const auto fine_zones = zones(scene, view, optics::Grade::fine);

    std::vector<figures::PosedBody> bodies;
    bodies.reserve(scene.people.size());
    for (const scene::Person& person : scene.people)
        bodies.push_back(posed_body(person));
    const Hiders hiders = hiders_of(scene, bodies);

    table.faces.reserve(scene.people.size());
    for (std::size_t i = 0; i < scene.people.size(); ++i) {
        const figures::ReferencePoints& points = bodies[i].points;
        const glm::dvec3 eye_m = scene::nearer_eye_m(view, points);
        const scene::Seen eye = project(view, eye_m);

        Face face{.name = scene.people[i].name,
                  .eye = scene::mark_from_engine(eye_m),
                  .axial_m = eye.axial_m,
                  .offset_mm = mm_from_m(eye.axial_m - view.lens.focus_m),
                  .from_best_focus_mm = mm_from_m(eye.axial_m - table.best_focus_m),
                  .cropping = cropping(view, bodies[i]),
                  .face_height_px = face_height_px(view, points),
                  .margin = margin_in(fine_zones[i], eye.axial_m)};
        place_head(face, view, points, fine_zones[i]);
        const FaceShape shape = face_shape(points);
        if (eye.axial_m > 0)
            see_face(face, visibility(shape, view.position_m, hiders.bodies, i, hiders.obstacles),
                     scene, hiders);
        face.stretch = stretch_of(view, points);
        face.light = face_light(scene, i, shape, hiders.bodies, hiders.obstacles);
        face.shaders = names_of(face.light.from_sun, scene, hiders);
        judge(face, scene, view, blur_mm(view, eye));
        const optics::BlurParts parts = blur_parts(view, eye);
        face.blur_defocus_px = parts.defocus_mm * view.px_per_mm();
        face.blur_lens_px = parts.lens_mm * view.px_per_mm();
        table.faces.push_back(std::move(face));
    }
    table.stretch_mend = mend_stretch(scene, view);
    return table;
}

}  // namespace backrow::plan
