#include "ray_tracer.h"

#include <glm/common.hpp>
#include <glm/ext/matrix_double4x4.hpp>
#include <glm/geometric.hpp>

#include <algorithm>
#include <cmath>
#include <future>
#include <limits>
#include <numbers>
#include <random>
#include <span>
#include <thread>

namespace backrow::command {
namespace {

using nlohmann::json;

constexpr double endless = std::numeric_limits<double>::infinity();

glm::dvec3 triple(const json& list) {
    return {list[0], list[1], list[2]};
}

glm::dmat4 matrix_of(const json& node) {
    glm::dmat4 matrix{1};
    if (node.contains("matrix"))
        for (int i = 0; i < 16; ++i)
            matrix[i / 4][i % 4] = node["matrix"][static_cast<std::size_t>(i)];
    return matrix;
}

struct Surface {
    glm::dvec3 base{1};
    glm::dvec3 emission{0};
};

Surface surface_of(const json& material) {
    Surface surface;
    surface.base = triple(material["pbrMetallicRoughness"]["baseColorFactor"]);
    if (material.contains("emissiveFactor"))
        surface.emission = triple(material["emissiveFactor"]);
    if (material.contains("extensions") &&
        material["extensions"].contains("KHR_materials_emissive_strength"))
        surface.emission *=
            material["extensions"]["KHR_materials_emissive_strength"]["emissiveStrength"]
                .get<double>();
    return surface;
}

void add_primitive(const stage::Glb& glb, const json& primitive, const glm::dmat4& world,
                   std::vector<Triangle>& triangles) {
    const json& attributes = primitive["attributes"];
    const auto positions =
        stage::numbers_of<float>(glb, attributes["POSITION"].get<std::size_t>(), 3);
    const auto colours =
        stage::numbers_of<std::uint16_t>(glb, attributes["COLOR_0"].get<std::size_t>(), 4);
    const auto indices = stage::indices_of(glb, primitive["indices"].get<std::size_t>());
    const Surface surface =
        surface_of(glb.json["materials"][primitive["material"].get<std::size_t>()]);
    for (std::size_t i = 0; i + 2 < indices.size(); i += 3) {
        Triangle triangle;
        for (std::size_t corner = 0; corner < 3; ++corner) {
            const std::size_t v = indices[i + corner];
            const glm::dvec4 place{positions[3 * v], positions[3 * v + 1], positions[3 * v + 2], 1};
            const glm::dvec3 colour{colours[4 * v], colours[4 * v + 1], colours[4 * v + 2]};
            triangle.corners[corner] = glm::dvec3{world * place};
            triangle.light[corner] = surface.base * colour / 65535.0 + surface.emission;
        }
        triangles.push_back(triangle);
    }
}

struct Hit {
    double along = endless;
    glm::dvec3 light{0};
};

void meet(const Triangle& triangle, const glm::dvec3& from, const glm::dvec3& way, Hit& nearest) {
    const auto& [a, b, c] = triangle.corners;
    const glm::dvec3 ab = b - a, ac = c - a, to = from - a;
    const glm::dvec3 across = glm::cross(way, ac);
    const double volume = glm::dot(ab, across);
    if (volume == 0)
        return;
    const double u = glm::dot(to, across) / volume;
    const glm::dvec3 other = glm::cross(to, ab);
    const double v = glm::dot(way, other) / volume;
    const double along = glm::dot(ac, other) / volume;
    if (u < 0 || v < 0 || u + v > 1 || along <= 0 || along >= nearest.along)
        return;
    nearest = {along,
               (1 - u - v) * triangle.light[0] + u * triangle.light[1] + v * triangle.light[2]};
}

// Where a ray enters a box, or endless where it misses it.
double entered(const glm::dvec3& low, const glm::dvec3& high, const glm::dvec3& from,
               const glm::dvec3& per_way) {
    const glm::dvec3 to_low = (low - from) * per_way;
    const glm::dvec3 to_high = (high - from) * per_way;
    const glm::dvec3 in = glm::min(to_low, to_high), out = glm::max(to_low, to_high);
    const double enters = std::max({in.x, in.y, in.z, 0.0});
    return enters <= std::min({out.x, out.y, out.z}) ? enters : endless;
}

double middle(const Triangle& triangle, int axis) {
    return triangle.corners[0][axis] + triangle.corners[1][axis] + triangle.corners[2][axis];
}

// Rays on a grid over pixel and lens, each shaken within its cell. Each pixel has its own chance,
// so that any order of pixels gives the same.
struct Camera {
    explicit Camera(const json& numbers)
        : position_m{triple(numbers["position"])}, width_px{numbers["width_px"]},
          height_px{numbers["height_px"]} {
        const double f_mm = numbers["focal_length_mm"];
        focus_m = numbers["focus_distance_m"];
        const double v_mm = f_mm * focus_m / (focus_m - f_mm / 1000);
        lens_radius_m = f_mm / numbers["f_number"].get<double>() / 2000;
        forward = glm::normalize(triple(numbers["look_at"]) - position_m);
        right = glm::normalize(glm::cross(forward, triple(numbers["up"])));
        up = glm::cross(right, forward);
        right_per_frame = numbers["sensor_width_mm"].get<double>() / v_mm * focus_m * right;
        up_per_frame = numbers["sensor_height_mm"].get<double>() / v_mm * focus_m * up;
    }

