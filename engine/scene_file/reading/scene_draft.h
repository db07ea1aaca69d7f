#pragma once

// A scene while it is being read: what is known so far, and where in the file to point if two
// things that are each right turn out not to fit together.

#include "scene/scene.h"
#include "scene_file/toml/findings.h"
#include "scene_file/toml/table_reader.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace backrow::scene_file {

/// Each the value meant, or the nearest thing that is there: its table, or the start of the file.
struct ScenePlaces {
    Place aim;
    Place f_number;
    Place focus;
    std::vector<Place> people;  ///< One for each of Scene::people.
};

/// Who stays beside somebody, as said of that person.
struct StaysBeside {
    std::size_t person = 0;  ///< Index into Scene::people.
    std::size_t which = 0;   ///< Of their company.
    Place at;
};

/// A name said by one person of another.
struct CarriedBy {
    std::size_t child = 0;  ///< Index into Scene::people.
    std::string name;
    Place at;
};

struct SceneDraft {
    scene::Scene scene;
    ScenePlaces places;
    std::vector<CarriedBy> carried;
    std::vector<StaysBeside> beside;
    bool has_focus = false;           ///< A [focus] was there, right or wrong.
    std::optional<Place> focus_name;  ///< Where a name stands that says whom to focus on …
    std::optional<Place> aim_name;    ///< … or aim at.
};

// Each reads its tables from the root and complains about everything wrong in them.
void read_camera(TableReader& root, SceneDraft& draft);
void read_focus(TableReader& root, SceneDraft& draft);
void read_lens(TableReader& root, SceneDraft& draft, Findings& findings);
void read_viewing(TableReader& root, SceneDraft& draft);
void read_people(TableReader& root, SceneDraft& draft);
void read_surroundings(TableReader& root, SceneDraft& draft, const std::string& scene_file);
void read_odds_and_light(TableReader& root, SceneDraft& draft);

/// Whoever is carried finds who carries them, who must be able to.
void resolve_carriers(SceneDraft& draft, Findings& findings);

/// Names that point at people must find them, and somebody must be there.
void resolve_names(const SceneDraft& draft, Findings& findings);

/// What only shows when everything stands in its place: people behind the camera, a focus that no
/// lens can reach, a camera that looks at itself. Needs a scene whose numbers and names are right.
void check_geometry(const scene::Scene& scene, const ScenePlaces& places, Findings& findings);

/// The people's names, for suggestions.
[[nodiscard]] std::vector<std::string_view> names_of(const std::vector<scene::Person>& people);

/// A path in a scene file starts at the scene file's folder.
[[nodiscard]] std::string beside_scene(const std::string& scene_file, const std::string& path);

}  // namespace backrow::scene_file
