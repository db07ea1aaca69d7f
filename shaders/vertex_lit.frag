// Light between the vertices, times the grain of the surface where it has one.

in vec3 light_on_surface;
in vec2 uv_on_surface;
layout(location = 0) out vec4 light;
#ifdef DETAILED
layout(binding = 0) uniform sampler2D skin_detail;
#endif

void main() {
    light = vec4(light_on_surface, 1.0);
#ifdef DETAILED
    light.rgb *= texture(skin_detail, uv_on_surface).rgb;
#endif
}
