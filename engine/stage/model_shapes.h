#pragma once

// The shapes of a scene's models, for whoever asks what stands before a face and draws nothing.

#include "scene/model_shape.h"
#include "scene/scene.h"

#include "base/problem.h"

#include <map>
#include <memory>
#include <string>

namespace backrow::stage {

/// Files that were read before are not read again.
class ModelShapes {
public:
    /// Gives every model of the scene its shape. Reading a file can take seconds; turning, scaling
    /// and moving a model need no new reading. Models whose files cannot be read go without.
    ///
    /// returns  what is wrong with the first file that cannot be read, where the scene names it
    Checked<void> give(scene::Scene& scene);

private:
    std::map<std::string, std::shared_ptr<const scene::ModelShape>> shapes_;
};

}  // namespace backrow::stage
