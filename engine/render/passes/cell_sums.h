#pragma once

// What passes through single points of the lens are added up in, each as the cell of the opening
// that it stands for (shaders/add_pass.glsl, shaders/cells.glsl): what is sharp by itself, what is
// blurred by itself and spread by the cells.

#include "render/driver/gl.h"

#include "base/colour.h"
#include "base/image.h"
#include "base/problem.h"

#include <string>
#include <vector>

namespace backrow::render {

/// Compiled once a context.
struct SumPrograms {
    Program add;  ///< Of a graphics card a compute program.
    Program spread_across;
    Program linear;
    Program develop;

    /// defines  of the look
    [[nodiscard]] static Made<SumPrograms> make(const Gl& gl,
                                                const std::vector<std::string>& defines);
};

class CellSums {
public:
    /// has_lights  whether small lights have a sum of their own
    CellSums(const Gl& gl, int width_texels, int height_texels, bool has_lights);

    [[nodiscard]] const Texture& pass_colour() const noexcept { return pass_colour_; }
    [[nodiscard]] const Texture& pass_depth() const noexcept { return pass_depth_; }
    /// A texture like either of them.
    [[nodiscard]] static Texture make_colour(const Gl& gl, int width_texels, int height_texels);
    [[nodiscard]] static Texture make_depth(const Gl& gl, int width_texels, int height_texels);

    /// Makes current what a pass is drawn into: colour and depth, to be written.
    void begin_pass() const;
    /// Adds the pass that was drawn through this one of the samples. The view must be bound
    /// (ViewUniforms).
    void add(const SumPrograms& programs, int sample) const;
    /// Makes current what small lights are drawn into, against the depth of the pass.
    void begin_lights() const;
    /// Forgets every pass.
    void clear() const;

    /// The mean of so many passes, spread, linear light times the gain. Overwrites the first
    /// target. cell_radius  of that many passes (lens_samples.h)
    /// arriving  of them (arriving_light.h)
    [[nodiscard]] Image<Rgb> linear(const SumPrograms& programs, int passes, double cell_radius,
                                    const Texture& arriving, float gain) const;
    /// The same, toned and sRGB encoded.
    [[nodiscard]] Image<Rgb8> developed(const SumPrograms& programs, int passes, double cell_radius,
                                        const Texture& arriving, float gain) const;

private:
    void fill(const Framebuffer& target) const;
    void spread(const SumPrograms& programs, const Program& last, const Framebuffer& target,
                int passes, double cell_radius, const Texture& arriving, float gain) const;

    const Gl* gl_;
    int width_texels_;
    int height_texels_;
    Texture pass_colour_, pass_depth_, sharp_, blurred_, lights_, picture_;
    Framebuffer pass_target_, sum_target_, lights_target_, mean_target_, picture_target_;
    VertexArray no_vertices_;
};

}  // namespace backrow::render
