// From linear light to a picture: exposure, tone, sRGB.

#include "spread_up.glsl"

layout(location = 2) uniform float gain;
layout(location = 0) out vec4 picture;

vec3 srgb_from_linear(vec3 linear) {
    return mix(12.92 * linear, 1.055 * pow(linear, vec3(1.0 / 2.4)) - 0.055,
               greaterThan(linear, vec3(0.0031308)));
}

const float knee = 0.55;
const float white = 4.2;  // two stops above the paper white of a metered picture

// Straight up to the knee, then a shoulder that meets 1 at white.
vec3 shouldered(vec3 linear) {
    const float reach = (white - knee) / (1.0 - knee);
    vec3 over = (clamp(linear, knee, white) - knee) / (1.0 - knee);
    return min(linear, vec3(knee)) +
           (1.0 - knee) * over * (1.0 + over / (reach * reach)) / (1.0 + over);
}

// A bright colour keeps its hue at first; the further it is over, the more its channels go their own
// ways, as they do in film and sensors, and it pales to white.
vec3 tone(vec3 linear) {
    float peak = max(max(linear.r, linear.g), linear.b);
    if (peak <= knee)
        return linear;
    vec3 of_one_hue = linear * (shouldered(vec3(peak)).r / peak);
    float over = (peak - knee) / (1.0 - knee);
    return mix(of_one_hue, shouldered(linear), over / (over + 6.0));
}

void main() {
    vec3 linear = max(spread_light() * gain, vec3(0.0));
#ifdef FLAT
    linear = min(linear, vec3(1.0));
#else
    linear = tone(linear);
#endif
    picture = vec4(srgb_from_linear(linear), 1.0);
}
