#pragma once

// What a scene is: who stands where, the camera, the lens, how the picture will be looked at.
//
// A Scene that read_scene() returned has been checked completely; every number in it is finite and
// in range, every name resolves, every file was found. Words and units are those of the scene file.

#include "figures/figure.h"
#include "optics/blur/viewing.h"
#include "optics/lens/lens_profile.h"
#include "setting/surroundings.h"

#include "base/problem.h"

#include <array>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace backrow::scene {

/// A place counted from the mark: across to picture right, up, and back away from the camera.
struct FromMark {
    double across_m = 0;
    double up_m = 0;
    double back_m = 0;

    bool operator==(const FromMark&) const = default;
};

enum class Orientation { landscape, portrait };
/// How bright the picture is shown: as a meter would expose it, or as the settings do.
enum class ShownExposure { metered, as_set };

struct AimAtGroup {};
struct AimAtPerson {
    std::string name;
};
using Aim = std::variant<AimAtGroup, AimAtPerson, FromMark>;

struct Camera {
    std::array<double, 2> sensor_mm{36.0, 24.0};  ///< Width, height as held for landscape.
    std::array<int, 2> pixels{6000, 4000};        ///< Likewise.
    Orientation orientation = Orientation::landscape;
    double focal_length_mm = 85.0;
    double f_number = 2.0;
    double lens_to_mark_m = 6.0;  ///< Key `distance_m`: along the ground.
    double height_m = 1.55;
    double across_m = 0.0;
    Aim aim = AimAtGroup{};
    bool level = false;
    double shutter_s = 0.004;
    double iso = 100;
    double filter_stops = 0;  ///< Light that a grey filter before the lens takes away.
    ShownExposure exposure = ShownExposure::metered;
};

struct FocusOnPerson {
    std::string name;  ///< The nearer eye of this person.
};
struct FocusBalanced {};
struct FocusAtDistance {
    double axial_m = 0;  ///< Key `distance_m`.
};
/// FromMark: key `point` = [across, up, back].
using Focus = std::variant<FocusOnPerson, FocusBalanced, FocusAtDistance, FromMark>;

/// At which opening the camera finds the focus on a person or a point: a lens with spherical
/// aberration shifts it on stopping down from the widest.
enum class FocusFoundAt { working, wide_open };

struct Lens {
    std::optional<optics::LensProfile> profile;  ///< None: a perfect thin lens.
    std::string profile_file{};                  ///< As the scene names it; empty for none.
    int blades = 0;                              ///< 0: a round opening; else 5 … 20.
};

/// What earns a grade: all that softens a face in the picture, or the blur of defocus and lens
/// alone.
enum class Judge { sharpness, blur };

/// Judged pixel by pixel rather than as a print.
struct PixelViewing {};
using Viewing = std::variant<optics::PrintViewing, PixelViewing>;

/// What somebody looks at.
struct GazeAtCamera {
    bool operator==(const GazeAtCamera&) const = default;
};
struct GazeAhead {
    bool operator==(const GazeAhead&) const = default;
};
struct GazeAtPerson {
    std::string name;
    Place named_at{};  ///< Where the scene names them; makes no difference to the gaze.

    bool operator==(const GazeAtPerson& other) const { return name == other.name; }
};
using Gaze = std::variant<GazeAtCamera, GazeAhead, GazeAtPerson, FromMark>;

/// Whom somebody belongs to: arranging goes by it, and no picture depends on it. The family is in
/// the styling, for it has looks in common.
struct Company {
    std::vector<std::string> with{};  ///< Names of those who stay beside this person.
    bool pinned = false;              ///< Keeps the place when the group is arranged again.
    bool celebrated = false;          ///< Whom the picture is about: in the middle.

    bool operator==(const Company&) const = default;
};

