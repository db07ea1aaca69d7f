#pragma once

// A group begun from nothing: what is typed about each of the people who will come, and what comes
// of it, a scene like any other with the reasons for it.

#include "arranging/arrange.h"
#include "scene/scene.h"

#include "base/length_words.h"
#include "base/problem.h"

#include <optional>
#include <string>
#include <vector>

namespace backrow::rehearsal {

enum class Bearing { as_arranged, seated, kneeling, carried };

/// Somebody as far as known, as it was typed; everything may be empty.
struct TypedGuest {
    std::string name{};
    std::string age{};     ///< "71"
    std::string height{};  ///< "1.82", "182 cm", "6 ft 2"
    std::string family{};  ///< Whatever its members share.
    std::string with{};    ///< The name of whom they stay beside.
    Bearing bearing = Bearing::as_arranged;
    std::string carried_by{};  ///< A name; of account where they are carried.
    bool is_celebrated = false;
};

/// What the rows behind the first stand on.
enum class Footing { ground, steps, high_steps };

struct NewGroup {
    std::vector<TypedGuest> guests;
    Footing footing = Footing::ground;
    std::optional<double> focal_length_mm{};  ///< None: as goes with the group's size.
    std::optional<double> f_number{};         ///< None: the widest at which every eye is crisp.
    std::optional<scene::Orientation> orientation{};
    scene::Use use = scene::Use::album;
    Units units = Units::metric;  ///< Of the reasons, and of bare numbers for heights.
};

struct BegunGroup {
    std::string text;  ///< Of a scene file, for EditedScene::begin().
    std::vector<arranging::Choice> choices;
    std::vector<std::string> cautions;
};

/// Whoever has no name gets one of our list.
///
/// errors  what was typed that is no age or height, two of one name, nobody of the name that
///         somebody stays beside or is carried by, and whatever arrange() refuses; Place::file says
///         of whom, line 0
[[nodiscard]] Checked<BegunGroup> begin_group(const NewGroup& group);

/// A path of a file that is not there yet: "FOLDER/group.toml", "FOLDER/group 2.toml" …
[[nodiscard]] std::string free_scene_path(const std::string& folder);

}  // namespace backrow::rehearsal
