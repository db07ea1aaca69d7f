// What reaches a fragment shader, and what the surface is made of.

in Surface {
    vec3 position_m;
    vec3 normal;
    vec4 colour_and_openness;
    vec2 uv;
    flat uint material;
    flat uint face;
} surface;

struct Material {
    vec4 base_colour;  // a: 1 where a texture counts
    vec4 emission;
    vec4 answer;       // gloss, 1 lit or 0 unlit
};
layout(std430, binding = 2) readonly buffer Materials { Material materials[]; };
