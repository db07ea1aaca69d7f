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

// How much of what is blurred so far is spread by the cells of the lens (cells.glsl): nothing where the
// samples lie as close as the eye would have them.
float spread_share(float blur_texels) { return smoothstep(0.5, 0.8, texel.w * blur_texels); }

struct Landing {
    vec4 clip;          // w = d, so a triangle stays a triangle; depth = nearest/d
    float blur_by_depth;  // texels times d, as even in the world as the place is; in a fragment
                          // gl_FragCoord.w is 1/d
};

// x = v·[ X/d + u·(1/s + Δ(ρ, h) − 1/d) ], kept homogeneous.
//
// The blur is the radius of the disc, signed, that the whole opening would make of a surface, were it
// everywhere as it is about this sample: with x = v·u·(w + a·ρ²) a small cell at zone ρ is imaged
// w + 2·a·ρ² times its size, the mean of what it is along and across the zone.
Landing landing(vec3 point_m, LensSample through) {
    vec3 from_lens = point_m - lens_position.xyz;
    float depth_m = dot(from_lens, forward.xyz);
    vec2 lateral_m = vec2(dot(from_lens, right.xyz), dot(from_lens, up.xyz));

    float inverse_depth = 1.0 / max(depth_m, lens.w);
    float image_height = length(lateral_m) * lens.x * defects.z * inverse_depth;
    float zone = defects.x * dot(through.pupil, through.pupil);
    float vergence = lens.y + zone + defects.y * min(image_height * image_height, defects.w);
    float blur_by_depth = lens.x * lens.z * texel.z * ((vergence + zone) * depth_m - 1.0);
    // What is spread afterwards is drawn in by as much before, so that discs keep their size.
    vec2 pupil = through.pupil * sqrt(1.0 - spread_share(abs(blur_by_depth) * inverse_depth) * through.drawn_in);
    vec2 image_m = lens.x * (lateral_m + pupil * lens.z * (depth_m * vergence - 1.0));

    vec2 clip = image_m * crop.xy + (crop.zw + through.jitter * texel.xy) * depth_m;
    return Landing(vec4(clip, lens.w, depth_m), blur_by_depth);
}
