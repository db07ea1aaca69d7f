#include "render/light_rig.h"

#include "render/program.h"

#include "base/sequences.h"
#include "base/units.h"

#include <glm/geometric.hpp>
#include <glm/gtc/type_ptr.hpp>
#include <glm/mat4x4.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

namespace backrow::render {
namespace {

// As daylight.glsl has them. Enough that their shadows' edges melt into each other.
constexpr int sun_points = 16;
constexpr int sky_directions = 48;
// The sun's shadows have edges worth seeing, the sky's have not.
constexpr int sun_map_texels = 1024;
constexpr int sky_map_texels = 512;
// The sun's face is 32 arc minutes across (mean, [ALLEN]).
constexpr double sun_radius_rad = rad_from_arcmin(16.0);
// How far round the people shadows are drawn.
constexpr double margin_m = 1.5;
constexpr double largest_radius_m = 30.0;

struct FarLight {  // std140, as daylight.glsl has it
    glm::mat4 map_from_world;
    glm::vec4 towards;
};
struct DaylightNumbers {
    std::array<FarLight, sun_points> suns;
    std::array<FarLight, sky_directions> skies;
    glm::vec4 sun_colour;
    glm::vec4 sky_colour;
    glm::vec4 ground_colour;
    glm::vec4 eye_position;
};

// Where shadows are drawn.
struct Ball {
    glm::dvec3 centre_m{0};
    double radius_m = 1;
};

// A far light's parallel view of the ball: x and y in map space 0 … 1, depth growing away from it.
// The map is shifted by part of a texel, so that the texels of different maps do not line up.
glm::dmat4 map_from_world(const glm::dvec3& towards, const Ball& ball, const Point2& texel_shift,
                          int map_texels) {
    const glm::dvec3 aside = std::abs(towards.y) < 0.99 ? glm::dvec3{0, 1, 0} : glm::dvec3{1, 0, 0};
    const glm::dvec3 x = glm::normalize(glm::cross(aside, towards));
    const glm::dvec3 y = glm::cross(towards, x);
    const double scale = 0.5 / ball.radius_m;
    glm::dmat4 map{1};
    for (int i = 0; i < 3; ++i) {
        map[i][0] = x[i] * scale;
        map[i][1] = y[i] * scale;
        map[i][2] = -towards[i] * scale;
    }
    map[3] =
        glm::dvec4{0.5 - glm::dot(x, ball.centre_m) * scale + (texel_shift.x - 0.5) / map_texels,
                   0.5 - glm::dot(y, ball.centre_m) * scale + (texel_shift.y - 0.5) / map_texels,
                   0.5 + glm::dot(towards, ball.centre_m) * scale, 1.0};
    return map;
}

glm::dmat4 clip_from_map() {
    glm::dmat4 clip{1};
    clip[0][0] = clip[1][1] = 2.0;
    clip[3] = glm::dvec4{-1.0, -1.0, 0.0, 1.0};
    return clip;
}

glm::dvec3 sky_direction(std::uint64_t index) {
    const Point2 at = square_point(index);
    const double height = 0.03 + 0.97 * at.x;
    const double ring = std::sqrt(1.0 - height * height);
    const double angle = 2.0 * std::numbers::pi * at.y;
    return {ring * std::cos(angle), height, ring * std::sin(angle)};
}

glm::dvec3 point_of_sun(const glm::dvec3& towards_sun, std::uint64_t index) {
    const Point2 at = square_point(index);
    const double radius = std::tan(sun_radius_rad) * std::sqrt(at.x);
    const double angle = 2.0 * std::numbers::pi * at.y;
    const glm::dvec3 aside =
        std::abs(towards_sun.y) < 0.99 ? glm::dvec3{0, 1, 0} : glm::dvec3{1, 0, 0};
    const glm::dvec3 x = glm::normalize(glm::cross(aside, towards_sun));
    const glm::dvec3 y = glm::cross(towards_sun, x);
    return glm::normalize(towards_sun + x * (radius * std::cos(angle)) +
                          y * (radius * std::sin(angle)));
}

Texture make_maps(int texels, int layers, const char* label) {
    GLuint name = 0;
    glCreateTextures(GL_TEXTURE_2D_ARRAY, 1, &name);
    glTextureStorage3D(name, 1, GL_DEPTH_COMPONENT16, texels, texels, layers);
    glTextureParameteri(name, GL_TEXTURE_MIN_FILTER, GL_NEAREST);
    glTextureParameteri(name, GL_TEXTURE_MAG_FILTER, GL_NEAREST);
    glTextureParameteri(name, GL_TEXTURE_COMPARE_MODE, GL_COMPARE_REF_TO_TEXTURE);
    glTextureParameteri(name, GL_TEXTURE_COMPARE_FUNC, GL_LEQUAL);
    glObjectLabel(GL_TEXTURE, name, -1, label);
    return Texture{name};
}

// Round the people; without any, round the mark.
Ball shadow_ball(const StageOnGpu& stage) {
    glm::dvec3 least{std::numeric_limits<double>::infinity()};
    glm::dvec3 most{-std::numeric_limits<double>::infinity()};
    for (const DrawnPart& part : stage.parts())
        if (part.person >= 0) {
            least = glm::min(least, part.centre_m - part.radius_m);
            most = glm::max(most, part.centre_m + part.radius_m);
        }
    if (least.x > most.x)
        return {};
    return {(least + most) * 0.5,
            std::min(glm::length(most - least) * 0.5 + margin_m, largest_radius_m)};
}

// What reaches into the ball casts shadows there; ground and sky, far larger than it, do not.
std::vector<Run> casters_in(const StageOnGpu& stage, const Ball& ball) {
    std::vector<const DrawnPart*> casters;
    for (const DrawnPart& part : stage.parts())
        if (part.role != scene::Role::highlight && part.lit &&
            part.radius_m < 4.0 * largest_radius_m &&
            glm::length(part.centre_m - ball.centre_m) < part.radius_m + 2.0 * ball.radius_m)
            casters.push_back(&part);
    return runs_of(casters);
}

void start_maps(const Program& program, const StageOnGpu& stage) {
    glUseProgram(program.name());
    glClipControl(GL_LOWER_LEFT, GL_ZERO_TO_ONE);
    glEnable(GL_DEPTH_TEST);
    glEnable(GL_DEPTH_CLAMP);  // whoever stands between the light and the ball still casts
    glDisable(GL_BLEND);
    glDisable(GL_CULL_FACE);
    glDepthMask(GL_TRUE);
    glDepthFunc(GL_LESS);
    stage.bind();
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
    const glm::vec3 on_ground = light.sun * static_cast<float>(height) + light.sky;
    light.ground = on_ground * glm::vec3{0.24f, 0.23f, 0.19f};

    const auto facing_sun = static_cast<float>(std::max(0.0, glm::dot(towards_sun, towards_lens)));
    const glm::vec3 on_faces = light.sun * facing_sun + 0.5f * light.sky + 0.5f * light.ground;
    const float exposure = 1.05f / on_faces.g;
    light.sun *= exposure;
    light.sky *= exposure;
    light.ground *= exposure;
    return light;
}

Made<std::optional<LightRig>> LightRig::make(const Gl& gl, const StageOnGpu& stage,
                                             const glm::dvec3& eye_m, const Progress& progress) {
    const auto program = make_program(gl, "shadow.vert", "shadow.frag");
    if (!program)
        return tl::make_unexpected(program.error());
    const GLint clip_from_world = glGetUniformLocation(program->name(), "clip_from_world");

    LightRig rig;
    rig.sun_maps_ = make_maps(sun_map_texels, sun_points, "sun maps");
    rig.sky_maps_ = make_maps(sky_map_texels, sky_directions, "sky maps");
    const Framebuffer target = make_framebuffer(gl, 0, 0, "shadow target");
    const Ball ball = shadow_ball(stage);
    const auto casters = casters_in(stage, ball);
    const Daylight daylight = metered_daylight(stage.towards_sun(), stage.sun_is_up(),
                                               glm::normalize(eye_m - ball.centre_m));

    start_maps(*program, stage);
    const auto draw = [&](const glm::dvec3& towards, std::uint64_t index, const Texture& maps,
                          int layer, int texels) {
        const Point2 shift = square_point(index + 101);
        const glm::dmat4 map = map_from_world(towards, ball, shift, texels);
        const glm::mat4 clip{clip_from_map() * map};
        constexpr float far_away = 1.0f;
        glNamedFramebufferTextureLayer(target.name(), GL_DEPTH_ATTACHMENT, maps.name(), 0, layer);
        glBindFramebuffer(GL_FRAMEBUFFER, target.name());
        glViewport(0, 0, texels, texels);
        glClearNamedFramebufferfv(target.name(), GL_DEPTH, 0, &far_away);
        glUniformMatrix4fv(clip_from_world, 1, GL_FALSE, glm::value_ptr(clip));
        stage.draw(casters);
        glFinish();  // or a driver without a card would put all maps off to the end
        const auto texel_m = static_cast<float>(2.0 * ball.radius_m / texels);
        return FarLight{glm::mat4{map}, glm::vec4{glm::vec3{towards}, texel_m}};
    };
    DaylightNumbers numbers{};
    auto go_on = [&, drawn = 0]() mutable {
        return progress(static_cast<double>(++drawn) / (sun_points + sky_directions));
    };
    for (std::size_t i = 0; i < sun_points && daylight.sun.g > 0.0f; ++i) {
        numbers.suns[i] = draw(point_of_sun(stage.towards_sun(), i), i, rig.sun_maps_,
                               static_cast<int>(i), sun_map_texels);
        if (!go_on())
            return std::nullopt;
    }
    for (std::size_t i = 0; i < sky_directions; ++i) {
        numbers.skies[i] =
            draw(sky_direction(i), i, rig.sky_maps_, static_cast<int>(i), sky_map_texels);
        if (!go_on())
            return std::nullopt;
    }
    glDisable(GL_DEPTH_CLAMP);

    numbers.sun_colour = glm::vec4{daylight.sun, 0.0f};
    numbers.sky_colour = glm::vec4{daylight.sky * 2.0f, 0.0f};
    numbers.ground_colour = glm::vec4{daylight.ground, 0.0f};
    numbers.eye_position = glm::vec4{glm::vec3{eye_m}, 0.0f};
    rig.numbers_ = make_buffer(gl, &numbers, sizeof numbers, "daylight");
    return rig;
}

void LightRig::bind() const {
    glBindTextureUnit(1, sun_maps_.name());
    glBindTextureUnit(2, sky_maps_.name());
    glBindBufferBase(GL_UNIFORM_BUFFER, 3, numbers_.name());
}

}  // namespace backrow::render
