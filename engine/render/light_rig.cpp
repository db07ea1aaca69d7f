#include "render/light_rig.h"

#include "render/program.h"

#include "base/sequences.h"
#include "base/units.h"

#include <glm/geometric.hpp>
#include <glm/mat4x4.hpp>
#include <glm/gtc/type_ptr.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace backrow::render {
namespace {

constexpr int map_texels = 1024;
// The sun's face is 32 arc minutes across (mean, [ALLEN]).
constexpr double sun_radius_rad = rad_from_arcmin(16.0);
// How far round the people shadows are drawn.
constexpr double margin_m = 1.5;
constexpr double largest_radius_m = 30.0;

struct LightNumbers {  // std140, as lit.frag has it
    glm::mat4 sun_map_from_world;
    glm::mat4 sky_map_from_world;
    glm::vec4 towards_sun;
    glm::vec4 towards_sky;
    glm::vec4 sun_colour;
    glm::vec4 sky_colour;
    glm::vec4 ground_colour;
    glm::vec4 eye_position;
};

// A far light's parallel view of the ball: x and y in map space 0 … 1, depth growing away from it.
glm::dmat4 map_from_world(const glm::dvec3& towards, const glm::dvec3& centre_m, double radius_m,
                          const Point2& texel_shift) {
    const glm::dvec3 aside = std::abs(towards.y) < 0.99 ? glm::dvec3{0, 1, 0} : glm::dvec3{1, 0, 0};
    const glm::dvec3 x = glm::normalize(glm::cross(aside, towards));
    const glm::dvec3 y = glm::cross(towards, x);
    const double scale = 0.5 / radius_m;
    glm::dmat4 map{1};
    for (int i = 0; i < 3; ++i) {
        map[i][0] = x[i] * scale;
        map[i][1] = y[i] * scale;
        map[i][2] = -towards[i] * scale;
    }
    map[3] = glm::dvec4{0.5 - glm::dot(x, centre_m) * scale + (texel_shift.x - 0.5) / map_texels,
                        0.5 - glm::dot(y, centre_m) * scale + (texel_shift.y - 0.5) / map_texels,
                        0.5 + glm::dot(towards, centre_m) * scale, 1.0};
    return map;
}

glm::dmat4 clip_from_map() {
    glm::dmat4 clip{1};
    clip[0][0] = clip[1][1] = 2.0;
    clip[3] = glm::dvec4{-1.0, -1.0, 0.0, 1.0};
    return clip;
}

glm::dvec3 sky_direction(int step) {
    const Point2 at = square_point(static_cast<std::uint64_t>(step));
    const double height = 0.03 + 0.97 * at.x;
    const double ring = std::sqrt(1.0 - height * height);
    const double angle = 2.0 * std::numbers::pi * at.y;
    return {ring * std::cos(angle), height, ring * std::sin(angle)};
}

glm::dvec3 point_of_sun(const glm::dvec3& towards_sun, int step) {
    // Two steps apart from the sky's sequence, so that the two do not march together.
    const Point2 at = square_point(static_cast<std::uint64_t>(step) * 2 + 7);
    const double radius = std::tan(sun_radius_rad) * std::sqrt(at.x);
    const double angle = 2.0 * std::numbers::pi * at.y;
    const glm::dvec3 aside =
        std::abs(towards_sun.y) < 0.99 ? glm::dvec3{0, 1, 0} : glm::dvec3{1, 0, 0};
    const glm::dvec3 x = glm::normalize(glm::cross(aside, towards_sun));
    const glm::dvec3 y = glm::cross(towards_sun, x);
    return glm::normalize(towards_sun + x * (radius * std::cos(angle)) +
                          y * (radius * std::sin(angle)));
}

Texture make_map(const Gl& gl, const char* label) {
    Texture map = make_texture(gl, GL_DEPTH_COMPONENT32F, map_texels, map_texels, GL_NEAREST, label);
    glTextureParameteri(map.name(), GL_TEXTURE_COMPARE_MODE, GL_COMPARE_REF_TO_TEXTURE);
    glTextureParameteri(map.name(), GL_TEXTURE_COMPARE_FUNC, GL_LEQUAL);
    return map;
}

}  // namespace

Daylight metered_daylight(const glm::dvec3& towards_sun, bool sun_is_up,
                          const glm::dvec3& towards_lens) {
    // Sun to sky as on a day with some haze, the softer kind that portraits are taken on; the lower
    // the sun, the weaker and warmer (common practice, no source).
    const double height = std::max(towards_sun.y, 0.0);
    const auto strength = static_cast<float>(sun_is_up ? 2.6 * std::min(1.0, height / 0.35) : 0.0);
    const auto warmth = static_cast<float>(std::clamp(1.0 - height / 0.7, 0.0, 1.0));
    Daylight light;
    light.sun = strength * glm::vec3{1.0f, 0.95f - 0.10f * warmth, 0.86f - 0.26f * warmth};
    light.sky = glm::vec3{0.93f, 0.98f, 1.07f};
    const glm::vec3 on_ground =
        light.sun * static_cast<float>(height) + light.sky;
    light.ground = on_ground * glm::vec3{0.24f, 0.23f, 0.19f};

    const auto facing_sun = static_cast<float>(std::max(0.0, glm::dot(towards_sun, towards_lens)));
    const glm::vec3 on_faces = light.sun * facing_sun + 0.5f * light.sky + 0.5f * light.ground;
    const float exposure = 1.05f / on_faces.g;
    light.sun *= exposure;
    light.sky *= exposure;
    light.ground *= exposure;
    return light;
}

