#include "setting/chance.h"

#include <glm/common.hpp>

#include <algorithm>
#include <numbers>

namespace backrow::setting {
namespace {

float lattice(int x, int y, int z, int layer) noexcept {
    return Chance{layer, x, y, z}.unit();
}

glm::vec3 eased(const glm::vec3& t) noexcept {
    return t * t * (3.0F - 2.0F * t);
}

}  // namespace

glm::vec3 Chance::direction() noexcept {
    const float up = between(-1, 1);
    const float turn = between(0, 2 * std::numbers::pi_v<float>);
    const float level = std::sqrt(std::max(0.0F, 1 - up * up));
    return {level * std::cos(turn), up, level * std::sin(turn)};
}

float noise(const glm::vec3& at, int layer) noexcept {
    const glm::vec3 cell = glm::floor(at);
    const glm::vec3 t = eased(at - cell);
    const int x = static_cast<int>(cell.x);
    const int y = static_cast<int>(cell.y);
    const int z = static_cast<int>(cell.z);
    const auto along_x = [&](int dy, int dz) {
        return glm::mix(lattice(x, y + dy, z + dz, layer), lattice(x + 1, y + dy, z + dz, layer),
                        t.x);
    };
    return glm::mix(glm::mix(along_x(0, 0), along_x(1, 0), t.y),
                    glm::mix(along_x(0, 1), along_x(1, 1), t.y), t.z);
}

float noise(const glm::vec2& at, int layer) noexcept {
    const glm::vec2 cell = glm::floor(at);
    const glm::vec3 t = eased({at - cell, 0});
    const int x = static_cast<int>(cell.x);
    const int y = static_cast<int>(cell.y);
    return glm::mix(glm::mix(lattice(x, y, 0, layer), lattice(x + 1, y, 0, layer), t.x),
                    glm::mix(lattice(x, y + 1, 0, layer), lattice(x + 1, y + 1, 0, layer), t.x),
                    t.y);
}

float rough_noise(const glm::vec2& at, int layer) noexcept {
    return (4 * noise(at, layer) + 2 * noise(2.0F * at, layer + 1) + noise(4.0F * at, layer + 2)) /
           7;
}

float smooth_step(float from, float to, float x) noexcept {
    const float t = std::clamp((x - from) / (to - from), 0.0F, 1.0F);
    return t * t * (3 - 2 * t);
}

}  // namespace backrow::setting