/// One person where they finally stand: row places and offsets already added up. Whoever is carried
/// stands where the carrier does. What hands lie on, how high a step is and where a carried child
/// sits follow from the others' places (settle.h).
struct Person {
    std::string name;
    FromMark place;
    figures::BodyMeasures measures;
    figures::Pose pose;
    figures::Styling styling{};
    Gaze gaze = GazeAtCamera{};
    double speed_mps = 0;
    double heading_deg = 0;
    int row = -1;      ///< Which [[row]], counted from 0; −1 for a person placed alone.
    int carrier = -1;  ///< Index of whoever carries them; −1 for whoever uses their own feet.
    FromMark own{};    ///< What this [[person]] adds to its row's place; part of place already.
    Company company{};

    bool operator==(const Person&) const = default;
};

struct Setting {
    setting::Ground ground = setting::Ground::grass;
    std::vector<setting::Backdrop> backdrops;
    std::string panorama{};  ///< A picture file in place of the built sky; empty for none.
    double panorama_turn_deg = 0;
    Place panorama_at{};  ///< Where the scene names it.

    bool operator==(const Setting&) const = default;
};

struct ModelShape;  // model_shape.h

/// What a model's file was found to hold, once somebody has read it (stage/model_shapes.h): goes
/// with the file's name and makes no difference to what a scene says.
struct ReadModel {
    std::shared_ptr<const ModelShape> shape{};

    bool operator==(const ReadModel&) const { return true; }
};

struct Model {
    std::string file;  ///< As found: relative paths start at the scene file's folder.
    FromMark place;
    double scale = 1.0;
    double turn_deg = 0.0;
    Place named_at{};  ///< Where the scene names the file, for what is found wrong with it later.
    ReadModel read{};

    bool operator==(const Model&) const = default;
};

/// What can go wrong in a frame; standard deviations unless said otherwise. The sways have the
/// ratio of those in [SANTOS2016], 2.57 to 4.23 mm; engine/README.md says more.
struct Odds {
    double sway_mm = 6.0;           ///< Standing people, forward and back, at the head.
    double sideways_sway_mm = 3.6;  ///< Likewise, from side to side.
    double camera_sway_mm = 8.0;    ///< The photographer, along the optical axis.
    double autofocus_mm = 0.0;      ///< Where the focus lands, at the subject.
    double recompose_deg = 0.0;     ///< Turned between locking the focus and the exposure.
    double line_up_mm = 0.0;        ///< How well people stand where they should.
    double delay_s = 0.0;           ///< From locking the focus until the shutter opens.
    double blinks_per_min = 15.0;
    double blink_s = 0.25;

    bool operator==(const Odds&) const = default;
};

/// Under the open sky, or in a room with one window, outside of the picture.
enum class LightKind { open, window };

/// An upright window that faces the mark.
struct WindowPlace {
    double azimuth_deg = 290.0;  ///< As the sun's: 0 behind the camera's back, 270 at picture left.
    double distance_m = 3.0;     ///< From the mark, along the ground.
    double width_m = 2.0;
    double height_m = 1.8;
    double sill_m = 0.8;  ///< Its lower edge above the ground at the mark.

    bool operator==(const WindowPlace&) const = default;
};

struct Light {
    LightKind kind = LightKind::open;
    double scene_ev100 = 12.0;
    double sun_elevation_deg = 35.0;
    double sun_azimuth_deg = 140.0;
    WindowPlace window;

    bool operator==(const Light&) const = default;
};

struct Scene {
    std::string title;
    Camera camera;
    Focus focus;  ///< Without [focus]: the middle person of the front row.
    FocusFoundAt focus_found_at = FocusFoundAt::working;
    Lens lens;
    Viewing viewing = optics::album_viewing;
    Judge judge = Judge::sharpness;
    std::vector<Person> people;  ///< Rows in order, then people placed alone; never empty.
    Setting setting;
    std::vector<Model> models;
    Odds odds;
    Light light;
};

}  // namespace backrow::scene
