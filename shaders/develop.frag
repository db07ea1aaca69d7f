// From the sum of linear light to a picture: mean, tone, sRGB.

layout(binding = 0) uniform sampler2D sum;
uniform float one_over_passes;
layout(location = 0) out vec4 picture;

vec3 srgb_from_linear(vec3 linear) {
    return mix(12.92 * linear, 1.055 * pow(linear, vec3(1.0 / 2.4)) - 0.055,
               greaterThan(linear, vec3(0.0031308)));
}

// Straight up to the knee, then a shoulder that reaches white only far above it; very bright colours
// pale towards white on the way, as they do on film and sensors alike.
vec3 tone(vec3 linear) {
    const float knee = 0.55;
    float peak = max(max(linear.r, linear.g), linear.b);
    if (peak <= knee)
        return linear;
    float over = (peak - knee) / (1.0 - knee);
    float shown = knee + (1.0 - knee) * over / (1.0 + over);
    float paling = over / (over + 6.0);
    return mix(linear * (shown / peak), vec3(shown), paling * paling);
}

void main() {
    vec3 linear = max(texelFetch(sum, ivec2(gl_FragCoord.xy), 0).rgb * one_over_passes, vec3(0.0));
#ifdef FLAT
    linear = min(linear, vec3(1.0));
#else
    linear = tone(linear);
#endif
    picture = vec4(srgb_from_linear(linear), 1.0);
}
