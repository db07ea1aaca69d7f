// Light between the vertices, times the grain of the surface where it has one.

in vec3 light_on_surface;
in vec2 uv_on_surface;
layout(location = 0) out vec4 light;
#ifdef GRAINED
layout(binding = 0) uniform sampler2D grain;
#endif

void main() {
    light = vec4(light_on_surface, 1.0);
#ifdef GRAINED
    light.rgb *= texture(grain, uv_on_surface).rgb;
#endif
}
