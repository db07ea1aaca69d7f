#pragma once

// The numbers of the page for the client: what `faces` says of everybody in each of a few pictures
// of the scene, for each way of looking at them.

#include "plan/comparing/strip.h"
#include "plan/faces/face_table.h"
#include "scene/scene.h"
#include "scene/words.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace backrow::papers {

/// What becomes another from picture to picture.
enum class Leafing { apertures, distances, lenses };

/// The faces of each picture as they are judged where it is looked at so.
struct WayOfLooking {
    std::optional<scene::Use> use;  ///< None: in a size of the scene's own.
    scene::Viewing viewing{};
    std::vector<std::vector<plan::Face>> faces{};  ///< Of everybody, picture by picture.
};

struct ClientFacts {
    scene::Scene scene{};
    Leafing leafing = Leafing::apertures;
    plan::Strip strip{};  ///< Of several places or of several f-numbers; its frames in their order.
    std::vector<WayOfLooking>
        ways{};               ///< On a phone, in an album, on the wall; the scene's own too.
    std::size_t own_way = 0;  ///< That of the scene, among ways.
};

/// strip  of this scene, plan::least_leaves to plan::most_leaves frames
[[nodiscard]] ClientFacts client_facts(const scene::Scene& scene, const plan::Strip& strip,
                                       Leafing leafing);

/// Of the picture of this index.
[[nodiscard]] const plan::StripPlace& place_of(const ClientFacts& facts, std::size_t picture);
[[nodiscard]] double f_number_of(const ClientFacts& facts, std::size_t picture);

/// Whether it is taken as the scene is set.
[[nodiscard]] bool is_as_set(const ClientFacts& facts, std::size_t picture);

}  // namespace backrow::papers
