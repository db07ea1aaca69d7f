#pragma once

// The picture itself: passes through many points of the lens, added up in linear light.

#include "render/driver/gl.h"
#include "render/driver/view_uniforms.h"
#include "render/light/lighting.h"
#include "render/passes/cell_sums.h"
#include "render/passes/crop_rect.h"
#include "render/passes/crop_triangles.h"
#include "render/passes/lens_samples.h"
#include "render/studio/stage_on_gpu.h"

#include "base/image.h"
#include "base/problem.h"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace backrow::render {

/// What passes draw with: surfaces, whose vertices know their light, and small lights.
struct PassPrograms {
    Program plain;
    Program detailed;       ///< Times a texture at every pixel.
    Program mean_detailed;  ///< Times its mean about each vertex.
    Program textured;       ///< Times a texture, but for highlights and glow.
    Program highlight;

    [[nodiscard]] static Made<PassPrograms> make(const Gl& gl,
                                                 const std::vector<std::string>& defines);
};

/// The programs every picture needs, compiled once a context.
struct PicturePrograms {
    PassPrograms through_simple_lens;  ///< is_simple()
    PassPrograms through_any_lens;
    SumPrograms sums;

    [[nodiscard]] static Made<PicturePrograms> make(const Gl& gl, Look look);
};

/// Everything a context needs to make pictures of one stage.
struct Studio {
    const Gl& gl;
    const PicturePrograms& programs;
    const StageOnGpu& stage;
    const Lighting& lighting;
    float light_gain =
        1.0f;  ///< What the sensor makes of the light: 1 as metered, 2 a stop over; > 0.
    CoarseTriangles* coarse = nullptr;  ///< Where given, pictures are quick rather than fine.
};

/// What one pass saw, for others to be drawn in front of and behind.
struct KeptPass {
    Texture colour;
    Texture depth;
};

/// One crop of the picture, growing better pass by pass. Draws only into its own framebuffers. What
/// the studio names must outlive it.
class Accumulation {
public:
    Accumulation(const Studio& studio, const scene::CameraView& view, const CropRect& crop,
                 const LensSamples& samples, const PartChoice& choice = {});

    /// Draws up to this many further passes; fewer at the end, or where the picture is good enough
    /// for its samples (LensSamples::looks).
    void add(int passes);
    /// Draws the next pass, adds nothing up and gives back what it saw, without the lights.
    [[nodiscard]] KeptPass keep_next();
    /// Draws the next pass over one of the same crop and samples that was kept.
    void add_over(const KeptPass& kept);
    [[nodiscard]] int samples() const noexcept { return done_; }
    [[nodiscard]] int samples_wanted() const noexcept { return wanted_; }
    [[nodiscard]] bool complete() const noexcept { return done_ == wanted_ || is_good_; }

    /// The mean of the passes so far, spread by the cells of the lens that they stand for, linear
    /// light times the gain. At least one pass must have been added.
    [[nodiscard]] Image<Rgb> linear() const;
    /// The same, toned and sRGB encoded.
    [[nodiscard]] Image<Rgb8> developed() const;

private:
    void begin_pass();
    void clear_pass();
    void finish_pass();
    void draw_surfaces(int pass);
    void copy_pass(const Texture& colour, const Texture& depth, const Texture& to_colour,
                   const Texture& to_depth) const;
    void add_highlights(int pass);
    void look();
    void note_seen();

    Studio studio_;
    const PassPrograms& programs_;
    CropRect crop_;
    LensSamples samples_;
    ViewUniforms uniforms_;
    CropTriangles triangles_;
    Texture arriving_;
    CellSums sums_;
    float blur_of_nothing_texels_ = 0;
    int wanted_ = 0;
    bool parts_colours_ = false;  ///< Whether the lens does.
    int done_ = 0;
    bool is_good_ = false;
    /// While the first passes note which triangles they see.
    struct Seen {
        Texture triangles;
        Framebuffer target;
        std::vector<std::uint8_t> seen;
    };
    std::optional<Seen> seen_;
    Image<Rgb8> looked_at_;  ///< The picture at the last look …
    int samples_then_ = 0;   ///< … and of how many passes.
};

}  // namespace backrow::render
