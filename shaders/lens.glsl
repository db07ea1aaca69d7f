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
    vec4 texel;   // one texel of the crop in clip units (xy), texels in a metre of the image (z),
                  // radius of a cell's image over that of the disc (w)
};

struct LensSample {
    vec2 pupil;      // point of the opening, in its radii
    vec2 jitter;     // place in the texel, −½ … ½
    float drawn_in;  // by what share of its square, where cells are spread
    float unused;
};
layout(std430, binding = 1) readonly buffer LensSamples { LensSample lens_samples[]; };

// 1/s + Δ(ρ, h) without the part of the zone.
float vergence_at(float image_height) {
    return lens.y + defects.y * min(image_height * image_height, defects.w);
}

// Radius of the disc that the whole opening would make of a surface, were it everywhere as it is about
// this sample: with x = v·u·(w + a·ρ²) a small cell at zone ρ is imaged w + 2·a·ρ² times its size, the
// mean of what it is along and across the zone. inverse_depth is 1/d, vergence as vergence_at() has it.
float blur_radius_texels(float inverse_depth, float vergence, LensSample through) {
    float zone = 2.0 * defects.x * dot(through.pupil, through.pupil);
    return abs(lens.x * lens.z * texel.z * (vergence + zone - inverse_depth));
}

// How much of what is blurred so far is spread by the cells of the lens (cells.glsl): nothing where the
// samples lie as close as the eye would have them.
float spread_share(float blur_texels) { return smoothstep(0.9, 1.5, texel.w * blur_texels); }

// x = v·[ X/d + u·(1/s + Δ(ρ, h) − 1/d) ], kept homogeneous: w = d, so a triangle stays a triangle.
vec4 clip_from_world(vec3 point_m, LensSample through) {
    vec3 from_lens = point_m - lens_position.xyz;
    float depth_m = dot(from_lens, forward.xyz);
    vec2 lateral_m = vec2(dot(from_lens, right.xyz), dot(from_lens, up.xyz));

    float inverse_depth = 1.0 / max(depth_m, lens.w);
    float vergence = vergence_at(length(lateral_m) * lens.x * defects.z * inverse_depth);
    // What is spread afterwards is drawn in by as much before, so that discs keep their size.
    float share = spread_share(blur_radius_texels(inverse_depth, vergence, through));
    vec2 pupil = through.pupil * sqrt(1.0 - share * through.drawn_in);
    vergence += defects.x * dot(through.pupil, through.pupil);
    vec2 image_m = lens.x * (lateral_m + pupil * lens.z * (depth_m * vergence - 1.0));

    vec2 clip = image_m * crop.xy + (crop.zw + through.jitter * texel.xy) * depth_m;
    return vec4(clip, lens.w, depth_m);  // depth = nearest/d: 1 close up, 0 at infinity
}
