#include "render/light/light_rig.h"

#include "render/driver/program.h"
#include "render/light/casters.h"
#include "render/light/daylight.h"
#include "render/light/light_views.h"

#include "base/sequences.h"

#include <glm/geometric.hpp>
#include <glm/gtc/type_ptr.hpp>
#include <glm/mat4x4.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <vector>

namespace backrow::render {
namespace {

// Enough that their shadows' edges melt into each other. The face of the sun is half a degree wide:
// people's shadows have edges of two or three texels, and trees' edges fewer steps than the filter
// mixes. A window near a wall spreads them by metres, but its shadows are soft, so more and coarser
// maps take no more memory.
struct MainMaps {
    int points, texels;
};
constexpr MainMaps sun_maps{8, 1024};
constexpr MainMaps window_maps{64, 512};
// As daylight.glsl has them.
constexpr int most_main_points = 64;
constexpr int most_sky_directions = 48;
// In a hurry: shadows have steps then, but all are where they belong.
constexpr int rough_main_points = 4;
constexpr int rough_sky_directions = 8;
constexpr int sky_map_texels = 512;
// How far round the people shadows are drawn.
constexpr double margin_m = 1.5;
constexpr double largest_radius_m = 30.0;

struct ShadowedLight {  // std140, as daylight.glsl has it
    glm::mat4 map_from_world;
    glm::vec4 towards_or_place;
};
struct DaylightNumbers {
    std::array<ShadowedLight, most_main_points> mains;
    std::array<ShadowedLight, most_sky_directions> skies;
    glm::vec4 main_colour;
    glm::vec4 sky_colour;
    glm::vec4 ground_colour;
    glm::vec4 eye_position;
    glm::vec4 window_facing;
    alignas(16) int main_points;
    int sky_directions;
};

Texture make_maps(int texels, int layers, const char* label) {
    GLuint name = 0;
    glCreateTextures(GL_TEXTURE_2D_ARRAY, 1, &name);
    glTextureStorage3D(name, 1, GL_DEPTH_COMPONENT16, texels, texels, layers);
    glTextureParameteri(name, GL_TEXTURE_MIN_FILTER, GL_NEAREST);
    glTextureParameteri(name, GL_TEXTURE_MAG_FILTER, GL_NEAREST);
    glObjectLabel(GL_TEXTURE, name, -1, label);
    return Texture{name};
}

// From here on the driver compares depths, and mixes the answers of four texels.
void compare_and_filter(const Texture& maps) {
    glTextureParameteri(maps.name(), GL_TEXTURE_MIN_FILTER, GL_LINEAR);
    glTextureParameteri(maps.name(), GL_TEXTURE_MAG_FILTER, GL_LINEAR);
    glTextureParameteri(maps.name(), GL_TEXTURE_COMPARE_MODE, GL_COMPARE_REF_TO_TEXTURE);
    glTextureParameteri(maps.name(), GL_TEXTURE_COMPARE_FUNC, GL_LEQUAL);
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

// How far apart vertices that are taken as one may lie, texels of the map. A chord across such a
// cube bows from the surface by far less than the texel and a half by which points are lifted off
// their own shadow. What is thinner than a cube shrinks to nothing, which shows in a map of the sun
// before it does in one of many of the sky.
constexpr double main_cell_texels = 0.75;
constexpr double sky_cell_texels = 1.8;

}  // namespace

Finished<LightRig> LightRig::make(const Gl& gl, const StageOnGpu& stage, const glm::dvec3& eye_m,
                                  LightCare care, const Progress& progress) {
    const auto program = make_program(gl, "shadow.vert", "shadow.frag");
    if (!program)
        return tl::make_unexpected(program.error());

    LightRig rig;
    const auto& window = stage.window();
    const bool is_rough = care != LightCare::full;
    const bool has_shadows = care != LightCare::unshadowed;
    const int most_points = (window ? window_maps : sun_maps).points;
    const int main_texels = has_shadows ? (window ? window_maps : sun_maps).texels : 1;
    const int sky_texels = has_shadows ? sky_map_texels : 1;
    const int main_points = is_rough ? rough_main_points : most_points;
    const int sky_directions = is_rough ? rough_sky_directions : most_sky_directions;
    rig.main_maps_ = make_maps(main_texels, main_points, "maps of the main light");
    compare_and_filter(rig.main_maps_);
    rig.sky_maps_ = make_maps(sky_texels, sky_directions, "sky maps");
    const Framebuffer target = make_framebuffer(gl, 0, 0, "shadow target");
    const Ball ball = shadow_ball(stage);
    rig.ball_ = ball;
    const double texels_in_m = 1.0 / (2.0 * ball.radius_m);
    Casters sky_casters;
    Casters main_casters;
    if (has_shadows) {
        sky_casters = casters_in(gl, stage, ball, glm::dvec3{0},
                                 sky_cell_texels / (texels_in_m * sky_texels));
        main_casters = casters_in(gl, stage, ball, window ? glm::dvec3{0} : stage.towards_sun(),
                                  main_cell_texels / (texels_in_m * main_texels));
    }
    const glm::dvec3 towards_lens = glm::normalize(eye_m - ball.centre_m);
    const Daylight daylight =
        window ? metered_window_light(*window, ball.centre_m, towards_lens)
               : metered_daylight(stage.towards_sun(), stage.sun_is_up(), towards_lens);

    rig.main_colour_ = daylight.main;
    start_maps(*program, stage);
    const auto draw = [&](const LightView& view, const Casters& casters, const Texture& maps,
                          std::size_t layer, int texels) {
        // Shifted by part of a texel, so that the texels of different maps do not line up.
        const glm::dmat4 map =
            shifted(view.map_from_world, square_point(layer + 101), 1.0 / texels);
        const glm::mat4 clip{clip_from_map() * map};
        constexpr float far_away = 1.0f;
        glNamedFramebufferTextureLayer(target.name(), GL_DEPTH_ATTACHMENT, maps.name(), 0,
                                       static_cast<GLint>(layer));
        glBindFramebuffer(GL_FRAMEBUFFER, target.name());
        glViewport(0, 0, texels, texels);
        glClearNamedFramebufferfv(target.name(), GL_DEPTH, 0, &far_away);
        glUniformMatrix4fv(clip_from_world_uniform, 1, GL_FALSE, glm::value_ptr(clip));
        casters.draw();
        glFinish();  // or a driver without a card would put all maps off to the end
        const auto texel_m = static_cast<float>(view.width_m / texels);
        return ShadowedLight{glm::mat4{map}, glm::vec4{glm::vec3{view.towards_or_place}, texel_m}};
    };
    DaylightNumbers numbers{};
    numbers.main_points = main_points;
    numbers.sky_directions = sky_directions;
    auto go_on = [&, maps = main_points + sky_directions, drawn = 0]() mutable {
        return progress(static_cast<double>(++drawn) / maps);
    };
    for (std::size_t i = 0; i < static_cast<std::size_t>(main_points) && daylight.main.g > 0.0f;
         ++i) {
        const LightView view = window ? view_from_window(*window, i, ball)
                                      : view_from_sun(stage.towards_sun(), i, ball);
        numbers.mains[i] = draw(view, main_casters, rig.main_maps_, i, main_texels);
        if (!go_on())
            return tl::make_unexpected(Stopped{});
    }
    for (std::size_t i = 0; i < static_cast<std::size_t>(sky_directions); ++i) {
        numbers.skies[i] = draw(view_from_sky(i, ball), sky_casters, rig.sky_maps_, i, sky_texels);
        if (!go_on())
            return tl::make_unexpected(Stopped{});
    }
    glDisable(GL_DEPTH_CLAMP);

    numbers.main_colour = glm::vec4{daylight.main, 0.0f};
    numbers.sky_colour = glm::vec4{daylight.sky * 2.0f, 0.0f};
    numbers.ground_colour = glm::vec4{daylight.ground, 0.0f};
    numbers.eye_position = glm::vec4{glm::vec3{eye_m}, 0.0f};
    if (window)
        numbers.window_facing = glm::vec4{glm::vec3{window->facing}, 1.0f};
    rig.numbers_ = make_buffer(gl, &numbers, sizeof numbers, "daylight");
    return rig;
}

void LightRig::bind() const {
    glBindTextureUnit(1, main_maps_.name());
    glBindTextureUnit(2, sky_maps_.name());
    glBindBufferBase(GL_UNIFORM_BUFFER, 3, numbers_.name());
}

void LightRig::bind_no_maps() {
    glBindTextureUnit(1, 0);
    glBindTextureUnit(2, 0);
}

}  // namespace backrow::render
