// Sun and sky: what light arrives at a point. Many points of the sun's face and many directions of
// the sky each have a shadow map; their mean over a picture is a soft shadow.

layout(binding = 1) uniform sampler2DArrayShadow sun_maps;
layout(binding = 2) uniform sampler2DArrayShadow sky_maps;

const int sun_points = 16;       // as light_rig.cpp has them
const int sky_directions = 48;

struct FarLight {
    mat4 map_from_world;
    vec4 towards;  // w: size of a texel of its map in the world, metres
};
layout(std140, binding = 3) uniform Daylight {
    FarLight suns[sun_points];
    FarLight skies[sky_directions];
    vec4 sun_colour;
    vec4 sky_colour;     // radiance of a direction, already times 2 for even directions
    vec4 ground_colour;  // light thrown up by the ground
    vec4 eye_position;
};

struct Spot {
    vec3 position_m;
    vec3 normal;
    float openness;
    float gloss;
};

// 1 in the light, 0 in shadow; points outside the map are in the light. The point is lifted off its
// surface by a texel and a half, lest it shadow itself.
float lit_share(sampler2DArrayShadow maps, FarLight light, int layer, Spot spot) {
    vec3 lifted = spot.position_m + spot.normal * light.towards.w * 1.5;
    vec3 at = (light.map_from_world * vec4(lifted, 1.0)).xyz;
    if (any(lessThan(at, vec3(0.0))) || any(greaterThan(at, vec3(1.0))))
        return 1.0;
    return texture(maps, vec4(at.xy, float(layer), at.z));
}

vec3 from_ground(Spot spot) {
    return ground_colour.rgb * (0.5 - 0.5 * spot.normal.y) * spot.openness;
}

vec3 from_sky(Spot spot, int i) {
    float cosine = dot(spot.normal, skies[i].towards.xyz);
    if (cosine <= 0.0)
        return vec3(0.0);
    return sky_colour.rgb * cosine * spot.openness * lit_share(sky_maps, skies[i], i, spot);
}

// Diffuse light of the sun; adds its highlight to shine.
vec3 from_sun(Spot spot, int i, inout vec3 shine) {
    float cosine = dot(spot.normal, suns[i].towards.xyz);
    if (cosine <= 0.0 || sun_colour.g <= 0.0)
        return vec3(0.0);
    vec3 arriving = sun_colour.rgb * lit_share(sun_maps, suns[i], i, spot) *
                    (0.4 + 0.6 * spot.openness);
    vec3 half_way = normalize(suns[i].towards.xyz + normalize(eye_position.xyz - spot.position_m));
    shine += arriving * spot.gloss * pow(max(dot(spot.normal, half_way), 0.0), 40.0);
    return arriving * cosine;
}
