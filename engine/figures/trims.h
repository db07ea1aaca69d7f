#pragma once

// What finishes clothes: collars, cuffs, hems, plackets, lapels, buttons. All of it is laid on the
// field of the garment, so it follows every posture.

#include "figures/figure.h"
#include "figures/flesh.h"

#include "shapes/mesh.h"

namespace backrow::figures {

/// A band round a limb or the trunk at the garment's edge.
struct Edge {
    glm::dvec3 middle_m;  ///< On the axis, at the edge.
    glm::dvec3 inwards;   ///< Unit, along the axis, from the edge into the garment.
    glm::dvec3 start;     ///< Unit, across the axis.
    double reach_m;       ///< No part of the garment is further from the axis.
    double width_m;
    double stand_out_m;
};

void add_edge(const shapes::Field& garment, const Edge& edge, const glm::dvec3& colour, int columns,
              shapes::Mesh& onto);

/// All trims of the top and the hems of the bottom.
void add_trims(const Skeleton& skeleton, const Appearance& look, const BodyMeasures& measures,
               const Covering& top, const Covering& bottom, const Covering& neck, Detail detail,
               shapes::Mesh& onto);

}  // namespace backrow::figures
