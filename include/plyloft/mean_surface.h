/* mean_surface.h - the thin surface of an element that the wing flow sees.
 *
 * Mean lines of the stations' profiles, thickness left out, linear in between at equal chord fraction, with chord, sweep,
 * height, incidence and twist as real rotations, placed on the car (contract, Flow).  Knows no air.
 */
#ifndef PLYLOFT_MEAN_SURFACE_H
#define PLYLOFT_MEAN_SURFACE_H

#include "plyloft/arena.h"
#include "plyloft/part.h"
#include "plyloft/vector.h"

struct pl_mean_surface;

/* Prepares an element in the arena; NULL without memory. */
struct pl_mean_surface *pl_mean_surface_make(const struct pl_part *part, size_t element, struct pl_arena *arena);

/* Place of a chord fraction (mean-line station) at y of the right half, and the unit normal there, upward. */
struct pl_vector pl_mean_surface_at(const struct pl_mean_surface *surface, double y_m, double fraction);
struct pl_vector pl_mean_surface_normal(const struct pl_mean_surface *surface, double y_m, double fraction);

double pl_mean_surface_chord_m(const struct pl_mean_surface *surface, double y_m);

/* Height of the lowest point of the root section as placed, thickness included: ride height is counted from it. */
double pl_mean_surface_root_lowest_m(const struct pl_mean_surface *surface);

#endif
