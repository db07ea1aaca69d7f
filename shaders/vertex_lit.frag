// Light between the vertices, times the texture of the surface where it has one.

in vec3 light_on_surface;
in vec2 uv_on_surface;
in float blur_by_depth;
layout(location = 0) out vec4 light;  // a: how blurred the surface is, radius in texels
layout(location = 1) out uint triangle;  // 1 and on; only the first passes keep it
layout(location = 2) uniform uint first_triangle;
#if defined(DETAILED) || defined(TEXTURED)
layout(binding = 0) uniform sampler2D surface_texture;
#endif
#ifdef TEXTURED
in vec3 added_light;
#endif

layout(location = 0) uniform int first_sample;

// A pass keeps half floats. What drivers make of the bits that do not fit differs, and some cut them off:
// all of the picture was darker by half of what the last bit is worth. Here each pass rounds up from
// another place, evenly over the passes, so that their mean keeps what one of them cannot.
vec3 rounded_to_half(vec3 colour) {
    uint up_from = uint(8192.0 * fract(0.5 + 0.6180340 * float(first_sample)));
    return uintBitsToFloat((floatBitsToUint(colour) + up_from) & ~0x1fffu);
}

void main() {
    triangle = first_triangle + uint(gl_PrimitiveID) + 1u;
    light = vec4(light_on_surface, abs(blur_by_depth) * gl_FragCoord.w);
#if defined(DETAILED) || defined(TEXTURED)
    light.rgb *= texture(surface_texture, uv_on_surface).rgb;
#endif
#ifdef TEXTURED
    light.rgb += added_light;
#endif
    light.rgb = rounded_to_half(light.rgb);
}
