#include "render/passes/arriving_light.h"

#include "optics/light_loss.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

namespace backrow::render {
namespace {

/// Along each side. What is drawn between them is smooth: the rims pass a cell of the finest
/// samples over some nodes, and their mean over all cells changes slower.
constexpr int nodes = 33;

// As rim_share() in lens.glsl has it.
double share_within(double distance) {
    const double t = std::clamp(distance, -1.0, 1.0);
    return 0.5 + (t * std::sqrt(1 - t * t) + std::asin(t)) / std::numbers::pi;
}

double rim_share(const optics::VignettedOpening& opening, const Point2& outwards,
                 const LensSample& sample) {
    const double along = sample.pupil_x * outwards.x + sample.pupil_y * outwards.y;
    const double across = sample.pupil_y * outwards.x - sample.pupil_x * outwards.y;
    const double within =
        opening.rim_radius - std::hypot(std::abs(along) + opening.rim_off, across);
    return share_within(within / sample.cell);
}

Texture texture_of(const Gl& gl, const std::vector<float>& shares, int side) {
    Texture texture = make_texture(gl, GL_R32F, side, side, GL_LINEAR, "arriving light");
    glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
    glTextureSubImage2D(texture.name(), 0, 0, 0, side, side, GL_RED, GL_FLOAT, shares.data());
    return texture;
}

}  // namespace

Texture arriving_light(const Gl& gl, const scene::CameraView& view, const CropRect& crop,
                       const LensSamples& samples, int passes) {
    const optics::LensProfile& profile = view.lens.profile;
    if (profile.vignetting == 0 && profile.natural_falloff == 0)
        return all_light(gl);
    const optics::Lens lens = view.focused();
    std::vector<float> shares;
    for (int row = 0; row < nodes; ++row)
        for (int column = 0; column < nodes; ++column) {
            const double x_px = crop.left_px + crop.width_px * column / (nodes - 1);
            const double y_px = crop.top_px + crop.height_px * row / (nodes - 1);
            const double right_mm = (x_px - view.width_px / 2.0) / view.px_per_mm();
            const double up_mm = (view.height_px / 2.0 - y_px) / view.px_per_mm();
            const double off_mm = std::hypot(right_mm, up_mm);
            const double height = off_mm / lens.half_diagonal_mm();
            const auto opening = optics::vignetted_opening(profile, view.lens.f_number, height);
            double share = optics::light_share(lens, height);
            if (opening.is_cut()) {
                const Point2 outwards{right_mm / off_mm, up_mm / off_mm};
                double counted = 0;
                for (int pass = 0; pass < passes; ++pass)
                    counted += rim_share(opening, outwards,
                                         samples.coarse[static_cast<std::size_t>(pass)]);
                constexpr double least_counted = 1e-3;
                share *= passes / std::max(counted, least_counted);
            }
            shares.push_back(static_cast<float>(share));
        }
    return texture_of(gl, shares, nodes);
}

Texture all_light(const Gl& gl) {
    return texture_of(gl, {1.0f}, 1);
}

}  // namespace backrow::render
