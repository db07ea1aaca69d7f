#pragma once

// Values as --set takes them by which people come into a scene, leave it, and move between rows.
// The order of the values counts.

#include "scene/scene.h"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace backrow::scene {

/// How many rows there are, from 0 up to the last in which somebody stands.
[[nodiscard]] int row_count(const Scene& scene);

/// Who stands in a row, from picture left to right.
[[nodiscard]] std::vector<std::string> names_in_row(const Scene& scene, int row);

/// "row.1.people=["Bram", "Odile"]": exactly these stand in it. The row after the last one is made
/// by this; one in which nobody is left goes.
[[nodiscard]] std::string set_row(int row, const std::vector<std::string>& names);

/// A newcomer.
///
/// name   of nobody who is there
/// row    0 … row_count(scene); the last makes a row, on the ground at the mark
/// place  in front of whom in the row, counted from picture left; those beyond its end are its end
[[nodiscard]] std::vector<std::string> set_coming(const Scene& scene, std::string_view name,
                                                  int row, std::size_t place);
/// A newcomer who stands alone, counted from the mark.
[[nodiscard]] std::vector<std::string> set_coming_alone(std::string_view name, double across_m,
                                                        double back_m);

/// Out of the picture; a child that they carried stays, in their place in the row.
[[nodiscard]] std::string set_leaving(std::string_view name);

/// Another name, wherever the scene says it.
[[nodiscard]] std::string set_renamed(std::string_view name, std::string_view now);

/// Somebody to another row, or to another place in theirs; steps aside are taken back, and whoever
/// was carried is put down.
///
/// person  index in Scene::people
/// place   among those who stand there without this person
[[nodiscard]] std::vector<std::string> set_moved(const Scene& scene, std::size_t person, int row,
                                                 std::size_t place);

/// Somebody out of their row to a place of their own on the ground, counted from the mark.
[[nodiscard]] std::vector<std::string> set_moved_out(const Scene& scene, std::size_t person,
                                                     double across_m, double back_m);

}  // namespace backrow::scene
