// Adds one pass to the sum.

layout(binding = 0) uniform sampler2D pass_colour;
layout(location = 0) out vec4 light;

void main() { light = texelFetch(pass_colour, ivec2(gl_FragCoord.xy), 0); }
