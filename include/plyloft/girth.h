/* girth.h - lengths over the core's surface, where cloth is laid.
 *
 * A place's chord fraction is its x over the chord; fractions 0 and 1 reach to the very nose and tail (contract, rule 2).
 */
#ifndef PLYLOFT_GIRTH_H
#define PLYLOFT_GIRTH_H

#include "plyloft/loft.h"
#include "plyloft/vector.h"

static inline struct pl_surface pl_loft_side(const struct pl_loft_place *place, enum pl_side side)
{
    return side == PL_TOP ? place->top : place->bottom;
}

/* Length over the surface of a side, top or bottom, between two chord fractions, metres; point by point straight. */
double pl_loft_girth_m(const struct pl_loft *loft, const struct pl_loft_place *place, enum pl_side side, double from, double to);

/* Where a chord fraction of a side stands on the car. */
struct pl_vector pl_loft_on_surface(const struct pl_loft *loft, const struct pl_loft_place *place, enum pl_side side, double fraction);

/* Radius of the nose: of the circle through it and a node on either side, at least four thousandths of the chord away. */
double pl_loft_nose_radius_m(const struct pl_loft *loft, const struct pl_loft_place *place);

/* Least radius of what is hollow on a side, between two chord fractions, over lengths of a fiftieth of the chord; infinite when
 * nothing is. */
double pl_loft_hollow_radius_m(const struct pl_loft *loft, const struct pl_loft_place *place, enum pl_side side, double from, double to);

#endif
