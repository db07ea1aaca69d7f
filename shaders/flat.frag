// Base colour × vertex colour × texture + emission, nothing else: the picture other programs check.

#include "surface.glsl"

layout(binding = 0) uniform sampler2D base_texture;
layout(location = 0) out vec4 light;

void main() {
    Material material = materials[surface.material];
    vec3 base = material.base_colour.rgb * surface.colour_and_ambient_visibility.rgb;
    if (material.base_colour.a > 0.0)
        base *= texture(base_texture, surface.uv).rgb;
    light = vec4(base + material.emission.rgb, 1.0);
}
