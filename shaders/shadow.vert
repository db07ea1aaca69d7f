// The world as a far light sees it.

layout(location = 0) in vec3 position_m;
layout(location = 0) uniform mat4 clip_from_world;

void main() { gl_Position = clip_from_world * vec4(position_m, 1.0); }
