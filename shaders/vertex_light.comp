// The light that each vertex sends to the camera, worked out once for all passes. Where a texture lies
// over it: what the texture multiplies, and in a the sun's highlight, a share of its colour, which it
// does not.

layout(local_size_x = 64) in;

#ifndef FLAT
#include "daylight.glsl"
#endif
#include "material.glsl"

// Position (3 floats), normal (4 × snorm16), colour and ambient_visibility (4 × unorm16), uv (2 floats),
// material and face (2 × uint16): as stage_on_gpu.cpp writes them.
layout(std430, binding = 4) readonly buffer Vertices { uint words[]; };
layout(std430, binding = 5) writeonly buffer VertexLight { vec4 vertex_light[]; };
layout(location = 0) uniform uint first_vertex;
layout(location = 1) uniform uint vertex_count;

void main() {
    uint index = first_vertex + gl_GlobalInvocationID.x;
    if (index >= vertex_count)
        return;
    uint first = index * 10u;
    vec4 colour_and_ambient_visibility =
        vec4(unpackUnorm2x16(words[first + 5u]), unpackUnorm2x16(words[first + 6u]));
    Material material = materials[words[first + 9u] & 0xffffu];
    bool textured = material.base_colour.a > 0.0;
    vec3 light = material.base_colour.rgb * colour_and_ambient_visibility.rgb;
    float highlight = 0.0;
#ifndef FLAT
    if (material.answer.y != 0.0) {
        Spot spot;
        spot.position_m = vec3(uintBitsToFloat(words[first]), uintBitsToFloat(words[first + 1u]),
                               uintBitsToFloat(words[first + 2u]));
        spot.normal = normalize(vec3(unpackSnorm2x16(words[first + 3u]),
                                     unpackSnorm2x16(words[first + 4u]).x));
        spot.ambient_visibility = colour_and_ambient_visibility.a;
        spot.gloss = material.answer.x;

        vec3 sky = vec3(0.0);
        for (int i = 0; i < sky_directions; ++i)
            sky += from_sky(spot, i);
        vec3 main_light = vec3(0.0);
        vec3 shine = vec3(0.0);
        for (int i = 0; i < main_points; ++i)
            main_light += from_main(spot, i, shine);
        light *= from_ground(spot) + sky / float(sky_directions) + main_light / float(main_points);
        shine /= float(main_points);
        if (textured && main_colour.g > 0.0)
            highlight = shine.g / main_colour.g;
        else
            light += shine;
    }
#endif
    if (!textured)
        light += material.emission.rgb;
    vertex_light[index] = vec4(light, highlight);
}
