#pragma once

// What hands do to several people at once, as handling.h has it for one: rows led, lined up, spaced
// and raised, places changed.

#include "rehearsal/hands/handling.h"

#include "scene/camera_view.h"
#include "scene/scene.h"

#include <cstddef>
#include <span>

namespace backrow::rehearsal {

/// Several people by one step. A row of which everybody is among them goes back as a row: its own
/// key changes, and who stands before or behind its line goes with it.
///
/// people   indices in Scene::people, each once
[[nodiscard]] Change step(const scene::Scene& scene, std::span<const std::size_t> people,
                          double across_m, double back_m);

/// Everybody forward or back until their nearer eye lies in the plane of focus as it is now, to the
/// centimetre: what straightens a line before the lens is stopped down. Bodies are not asked
/// whether there is room.
///
/// view     camera_view() of this scene; where it looks along the ground
/// people   indices in Scene::people, each once
[[nodiscard]] Change line_up(const scene::Scene& scene, const scene::CameraView& view,
                             std::span<const std::size_t> people);

/// Two people take each other's places, in rows or alone, with whatever steps those places had;
/// what is in focus goes with whoever it is. person ≠ other.
[[nodiscard]] Change change_places(const scene::Scene& scene, std::size_t person,
                                   std::size_t other);

/// A row's people closer together or further apart, centre to centre; centimetres.
///
/// row  as Person::row, ≥ 0
[[nodiscard]] Change space_row(int row, double spacing_m);
/// A row on another step.
[[nodiscard]] Change raise_row(int row, double up_m);
/// A row half a place aside, or no more.
[[nodiscard]] Change stagger_row(int row, bool staggered);
/// How far the people of a row stand from each other before anybody steps aside; 0 for a single
/// one.
[[nodiscard]] double row_spacing_m(const scene::Scene& scene, int row);

}  // namespace backrow::rehearsal
