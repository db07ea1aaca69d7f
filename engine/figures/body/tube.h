#pragma once

// Cloth and skin round a limb: hoops along a line, each pressed outwards from within until it lies
// on a field. Sleeves, skirts, cuffs, bare arms and legs.

#include "figures/body/loft.h"

#include "shapes/field.h"
#include "shapes/mesh.h"

#include <glm/vec3.hpp>

#include <functional>
#include <span>
#include <vector>

namespace backrow::figures {

/// One hoop of a tube.
struct Hoop {
    glm::dvec3 middle_m{0};      ///< Inside the field.
    glm::dvec3 along{0, -1, 0};  ///< Unit, across the hoop, towards the next one.
    double lift_m = 0;           ///< Off the field, outwards.
    glm::dvec3 colour{0.5};
    double ambient_visibility = 1;
};

/// How far a point of a tube lies off the field, metres, for the hoop's number and the unit
/// direction from its middle.
using Lift = std::function<double(std::size_t hoop, const glm::dvec3& out)>;

/// Where each hoop's first point lies: unit, across the hoop, carried from hoop to hoop so that the
/// tube does not twist where it bends. `front` as for tube().
[[nodiscard]] std::vector<glm::dvec3> carried_along(std::span<const Hoop> hoops,
                                                    const glm::dvec3& front);

/// front     unit, roughly across the first hoop: where its first point lies
/// reach_m   no part of the field is further from the line
[[nodiscard]] Loft tube(const shapes::Field& field, std::span<const Hoop> hoops,
                        const glm::dvec3& front, double reach_m, int columns,
                        const Lift& lift = {});

/// Hoops along two straight stretches with a rounded bend between them, the bend itself included.
/// limb_radius_m   how thick the limb is there: the sharper the bend, the longer it must be, lest
///                 hoops of one stretch run through the other
/// rows_before, rows_after   hoops on each stretch, at least one
[[nodiscard]] std::vector<Hoop> hoops_round_bend(const glm::dvec3& from_m, const glm::dvec3& bend_m,
                                                 const glm::dvec3& to_m, double limb_radius_m,
                                                 int rows_before, int rows_after,
                                                 const glm::dvec3& colour);

}  // namespace backrow::figures
