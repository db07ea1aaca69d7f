// What surfaces are made of.

struct Material {
    vec4 base_colour;  // a: 1 where a texture lies over it
    vec4 emission;
    vec4 answer;       // gloss, 1 lit or 0 unlit
};
layout(std430, binding = 2) readonly buffer Materials { Material materials[]; };
