// Light between the vertices.

in vec3 light_on_surface;
layout(location = 0) out vec4 light;

void main() { light = vec4(light_on_surface, 1.0); }
