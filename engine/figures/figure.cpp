#include "figures/figure.h"

#include "figures/body/body_mesh.h"
#include "figures/clothes/glasses.h"
#include "figures/hair/beard.h"
#include "figures/hair/hair.h"
#include "figures/head/ears.h"
#include "figures/head/head_form.h"
#include "figures/head/head_mesh.h"
#include "figures/head/head_template.h"
#include "figures/skin/skin_detail.h"

#include <glm/common.hpp>
#include <glm/geometric.hpp>

namespace backrow::figures {

using glm::dvec3;

namespace {

std::vector<Capsule> torso(const Skeleton& s, const BodyMeasures& m) {
    const double u = m.stature_m;
    const double thick = u * s.build.flesh;
    std::vector<Capsule> all;
    const dvec3 belly = s.on_trunk({0, 0.3 * s.build.shoulder_up_m, 0});
    const dvec3 chest = s.on_trunk({0, 0.78 * s.build.shoulder_up_m, 0});
    const double half_depth = m.chest_depth_m / 2;
    all.push_back({s.hips_m, belly, 0.085 * thick});
    // Chests are broader than deep: two balls side by side.
    const dvec3 across = s.trunk[0] * (0.028 * thick);
    all.push_back({belly + across, chest + across, half_depth});
    all.push_back({belly - across, chest - across, half_depth});
    all.push_back({s.arms[0].shoulder_m, s.arms[1].shoulder_m, 0.032 * thick});
    all.push_back({s.on_trunk({0, s.build.shoulder_up_m, 0}), s.head_m, 0.036 * u});
    return all;
}

void add_arm_solids(const Skeleton& s, const Arm& arm, double stature_m,
                    std::vector<Capsule>& all) {
    const double thick = stature_m * s.build.flesh;
    all.push_back({arm.shoulder_m, arm.elbow_m, 0.032 * thick});
    all.push_back({arm.elbow_m, arm.wrist_m, 0.028 * thick});
    all.push_back({arm.wrist_m, arm.wrist_m + arm.fingers * s.build.hand_m, 0.024 * stature_m});
}

double head_radius_m(const BodyMeasures& m) {
    return 0.46 * (m.head_breadth_m + m.head_length_m) / 2;
}

void add_head_solids(const Skeleton& s, const Person& person, std::vector<Capsule>& all) {
    const BodyMeasures& m = person.measures;
    const HeadFrame frame{m};
    if (person.styling.headwear == Headwear::hat) {
        const dvec3 crown = s.head_m + s.head * frame.head_from_model({0, 66, -4});
        const dvec3 brim = s.head[0] * (0.28 * m.head_breadth_m);
        all.push_back({crown - brim, crown + brim, 0.50 * m.head_breadth_m});
    }
    // The head from the middle of the face to the middle of the skull.
    const double radius = head_radius_m(m);
    const dvec3 low = frame.head_from_model({0, -36, 18});
    const dvec3 high = frame.head_from_model({0, 32, -4});
    all.push_back({s.head_m + s.head * low, s.head_m + s.head * high, radius});
}

ReferencePoints points_on(const Skeleton& s, const Person& person) {
    const PersonHead head{person, s, appearance(person).face};
    const dvec3 ear = model_ear_mm();
    return {.left_eye_m = head.figure_from_plain_model({model::pupil_x, 0, model::cornea_z}),
            .right_eye_m = head.figure_from_plain_model({-model::pupil_x, 0, model::cornea_z}),
            .nose_tip_m = head.figure_from_model(model_nose_tip_mm()),
            .left_ear_m = head.figure_from_plain_model(ear),
            .right_ear_m = head.figure_from_plain_model({-ear.x, ear.y, ear.z}),
            .chin_m = head.figure_from_model(model_chin_mm()),
            .crown_m = head.figure_from_model(model_crown_mm())};
}

BodyMarks marks_on(const Skeleton& s) {
    // Of the way from the hips to the shoulders; the waist is narrowest two fifths up.
    const auto up_the_trunk = [&](double share) {
        return s.on_trunk({0, share * s.build.shoulder_up_m, 0});
    };
    BodyMarks marks{
        .chest_m = up_the_trunk(0.8), .waist_m = up_the_trunk(0.4), .knees_m = {}, .soles_m = {}};
    for (std::size_t i = 0; i < s.legs.size(); ++i) {
        marks.knees_m[i] = s.legs[i].knee_m;
        marks.soles_m[i] = s.legs[i].ankle_m + s.legs[i].sole * s.build.ankle_height_m;
    }
    return marks;
}

std::vector<Capsule> solids_on(const Skeleton& s, const Person& person) {
    const double u = person.measures.stature_m;
    const double thick = u * s.build.flesh;
    std::vector<Capsule> all = torso(s, person.measures);
    for (const Arm& arm : s.arms)
        add_arm_solids(s, arm, u, all);
    for (const Leg& leg : s.legs) {
        all.push_back({leg.hip_m, leg.knee_m, 0.046 * thick});
        all.push_back({leg.knee_m, leg.ankle_m, 0.032 * thick});
        all.push_back({leg.ankle_m, leg.ankle_m + leg.toes * (0.65 * s.build.foot_m), 0.030 * u});
    }
    add_head_solids(s, person, all);
    return all;
}

std::vector<Capsule> hair_on(const Skeleton& s, const Person& person) {
    const Appearance look = appearance(person);
    if (look.hair_style == HairStyle::none || person.styling.headwear == Headwear::headscarf)
        return {};
    const HeadFrame frame{person.measures};
    const auto at = [&](const dvec3& model_mm) {
        return s.head_m + s.head * frame.head_from_model(model_mm);
    };
    const double radius = head_radius_m(person.measures);
    const bool is_full = look.hair_style == HairStyle::curls || look.hair_style == HairStyle::waves;
    const double stands_out = look.hair_style == HairStyle::cropped ? 1.02 : is_full ? 1.16 : 1.10;
    std::vector<Capsule> hair;
    if (person.styling.headwear != Headwear::hat)
        hair.push_back({at({0, 20, -18}), at({0, 36, -6}), stands_out * radius});
    if (covers_ears(look.hair_style))
        hair.push_back({at({0, 10, -26}), at({0, -70, -34}), 1.08 * radius});
    return hair;
}

}  // namespace

ReferencePoints reference_points(const Person& person) {
    return points_on(skeleton(person), person);
}

std::vector<Capsule> solids(const Person& person) {
    return solids_on(skeleton(person), person);
}

PosedBody posed_body(const Person& person) {
    const Skeleton s = skeleton(person);
    return {.points = points_on(s, person),
            .marks = marks_on(s),
            .solids = solids_on(s, person),
            .hair = hair_on(s, person)};
}

std::vector<Capsule> trunk_solids(const Person& person) {
    const Skeleton s = skeleton(person);
    std::vector<Capsule> all = torso(s, person.measures);
    add_head_solids(s, person, all);
    return all;
}

std::vector<Capsule> arm_solids(const Person& person, int side) {
    const Skeleton s = skeleton(person);
    std::vector<Capsule> all;
    add_arm_solids(s, s.arms[static_cast<std::size_t>(side)], person.measures.stature_m, all);
    return all;
}

namespace {

/// Takes the sheet's mean out of the colours that it will multiply, or the places on it away.
void fit_to_skin_detail(HasSkinDetail skin_detail, shapes::Mesh& mesh) {
    for (shapes::Vertex& v : mesh.vertices)
        if (skin_detail == HasSkinDetail::no)
            v.uv = glm::vec2{0};
        else
            v.colour =
                glm::min(v.colour / static_cast<float>(skin_detail_mean_at(v.uv)), glm::vec3{1});
}

/// How much of the sun is in somebody's eyes: most where it stands straight ahead.
double glare(const EyeLight& light, const Skeleton& joints) {
    if (!light.sun_is_up)
        return 0;
    const double facing = glm::dot(joints.head[2], glm::normalize(light.towards_sun));
    return light.dazzle * glm::smoothstep(0.15, 0.95, facing);
}

}  // namespace

FigureMesh build_figure(const Person& person, Detail detail, const EyeLight& light,
                        HasSkinDetail skin_detail) {
    const Skeleton joints = skeleton(person);
    const Appearance look = appearance(person);
    const PersonHead head{person, joints, look.face, glare(light, joints)};
    FigureMesh mesh;
    add_head(head, look, person.measures, detail, light, mesh);
    const bool veiled = look.headwear == Headwear::headscarf;
    if (detail != Detail::far && !veiled && !covers_ears(look.hair_style))
        add_ears(head, look, detail, mesh.body);
    // Seen small, the painted scalp stands for what a hat leaves of short hair.
    const bool painted =
        detail == Detail::far && look.headwear == Headwear::hat && !covers_ears(look.hair_style);
    if (!veiled && !painted)
        add_hair(head, look, detail, mesh.body);
    if (look.beard && detail != Detail::far)
        add_beard(head, look, detail, mesh.face);
    if (look.glasses)
        add_glasses(head, detail, mesh);
    add_body(head, joints, look, person.measures, detail, mesh.body);
    for (shapes::Mesh* part : {&mesh.body, &mesh.face}) {
        fit_to_skin_detail(skin_detail, *part);
        // It grew by doubling, and is kept for as long as the stage is.
        part->vertices.shrink_to_fit();
        part->indices.shrink_to_fit();
    }
    return mesh;
}

}  // namespace backrow::figures
