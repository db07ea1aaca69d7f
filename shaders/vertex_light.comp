// The light that each vertex sends to the camera, worked out once for all passes.

layout(local_size_x = 64) in;

#ifndef FLAT
#include "daylight.glsl"
#endif
#include "material.glsl"

// Position (3 floats), normal (4 × snorm16), colour and ambient_visibility (4 × unorm16), uv (2 floats),
// material and face (2 × uint16): as stage_on_gpu.cpp writes them.
layout(std430, binding = 4) readonly buffer Vertices { uint words[]; };
layout(std430, binding = 5) writeonly buffer VertexLight { vec4 vertex_light[]; };
uniform uint first_vertex;
uniform uint vertex_count;

void main() {
    uint index = first_vertex + gl_GlobalInvocationID.x;
    if (index >= vertex_count)
        return;
    uint first = index * 10u;
    vec4 colour_and_ambient_visibility =
        vec4(unpackUnorm2x16(words[first + 5u]), unpackUnorm2x16(words[first + 6u]));
    Material material = materials[words[first + 9u] & 0xffffu];
    vec3 light = material.base_colour.rgb * colour_and_ambient_visibility.rgb;
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
        light += shine / float(main_points);
    }
#endif
    vertex_light[index] = vec4(light + material.emission.rgb, 1.0);
}
