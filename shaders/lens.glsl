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
                  // or the rims cut
    vec4 colours; // what red and blue are off for a pupil point at the edge (texels), 1 where they are (z)
    vec4 rims;    // 1 where the rims cut anything off of the opening (x)
    vec4 texel;   // one texel of the crop in clip units (xy), texels in a metre of the image (z),
                  // radius of a cell's image over that of the disc (w)
};

// Whether more is to be worked out of the lens than spherical aberration and field curvature. A software
// rasteriser works out both sides of every branch, at every vertex, so surfaces seen through a simple lens
// have programs of their own (driver/view_uniforms.h).
#ifdef SIMPLE_LENS
const bool is_simple = true;
#else
bool is_simple = errors.w == 0.0;
#endif

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

// By height of the image and place in the opening, both from 0 on: what is left open of the opening, filled
// as evenly (render/driver/open_points.h).
layout(binding = 7) uniform sampler2D open_points;

struct OpenPoint {
    vec2 pupil;
    float size;  // of a cell there, of what it is in the whole opening
};

// Beyond the corner errors grow no further.
vec2 counted_height(vec2 height) { return height * min(1.0, sqrt(defects.w) / max(length(height), 1e-9)); }

// A point of the opening brought to where the rims leave it open for this height of the image.
OpenPoint open_point(vec2 pupil, vec2 height) {
    if (rims.x == 0.0)
        return OpenPoint(pupil, 1.0);
    float off = length(height);
    vec2 outwards = off > 1e-6 ? height / off : vec2(1.0, 0.0);
    vec2 inside = vec2(dot(pupil, outwards), dot(pupil, vec2(-outwards.y, outwards.x)));
    vec2 nodes = vec2(textureSize(open_points, 0));
    vec2 place = vec2(min(abs(inside.x), 1.0), off / sqrt(defects.w));
    vec3 open = textureLod(open_points, (place * (nodes - 1.0) + 0.5) / nodes, 0.0).xyz;
    vec2 moved = inside * open.xy;
    return OpenPoint(moved.x * outwards + moved.y * vec2(-outwards.y, outwards.x), open.z);
}

struct Landing {
    vec4 clip;          // w = d, so a triangle stays a triangle; depth = nearest/d
    float blur_by_depth;  // texels times d, as even in the world as the place is; in a fragment
                          // gl_FragCoord.w is 1/d
    vec2 pupil;           // the point of the opening that it went through
};

// x = v·[ X/d + R·p·(1/s − 1/d) + R·ε(p, h) ] (optics/lens/ray_error.h), kept homogeneous.
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
    float height_squared = min(image_height * image_height, defects.w);
    vec2 height = vec2(0.0);
    OpenPoint open = OpenPoint(through.pupil, 1.0);
    if (!is_simple) {
        height = counted_height(lateral_m * (lens.x * defects.z * inverse_depth));
        open = open_point(through.pupil, height);
    }
    float zone = defects.x * dot(open.pupil, open.pupil);
    float vergence = lens.y + zone + defects.y * height_squared + errors.z;
    float coma = 2.0 * errors.y * dot(height, open.pupil);
    float blur_by_depth =
        lens.x * lens.z * texel.z * open.size * ((vergence + zone + 2.0 * coma) * depth_m - 1.0);
    // What is spread afterwards is drawn in by as much before, so that discs keep their size.
    vec2 pupil = open.pupil * sqrt(1.0 - spread_share(abs(blur_by_depth) * inverse_depth) * through.drawn_in);
    vec2 image_m = lens.x * (lateral_m + pupil * lens.z * (depth_m * vergence - 1.0));
    if (!is_simple)
        image_m += lens.x * lens.z * depth_m *
                   ((coma - errors.x * height_squared) * pupil +
                    (2.0 * errors.x * dot(height, pupil) + errors.y * dot(pupil, pupil)) * height);

    vec2 clip = image_m * crop.xy + (crop.zw + through.jitter * texel.xy) * depth_m;
    return Landing(vec4(clip, lens.w, depth_m), blur_by_depth, open.pupil);
}

// Where in the window a place of the picture lies: the height of its image, 1 in the corner.
vec2 height_at(vec2 window) {
    vec2 clip = vec2(window.x, -window.y) * texel.xy + vec2(-1.0, 1.0);
    return counted_height((clip - crop.zw) / crop.xy * defects.z);
}

// How far off its own colour's picture is, through a point of the lens that is open, texels across and up.
vec2 colour_shift(int channel, vec2 pupil) {
    return pupil * (channel == 0 ? colours.x : channel == 2 ? colours.y : 0.0);
}
