// How a point in the world lands on the picture through one point of the lens. Every pass that draws
// the world, the probes and the identities too, goes through here.

layout(std140, binding = 0) uniform View {
    vec4 lens_position;  // engine space, metres
    vec4 right;
    vec4 up;
    vec4 forward;
    vec4 lens;    // image distance v (m), 1/focus (1/m), radius of the opening (m), nearest depth (m)
    vec4 crop;    // clip = image point (m) · xy + zw
    vec4 defects; // spherical error at the edge of this opening, field curvature (dioptres),
                  // 1/half diagonal of the sensor (1/m), h² from which on the field curves no further
    vec4 texel;   // one texel of the crop in clip units (xy)
};

struct LensSample {
    vec2 pupil;   // point of the opening, in its radii
    vec2 jitter;  // place in the texel, −½ … ½
};
layout(std430, binding = 1) readonly buffer LensSamples { LensSample lens_samples[]; };

// x = v·[ X/d + u·(1/s + Δ(ρ, h) − 1/d) ], kept homogeneous: w = d, so a triangle stays a triangle.
vec4 clip_from_world(vec3 point_m, LensSample through) {
    vec3 from_lens = point_m - lens_position.xyz;
    float depth_m = dot(from_lens, forward.xyz);
    vec2 lateral_m = vec2(dot(from_lens, right.xyz), dot(from_lens, up.xyz));

    float image_height = length(lateral_m) * lens.x * defects.z / max(depth_m, lens.w);
    float vergence = lens.y + defects.x * dot(through.pupil, through.pupil) +
                     defects.y * min(image_height * image_height, defects.w);
    vec2 image_m = lens.x * (lateral_m + through.pupil * lens.z * (depth_m * vergence - 1.0));

    vec2 clip = image_m * crop.xy + (crop.zw + through.jitter * texel.xy) * depth_m;
    return vec4(clip, lens.w, depth_m);  // depth = nearest/d: 1 close up, 0 at infinity
}
