#pragma once

// A second opinion on the thin lens: rays traced by brute force through the exported model, from
// the numbers of the exported camera, with nothing shared with the renderer.

#include "stage/glb_reading.h"

#include "base/image.h"

#include <glm/vec3.hpp>
#include <nlohmann/json.hpp>

#include <array>
#include <vector>

namespace backrow::command {

/// A triangle in metres, with the light that a flat picture shows at its corners.
struct Triangle {
    std::array<glm::dvec3, 3> corners;
    std::array<glm::dvec3, 3> light;
};

/// Every triangle of the file's nodes. Base colour × vertex colour + emission; no textures.
/// Source: [GLTF2], KHR_materials_emissive_strength.
[[nodiscard]] std::vector<Triangle> triangles_of(const stage::Glb& glb);

/// Triangles sorted into boxes within boxes, so that a ray meets few of them.
class Boxes {
public:
    explicit Boxes(std::vector<Triangle> triangles);
    /// The light of the first triangle along a ray; black where there is none.
    [[nodiscard]] glm::dvec3 light_along(const glm::dvec3& from, const glm::dvec3& way) const;

private:
    struct Box {
        glm::dvec3 low, high;
        std::size_t first = 0, count = 0;  ///< Triangles, where it is a leaf …
        std::size_t second_half = 0;       ///< … else its halves: the next box and this one.
    };
    void build(std::size_t first, std::size_t count);

    std::vector<Triangle> triangles_;
    std::vector<Box> boxes_;
};

struct Pixel {
    int x, y;
};

/// The light that the camera of a camera JSON gathers in some pixels, rays spread over pixel and
/// lens.
[[nodiscard]] std::vector<Rgb> traced(const Boxes& boxes, const nlohmann::json& camera,
                                      const std::vector<Pixel>& pixels, int rays);

}  // namespace backrow::command
