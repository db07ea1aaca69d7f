#include "stage/stage_models.h"

#include "scene/footing.h"
#include "scene_file/reading/read_scene.h"

#include <catch2/catch.hpp>

#include <glm/common.hpp>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <string>

namespace backrow::stage {
namespace {

/// How far the level surfaces of a part come to the top of a block where they lie over it, at the
/// nearest.
double gap_m(const Part& part, const setting::Block& block) {
    double least_m = 1;
    for (std::size_t i = 0; i + 2 < part.mesh.indices.size(); i += 3) {
        glm::dvec3 low{1e9};
        glm::dvec3 high{-1e9};
        for (std::size_t corner = i; corner < i + 3; ++corner) {
            const glm::vec3 at = part.mesh.vertices[part.mesh.indices[corner]].position_m;
            const glm::dvec3 placed{part.world_from_part * glm::dvec4{at, 1}};
            low = glm::min(low, placed);
            high = glm::max(high, placed);
        }
        const bool level = high.y - low.y < 1e-4;
        const bool over = low.x < block.right_m && high.x > block.left_m &&
                          low.z < -block.near_back_m && high.z > -block.far_back_m;
        if (level && over)
            least_m = std::min(least_m, std::abs(high.y - block.top_m));
    }
    return least_m;
}

}  // namespace

// What lies in one plane is drawn as torn patches of both. 3 mm is far more than depth is rounded
// to at the distance of a group.
TEST_CASE("no floor of a model lies in one plane with the risers of its demo scene",
          "[stage][property]") {
    int with_both = 0;
    for (const auto& entry : std::filesystem::directory_iterator{BACKROW_SOURCE_DIR "/scenes"}) {
        if (entry.path().extension() != ".toml")
            continue;
        const auto scene = scene_file::read_scene(entry.path().string());
        REQUIRE(scene);
        Stage stage;
        REQUIRE(add_models(scene->models, stage).empty());
        const auto blocks = scene::blocks_under(scene->people);
        with_both += !blocks.empty() && !scene->models.empty() ? 1 : 0;
        for (const setting::Block& block : blocks)
            for (const Part& part : stage.parts) {
                INFO(entry.path().string() << ", " << part.name << ", block at " << block.top_m);
                CHECK(gap_m(part, block) > 0.003);
            }
    }
    CHECK(with_both > 1);
}

}  // namespace backrow::stage
