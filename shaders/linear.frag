// The picture in linear light.

#include "spread_up.glsl"

layout(location = 2) uniform float gain;
layout(location = 0) out vec4 picture;

void main() { picture = vec4(spread_light() * gain, 1.0); }
