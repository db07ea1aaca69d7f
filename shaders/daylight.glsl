// Sun and sky, or a window and the room: what light arrives at a point. Many points of the sun's
// face or of the pane and many directions of the sky each have a shadow map; their mean over a
// picture is a soft shadow.

layout(binding = 1) uniform sampler2DArrayShadow main_maps;
layout(binding = 2) uniform sampler2DArray sky_maps;  // compared below, without a filter

const int most_main_points = 64;  // as light_rig.cpp has them
const int most_sky_directions = 48;

struct ShadowedLight {
    mat4 map_from_world;
    vec4 towards_or_place;  // a far light's direction or a near one's place;
                            // w: size of a texel of its map in the world, metres
};
layout(std140, binding = 3) uniform Daylight {
    ShadowedLight mains[most_main_points];
    ShadowedLight skies[most_sky_directions];
    vec4 main_colour;
    vec4 sky_colour;     // radiance of a direction, already times 2 for even directions
    vec4 ground_colour;  // light thrown up by the ground
    vec4 eye_position;
    vec4 window_facing;  // w: 1 where the main light is a window, 0 where it is the sun
    int main_points;     // how many of the mains there are
    int sky_directions;  // and of the skies
};

struct Spot {
    vec3 position_m;
    vec3 normal;
    float ambient_visibility;
    float gloss;
};

// A point is lifted off its surface by a texel and a half, lest it shadow itself.
vec3 lifted(ShadowedLight light, Spot spot) {
    return spot.position_m + spot.normal * light.towards_or_place.w * 1.5;
}

// 1 in the light, 0 in shadow; points outside the map are in the light.
float lit_by_main(ShadowedLight light, int layer, Spot spot) {
    vec4 seen = light.map_from_world * vec4(lifted(light, spot), 1.0);
    if (seen.w <= 0.0)
        return 1.0;
    vec3 at = seen.xyz / seen.w;
    if (any(lessThan(at, vec3(0.0))) || any(greaterThan(at, vec3(1.0))))
        return 1.0;
    return texture(main_maps, vec4(at.xy, float(layer), at.z));
}

// The same of a direction of the sky. There are many of them for every point, and on a processor a
// plain texel is found in half the time of a filtered one.
float lit_by_sky(ShadowedLight light, int layer, Spot spot) {
    vec3 at = (light.map_from_world * vec4(lifted(light, spot), 1.0)).xyz;
    if (any(lessThan(at, vec3(0.0))) || any(greaterThanEqual(at, vec3(1.0))))
        return 1.0;
    ivec2 texel = ivec2(at.xy * vec2(textureSize(sky_maps, 0).xy));
    return at.z <= texelFetch(sky_maps, ivec3(texel, layer), 0).r ? 1.0 : 0.0;
}

vec3 from_ground(Spot spot) {
    return ground_colour.rgb * (0.5 - 0.5 * spot.normal.y) * spot.ambient_visibility;
}

vec3 from_sky(Spot spot, int i) {
    float cosine = dot(spot.normal, skies[i].towards_or_place.xyz);
    if (cosine <= 0.0)
        return vec3(0.0);
    return sky_colour.rgb * cosine * spot.ambient_visibility * lit_by_sky(skies[i], i, spot);
}

// Diffuse light of the sun, or of a window: that falls off with the square of the distance and
// with the slant of the pane. Adds its highlight to shine.
vec3 from_main(Spot spot, int i, inout vec3 shine) {
    vec3 towards = mains[i].towards_or_place.xyz;
    float strength = 1.0;
    if (window_facing.w > 0.0) {
        vec3 way = towards - spot.position_m;
        float square_m2 = max(dot(way, way), 0.04);
        towards = way * inversesqrt(square_m2);
        strength = max(-dot(towards, window_facing.xyz), 0.0) / square_m2;
    }
    float cosine = dot(spot.normal, towards);
    if (cosine <= 0.0 || strength <= 0.0 || main_colour.g <= 0.0)
        return vec3(0.0);
    vec3 arriving = main_colour.rgb * strength * lit_by_main(mains[i], i, spot) *
                    (0.4 + 0.6 * spot.ambient_visibility);
    vec3 half_way = normalize(towards + normalize(eye_position.xyz - spot.position_m));
    shine += arriving * spot.gloss * pow(max(dot(spot.normal, half_way), 0.0), 40.0);
    return arriving * cosine;
}
