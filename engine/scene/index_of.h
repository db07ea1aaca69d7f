#pragma once

// Who is meant by a name.

#include "scene/scene.h"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string_view>

namespace backrow::scene {

/// In Scene::people; nothing where nobody is called so.
[[nodiscard]] inline std::optional<std::size_t> index_of(const Scene& scene,
                                                         std::string_view name) {
    const auto found = std::ranges::find(scene.people, name, &Person::name);
    if (found == scene.people.end())
        return std::nullopt;
    return static_cast<std::size_t>(found - scene.people.begin());
}

}  // namespace backrow::scene
