#include "render/passes/arriving_light.h"

#include "optics/lens/light_loss.h"

#include <cmath>
#include <vector>

namespace backrow::render {
namespace {

/// Along each side: what is straight between them is within a thousandth.
constexpr int nodes = 65;

Texture texture_of(const Gl& gl, const std::vector<float>& shares, int side) {
    Texture texture = make_texture(gl, GL_R32F, side, side, GL_LINEAR, "arriving light");
    glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
    glTextureSubImage2D(texture.name(), 0, 0, 0, side, side, GL_RED, GL_FLOAT, shares.data());
    return texture;
}

}  // namespace

Texture arriving_light(const Gl& gl, const scene::CameraView& view, const CropRect& crop) {
    const optics::LensProfile& profile = view.lens.profile;
    if (profile.vignetting == 0 && profile.natural_falloff == 0)
        return all_light(gl);
    const optics::Lens lens = view.focused();
    std::vector<float> shares;
    for (int row = 0; row < nodes; ++row)
        for (int column = 0; column < nodes; ++column) {
            const double x_px = crop.left_px + crop.width_px * column / (nodes - 1);
            const double y_px = crop.top_px + crop.height_px * row / (nodes - 1);
            const double off_px =
                std::hypot(x_px - view.width_px / 2.0, y_px - view.height_px / 2.0);
            shares.push_back(static_cast<float>(
                optics::light_share(lens, off_px / view.px_per_mm() / lens.half_diagonal_mm())));
        }
    return texture_of(gl, shares, nodes);
}

Texture all_light(const Gl& gl) {
    return texture_of(gl, {1.0f}, 1);
}

}  // namespace backrow::render
