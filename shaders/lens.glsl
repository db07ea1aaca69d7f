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
                  // 1/half diagonal of the sensor (1/m), h² from which on errors grow no further
    vec4 errors;  // half the astigmatism, coma at the edge of this opening, what all rays have in common
                  // (dioptres), 1 where any of them is not 0
    vec4 colours; // what red and blue are off for a pupil point at the edge (texels), 1 where they are (z)
    vec4 rims;    // radius of the rims, how far off they are in the corner (radii of this opening), 1 where
                  // they cut anything off (z)
    vec4 texel;   // one texel of the crop in clip units (xy), texels in a metre of the image (z),
                  // radius of a cell's image over that of the disc (w)
};

struct LensSample {
    vec2 pupil;      // point of the opening, in its radii
    vec2 jitter;     // place in the texel, −½ … ½
    float drawn_in;  // by what share of its square, where cells are spread
    float cell;      // radius of its own cell, in radii of the opening
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

// x = v·[ X/d + R·p·(1/s − 1/d) + R·ε(p, h) ] (optics/ray_error.h), kept homogeneous.
//
// The blur is the radius of the disc, signed, that the whole opening would make of a surface, were it
// everywhere as it is about this sample: with x = v·u·(w + a·ρ²) a small cell at zone ρ is imaged
// w + 2·a·ρ² times its size, the mean of what it is along and across the zone; of coma likewise.
Landing landing(vec3 point_m, LensSample through) {
    vec3 from_lens = point_m - lens_position.xyz;
    float depth_m = dot(from_lens, forward.xyz);
    vec2 lateral_m = vec2(dot(from_lens, right.xyz), dot(from_lens, up.xyz));

    float inverse_depth = 1.0 / max(depth_m, lens.w);
    float image_height = length(lateral_m) * lens.x * defects.z * inverse_depth;
    float zone = defects.x * dot(through.pupil, through.pupil);
    float height_squared = min(image_height * image_height, defects.w);
    float vergence = lens.y + zone + defects.y * height_squared;
    float coma = 0.0;
    vec2 height = vec2(0.0);
    if (errors.w > 0.0) {
        height = lateral_m * (lens.x * defects.z * inverse_depth);
        height *= min(1.0, sqrt(defects.w) / max(image_height, 1e-9));
        vergence += errors.z;
        coma = 2.0 * errors.y * dot(height, through.pupil);
    }
    float blur_by_depth = lens.x * lens.z * texel.z * ((vergence + zone + 2.0 * coma) * depth_m - 1.0);
    // What is spread afterwards is drawn in by as much before, so that discs keep their size.
    vec2 pupil = through.pupil * sqrt(1.0 - spread_share(abs(blur_by_depth) * inverse_depth) * through.drawn_in);
    vec2 image_m = lens.x * (lateral_m + pupil * lens.z * (depth_m * vergence - 1.0));
    if (errors.w > 0.0)
        image_m += lens.x * lens.z * depth_m *
                   ((coma - errors.x * height_squared) * pupil +
                    (2.0 * errors.x * dot(height, pupil) + errors.y * dot(pupil, pupil)) * height);

    vec2 clip = image_m * crop.xy + (crop.zw + through.jitter * texel.xy) * depth_m;
    return Landing(vec4(clip, lens.w, depth_m), blur_by_depth);
}

// The share of a cell that lies within an edge so far from its middle, in its radii.
float share_within(float distance) {
    float t = clamp(distance, -1.0, 1.0);
    return 0.5 + (t * sqrt(1.0 - t * t) + asin(t)) / 3.14159265;
}

// What the rims leave of the cell of a lens point (optics/light_loss.h), at a place of the window. The
// place is the texel's own: a rim behind the opening cuts what goes there, wherever it came from.
// render/passes/arriving_light.cpp has the same.
float rim_share(vec2 window, LensSample through) {
    if (rims.z == 0.0)
        return 1.0;
    vec2 image_m = (vec2(window.x, -window.y) * texel.xy + vec2(-1.0, 1.0) - crop.zw) / crop.xy;
    float off_axis = length(image_m);
    float rim_off = rims.y * min(off_axis * defects.z, sqrt(defects.w));
    vec2 outwards = image_m / max(off_axis, 1e-9);
    float along = dot(through.pupil, outwards);
    float across = dot(through.pupil, vec2(-outwards.y, outwards.x));
    float within = rims.x - length(vec2(abs(along) + rim_off, across));
    return share_within(within / through.cell);
}

// How far off its own colour's picture is, through a point of the lens, texels across and up.
vec2 colour_shift(int channel, LensSample through) {
    return through.pupil * (channel == 0 ? colours.x : channel == 2 ? colours.y : 0.0);
}
