#include "render/driver/open_points.h"

#include "optics/lens/light_loss.h"

#include <glm/vec4.hpp>

#include <algorithm>
#include <cmath>
#include <vector>

namespace backrow::render {
namespace {

/// Straight between them, points are within some ten-thousandths of the opening's radius.
constexpr int heights = 65;
constexpr int places = 65;

const double farthest_height = std::sqrt(optics::most_image_height_squared);

}  // namespace

bool rims_cut(const optics::LensSettings& lens) noexcept {
    return lens.profile.vignetting != 0 &&
           optics::vignetted_opening(lens.profile, lens.f_number, farthest_height).is_cut();
}

Texture make_open_points(const Gl& gl, const optics::LensSettings& lens) {
    std::vector<glm::vec4> nodes{{1, 1, 1, 0}};
    int rows = 1, columns = 1;
    if (rims_cut(lens)) {
        nodes.clear();
        rows = heights;
        columns = places;
        for (int row = 0; row < rows; ++row) {
            const auto opening = optics::vignetted_opening(lens.profile, lens.f_number,
                                                           farthest_height * row / (rows - 1));
            const auto size = static_cast<float>(std::sqrt(optics::open_share(opening)));
            for (int column = 0; column < columns; ++column) {
                // The middle moves as what is next to it.
                const double x = std::max(1e-3, static_cast<double>(column) / (columns - 1));
                const Point2 moved = optics::point_left_open(opening, {x, 1});
                nodes.emplace_back(moved.x / x, moved.y, size, 0);
            }
        }
    }
    Texture texture = make_texture(gl, GL_RGBA32F, columns, rows, GL_LINEAR, "open points");
    glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
    glTextureSubImage2D(texture.name(), 0, 0, 0, columns, rows, GL_RGBA, GL_FLOAT, nodes.data());
    return texture;
}

}  // namespace backrow::render