Made<LightRig> LightRig::make(const Gl& gl, const StageOnGpu& stage, const glm::dvec3& eye_m) {
    auto program = make_program(gl, "shadow.vert", "shadow.frag");
    if (!program)
        return tl::make_unexpected(program.error());
    LightRig rig;
    rig.program_ = std::move(*program);
    rig.clip_from_world_ = glGetUniformLocation(rig.program_.name(), "clip_from_world");
    rig.sun_map_ = make_map(gl, "sun map");
    rig.sky_map_ = make_map(gl, "sky map");
    rig.sun_target_ = make_framebuffer(gl, 0, rig.sun_map_.name(), "sun map target");
    rig.sky_target_ = make_framebuffer(gl, 0, rig.sky_map_.name(), "sky map target");
    rig.numbers_ = make_buffer(gl, nullptr, sizeof(LightNumbers), "light");
    rig.eye_m_ = eye_m;
    rig.towards_sun_ = stage.towards_sun();

    glm::dvec3 least{std::numeric_limits<double>::infinity()};
    glm::dvec3 most{-std::numeric_limits<double>::infinity()};
    for (const DrawnPart& part : stage.parts())
        if (part.person >= 0) {
            least = glm::min(least, part.centre_m - part.radius_m);
            most = glm::max(most, part.centre_m + part.radius_m);
        }
    if (least.x <= most.x) {
        rig.centre_m_ = (least + most) * 0.5;
        rig.radius_m_ = std::min(glm::length(most - least) * 0.5 + margin_m, largest_radius_m);
    }
    // What reaches into the ball casts shadows there; ground and sky, far larger than it, do not.
    for (const DrawnPart& part : stage.parts())
        if (part.role != scene::Role::highlight && part.radius_m < 4.0 * largest_radius_m &&
            glm::length(part.centre_m - rig.centre_m_) < part.radius_m + 2.0 * rig.radius_m_)
            rig.casters_.push_back(&part);

    rig.daylight_ = metered_daylight(stage.towards_sun(), stage.sun_is_up(),
                                     glm::normalize(eye_m - rig.centre_m_));
    return rig;
}

void LightRig::draw_map(const StageOnGpu& stage, GLuint framebuffer,
                        const float* clip_from_world) const {
    glBindFramebuffer(GL_FRAMEBUFFER, framebuffer);
    glClear(GL_DEPTH_BUFFER_BIT);
    glUniformMatrix4fv(clip_from_world_, 1, GL_FALSE, clip_from_world);
    stage.draw(casters_);
}

void LightRig::set_step(const StageOnGpu& stage, int step) {
    const glm::dvec3 sun = point_of_sun(towards_sun_, step);
    const glm::dvec3 sky = sky_direction(step);
    const Point2 shift = square_point(static_cast<std::uint64_t>(step) + 101);
    const glm::dmat4 sun_map = map_from_world(sun, centre_m_, radius_m_, shift);
    const glm::dmat4 sky_map = map_from_world(sky, centre_m_, radius_m_, shift);
    const auto texel_m = static_cast<float>(2.0 * radius_m_ / map_texels);

    glUseProgram(program_.name());
    glViewport(0, 0, map_texels, map_texels);
    glClipControl(GL_LOWER_LEFT, GL_ZERO_TO_ONE);
    glEnable(GL_DEPTH_TEST);
    glEnable(GL_DEPTH_CLAMP);  // whoever stands between the light and the ball still casts
    glDisable(GL_BLEND);
    glDisable(GL_CULL_FACE);
    glDepthMask(GL_TRUE);
    glDepthFunc(GL_LESS);
    glClearDepth(1.0);
    stage.bind();
    const glm::mat4 sun_clip{clip_from_map() * sun_map};
    const glm::mat4 sky_clip{clip_from_map() * sky_map};
    if (daylight_.sun.r > 0.0f)
        draw_map(stage, sun_target_.name(), glm::value_ptr(sun_clip));
    draw_map(stage, sky_target_.name(), glm::value_ptr(sky_clip));
    glDisable(GL_DEPTH_CLAMP);

    const LightNumbers numbers{.sun_map_from_world = glm::mat4{sun_map},
                               .sky_map_from_world = glm::mat4{sky_map},
                               .towards_sun = glm::vec4{glm::vec3{sun}, texel_m},
                               .towards_sky = glm::vec4{glm::vec3{sky}, texel_m},
                               .sun_colour = glm::vec4{daylight_.sun, 0.0f},
                               .sky_colour = glm::vec4{daylight_.sky * 2.0f, 0.0f},
                               .ground_colour = glm::vec4{daylight_.ground, 0.0f},
                               .eye_position = glm::vec4{glm::vec3{eye_m_}, 0.0f}};
    glNamedBufferSubData(numbers_.name(), 0, sizeof numbers, &numbers);
}

void LightRig::bind() const {
    glBindTextureUnit(1, sun_map_.name());
    glBindTextureUnit(2, sky_map_.name());
    glBindBufferBase(GL_UNIFORM_BUFFER, 3, numbers_.name());
}

}  // namespace backrow::render
