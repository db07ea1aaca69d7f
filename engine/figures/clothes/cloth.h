#pragma once

// Clothes and bare limbs as triangles: rows of points laid on the garments' fields, so that every
// hem and cuff is a clean line and folds lie where rows are.

#include "figures/clothes/garments.h"
#include "figures/clothes/neckline.h"

#include "shapes/mesh.h"

namespace backrow::figures {

struct ClothRows {
    int trunk_rows, trunk_columns;
    int limb_rows, limb_columns;  ///< Rows in one bone.
};

/// The body of the top and its sleeves, with bands, cuffs and hems.
void add_top(const Skeleton& skeleton, const Appearance& look, const BodyMeasures& measures,
             const TopFields& top, const Neckline& neckline, const ClothRows& rows,
             shapes::Mesh& onto);

void add_trousers(const Skeleton& skeleton, const Appearance& look, const BodyMeasures& measures,
                  const TrouserFields& trousers, const ClothRows& rows, shapes::Mesh& onto);

void add_skirt(const Skeleton& skeleton, const Appearance& look, const BodyMeasures& measures,
               const shapes::Field& skirt, const ClothRows& rows, shapes::Mesh& onto);

/// Neck, arms below sleeves, legs below a skirt or trousers.
void add_bare_skin(const Skeleton& skeleton, const Appearance& look, const BodyMeasures& measures,
                   const shapes::Field& neck, const ClothRows& rows, shapes::Mesh& onto);

}  // namespace backrow::figures
