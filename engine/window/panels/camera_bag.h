#pragma once

// What is carried, and where the camera has stood: for the panel of the camera.

#include "rehearsal/files/kept_camera_places.h"
#include "scene_file/reading/bag_file.h"
#include "scene_file/reading/lens_profile_file.h"

#include <string>
#include <vector>

namespace backrow::window {

/// One of the program's own lenses.
struct OwnLens {
    std::string named;  ///< As a scene does; empty: a perfect one.
    std::string name;   ///< As the list shows it.
    scene_file::NamedLensProfile lens{};
};

struct CameraBag {
    scene_file::Bag bag;
    /// The perfect one, and that of whoever has not measured theirs, first.
    std::vector<OwnLens> own_lenses{};
    std::string file;  ///< Empty where there is no folder for one.

    /// Reads it; the usual one, and a line of what is wrong, where the file cannot be read.
    [[nodiscard]] std::string open();
    /// What the lens on the camera does to pictures, by the name of its faults.
    [[nodiscard]] std::string faults_of(const scene::Scene& scene) const;
    /// What is mounted goes into it, and into its file. A line of what went wrong, or nothing.
    [[nodiscard]] std::string take(const scene::Scene& scene);
};

/// A place of the camera that is kept, and how the group would do from there.
struct KeptPlace {
    rehearsal::CameraPlace place;
    std::string standing{};  ///< Of this edition of the scene.
};

struct KeptPlaces {
    std::vector<KeptPlace> places{};
    int edition = -1;  ///< Of which the standings are.

    /// Those that were kept of this scene when it was open last.
    void open(const rehearsal::EditedScene& edited);
    /// For the next time.
    void keep(const rehearsal::EditedScene& edited) const;
};

}  // namespace backrow::window