    [[nodiscard]] Rgb gathered(const Boxes& boxes, const Pixel& pixel, int rays) const {
        std::mt19937 random{static_cast<unsigned>(pixel.y * width_px + pixel.x)};
        std::uniform_real_distribution<double> unit{0.0, 1.0};
        const int side = static_cast<int>(std::ceil(std::sqrt(rays)));
        std::vector<int> cells(static_cast<std::size_t>(side) * static_cast<std::size_t>(side));
        for (std::size_t i = 0; i < cells.size(); ++i)
            cells[i] = static_cast<int>(i);
        std::ranges::shuffle(cells, random);
        glm::dvec3 sum{0};
        for (std::size_t i = 0; i < cells.size(); ++i) {
            const int in_pixel = static_cast<int>(i), in_lens = cells[i];
            const double x = pixel.x + (in_pixel % side + unit(random)) / side;
            const double y = pixel.y + (in_pixel / side + unit(random)) / side;
            const glm::dvec3 in_focus = position_m + focus_m * forward +
                                        (x / width_px - 0.5) * right_per_frame +
                                        (0.5 - y / height_px) * up_per_frame;
            const double radius = lens_radius_m * std::sqrt((in_lens % side + unit(random)) / side);
            const double angle = 2 * std::numbers::pi * (in_lens / side + unit(random)) / side;
            const glm::dvec3 from =
                position_m + radius * std::cos(angle) * right + radius * std::sin(angle) * up;
            sum += boxes.light_along(from, in_focus - from);
        }
        sum /= static_cast<double>(cells.size());
        return {static_cast<float>(sum.x), static_cast<float>(sum.y), static_cast<float>(sum.z)};
    }

    glm::dvec3 position_m, forward{}, right{}, up{}, right_per_frame{}, up_per_frame{};
    int width_px, height_px;
    double focus_m = 0, lens_radius_m = 0;
};

}  // namespace

std::vector<Triangle> triangles_of(const stage::Glb& glb) {
    std::vector<Triangle> triangles;
    for (const json& node : glb.json["nodes"])
        if (node.contains("mesh"))
            for (const json& primitive :
                 glb.json["meshes"][node["mesh"].get<std::size_t>()]["primitives"])
                add_primitive(glb, primitive, matrix_of(node), triangles);
    return triangles;
}

Boxes::Boxes(std::vector<Triangle> triangles) : triangles_{std::move(triangles)} {
    build(0, triangles_.size());
}

void Boxes::build(std::size_t first, std::size_t count) {
    constexpr std::size_t most_in_a_leaf = 4;
    const std::span<Triangle> inside{triangles_.data() + first, count};
    Box box{glm::dvec3{endless}, glm::dvec3{-endless}};
    for (const Triangle& triangle : inside)
        for (const glm::dvec3& corner : triangle.corners) {
            box.low = glm::min(box.low, corner);
            box.high = glm::max(box.high, corner);
        }
    const std::size_t here = boxes_.size();
    if (count <= most_in_a_leaf) {
        box.first = first;
        box.count = count;
        boxes_.push_back(box);
        return;
    }
    boxes_.push_back(box);
    const glm::dvec3 size = box.high - box.low;
    const int axis = size.x >= size.y && size.x >= size.z ? 0 : size.y >= size.z ? 1 : 2;
    const std::size_t half = count / 2;
    std::ranges::nth_element(inside, inside.begin() + static_cast<std::ptrdiff_t>(half), {},
                             [axis](const Triangle& triangle) { return middle(triangle, axis); });
    build(first, half);
    boxes_[here].second_half = boxes_.size();
    build(first + half, count - half);
}

glm::dvec3 Boxes::light_along(const glm::dvec3& from, const glm::dvec3& way) const {
    const glm::dvec3 per_way = 1.0 / way;
    Hit nearest;
    std::array<std::size_t, 64> waiting{};
    std::size_t count = 0;
    waiting[count++] = 0;
    while (count > 0) {
        const std::size_t at = waiting[--count];
        const Box& box = boxes_[at];
        if (entered(box.low, box.high, from, per_way) >= nearest.along)
            continue;
        if (box.second_half == 0) {
            for (std::size_t i = 0; i < box.count; ++i)
                meet(triangles_[box.first + i], from, way, nearest);
            continue;
        }
        waiting[count++] = box.second_half;
        waiting[count++] = at + 1;
    }
    return nearest.light;
}

std::vector<Rgb> traced(const Boxes& boxes, const json& numbers, const std::vector<Pixel>& pixels,
                        int rays) {
    const Camera camera{numbers};
    std::vector<Rgb> light(pixels.size());
    const std::size_t threads = std::max(1u, std::thread::hardware_concurrency());
    std::vector<std::future<void>> shares;
    for (std::size_t share = 0; share < threads; ++share)
        shares.push_back(std::async(std::launch::async, [&, share] {
            for (std::size_t i = share; i < pixels.size(); i += threads)
                light[i] = camera.gathered(boxes, pixels[i], rays);
        }));
    for (auto& done : shares)
        done.get();
    return light;
}

}  // namespace backrow::command
