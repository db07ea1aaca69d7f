// Sun and sky. The sky is one direction a pass: over the passes of a picture the directions cover
// the dome, so its soft shadows come out of the same accumulation as the blur.

#include "surface.glsl"

layout(binding = 0) uniform sampler2D base_texture;
layout(binding = 1) uniform sampler2DShadow sun_shadow;
layout(binding = 2) uniform sampler2DShadow sky_shadow;

layout(std140, binding = 3) uniform Light {
    mat4 sun_map_from_world;
    mat4 sky_map_from_world;
    vec4 towards_sun;    // w: size of a texel of the sun's map on the ground, metres
    vec4 towards_sky;    // w: likewise for the sky's
    vec4 sun_colour;
    vec4 sky_colour;     // radiance of this direction, already times 2 for even directions
    vec4 ground_colour;  // light thrown up by the ground
    vec4 eye_position;
};

layout(location = 0) out vec4 light;

// 1 in the light, 0 in shadow; points outside the map are in the light. The point is lifted off its
// surface by a texel and a half, lest it shadow itself.
float lit_share(sampler2DShadow map, mat4 map_from_world, float texel_m, vec3 normal) {
    vec3 at = (map_from_world * vec4(surface.position_m + normal * texel_m * 1.5, 1.0)).xyz;
    if (any(lessThan(at, vec3(0.0))) || any(greaterThan(at, vec3(1.0))))
        return 1.0;
    return texture(map, at);
}

void main() {
    Material material = materials[surface.material];
    vec3 base = material.base_colour.rgb * surface.colour_and_openness.rgb;
    if (material.base_colour.a > 0.0)
        base *= texture(base_texture, surface.uv).rgb;
    if (material.answer.y == 0.0) {
        light = vec4(base + material.emission.rgb, 1.0);
        return;
    }

    float openness = surface.colour_and_openness.a;
    vec3 normal = normalize(gl_FrontFacing ? surface.normal : -surface.normal);
    float sun_cosine = dot(normal, towards_sun.xyz);
    float sky_cosine = dot(normal, towards_sky.xyz);

    vec3 incoming = ground_colour.rgb * (0.5 - 0.5 * normal.y) * openness;
    if (sky_cosine > 0.0)
        incoming += sky_colour.rgb * sky_cosine * openness *
                    lit_share(sky_shadow, sky_map_from_world, towards_sky.w, normal);
    vec3 shine = vec3(0.0);
    if (sun_cosine > 0.0) {
        float sunlit = lit_share(sun_shadow, sun_map_from_world, towards_sun.w, normal) *
                       (0.4 + 0.6 * openness);
        incoming += sun_colour.rgb * sun_cosine * sunlit;
        vec3 half_way = normalize(towards_sun.xyz + normalize(eye_position.xyz - surface.position_m));
        shine = sun_colour.rgb * sunlit * material.answer.x *
                pow(max(dot(normal, half_way), 0.0), 40.0);
    }
    light = vec4(base * incoming + shine + material.emission.rgb, 1.0);
}
