// A probe's light: one for every texel that it covers; none of the card behind it.

in float blur_by_depth;
layout(location = 1) uniform float brightness;
layout(location = 0) out vec4 light;

void main() { light = vec4(vec3(brightness), abs(blur_by_depth) * gl_FragCoord.w); }
