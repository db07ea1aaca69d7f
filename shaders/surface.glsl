// What lens_pass.vert hands to a fragment shader, and what the surface is made of.

#include "material.glsl"

in Surface {
    vec3 position_m;
    vec3 normal;
    vec4 colour_and_ambient_visibility;
    vec2 uv;
    flat uint material;
    flat uint face;
} surface;
