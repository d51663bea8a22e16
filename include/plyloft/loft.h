/* loft.h - the core's surface of one element at any place along the span.
 *
 * Between two stations chord, leading edge, twist and the ordinates at equal chord
 * fraction are linear in y (contract, rule 1).  An inverted element is mirrored in z
 * first, so top and bottom are as installed.  Surfaces are in chords, from the nose to
 * the tail, at the same chord fractions everywhere.  Knows nothing of cloth.
 */
#ifndef PLYLOFT_LOFT_H
#define PLYLOFT_LOFT_H

#include "plyloft/arena.h"
#include "plyloft/part.h"

struct pl_surface { const double *x, *z; };  /* count nodes, nose to tail, chords */

struct pl_loft {
    const struct pl_element *element;
    size_t count;                  /* nodes of a surface */
    double *s;                     /* their chord fractions (mean-line stations) */
    struct pl_surface *top, *bottom;  /* one a station */
    double semispan_m, plan_area_m2;  /* the area of the full span */
};

/* The section at one place. */
struct pl_loft_place {
    double y_m, chord_m, x_le_m, z_le_m;
    double nose_up_rad;             /* turn about the leading edge on the car, nose up positive */
    struct pl_surface top, bottom;  /* of a station, or in the caller's scratch */
};

/* Works out the surfaces of all stations into arena.  False without memory. */
bool pl_loft_build(struct pl_loft *loft, const struct pl_part *part, const struct pl_element *element,
                   struct pl_arena *arena);

/* Any y of the span (the left half mirrors the right).  scratch holds 4 x loft->count doubles and must
 * live as long as place is used. */
void pl_loft_at(const struct pl_loft *loft, double y_m, double *scratch, struct pl_loft_place *place);

/* x on the car of the chord line's point at a chord fraction, turned with the section. */
double pl_loft_chord_x(const struct pl_loft_place *place, double fraction);

/* Depth of the core normal to the chord at a chord fraction, metres. */
double pl_loft_core_depth(const struct pl_loft *loft, const struct pl_loft_place *place, double fraction);

#endif
