// Light and shadow at every pixel, for surfaces whose vertices lie too far apart to carry a shadow. Each
// pass takes one direction of the sky and one point of the main light; their mean is the picture's.

#include "daylight.glsl"
#include "surface.glsl"

layout(binding = 0) uniform sampler2D base_texture;
uniform int pass_number;
layout(location = 0) out vec4 light;

void main() {
    Material material = materials[surface.material];
    vec3 base = material.base_colour.rgb * surface.colour_and_ambient_visibility.rgb;
    if (material.base_colour.a > 0.0)
        base *= texture(base_texture, surface.uv).rgb;
    if (material.answer.y != 0.0) {
        Spot spot;
        spot.position_m = surface.position_m;
        spot.normal = normalize(gl_FrontFacing ? surface.normal : -surface.normal);
        spot.ambient_visibility = surface.colour_and_ambient_visibility.a;
        spot.gloss = material.answer.x;
        vec3 shine = vec3(0.0);
        vec3 arriving = from_ground(spot) + from_sky(spot, pass_number % sky_directions) +
                        from_main(spot, pass_number % main_points, shine);
        base = base * arriving + shine;
    }
    light = vec4(base + material.emission.rgb, 1.0);
}
