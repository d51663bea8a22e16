/* lattice.h - vortex lattice on thin surfaces of the right half of a wing, with its mirror and over flat ground.
 *
 * Vortex rings: bound lines at a quarter, control points at three quarters of equal panels along the chord, spans at the
 * sines of equal angles with control points at their middles in angle (Lan, J. Aircraft 11, 1974, for both choices), legs on
 * the surface to the trailing edge, wakes straight aft.  Mirrors by images.  Forces by Kutta and Joukowski with the local
 * velocity on every segment of the surface; drag in the Trefftz plane (Katz and Plotkin, Low-Speed Aerodynamics, 2001,
 * ch. 8 and 12).  Lengths in metres, velocities by that of the onset flow along +x.  Knows no part and no profile.
 */
#ifndef PLYLOFT_LATTICE_H
#define PLYLOFT_LATTICE_H

#include "plyloft/mean_surface.h"
#include "plyloft/problems.h"

/* A surface by its points: (fraction of the chord, strip edge or middle). */
struct pl_lattice_surface {
    size_t chordwise, spanwise;
    const double *edges_m;   /* spanwise + 1 places along the span, from the centreline outward */
    const double *middles_m; /* of the strips */
    struct pl_vector (*point)(const void *shape, double y_m, double fraction);
    struct pl_vector (*normal)(const void *shape, double y_m, double fraction);
    const void *shape;
};

struct pl_lattice;

struct pl_lattice *pl_lattice_new(void);  /* NULL without memory */
void pl_lattice_free(struct pl_lattice *lattice);

/* Solves; ground_z NAN: free air.  PL_BAD_INPUT: a control point at or below the ground; PL_NOT_CONVERGED. */
enum pl_status pl_lattice_solve(struct pl_lattice *lattice, const struct pl_lattice_surface *surface, double ground_z,
                                struct pl_problems *problems);

/* Of one strip, by rho V^2 (twice the dynamic pressure), in m2: force up, and its moment nose up about x = 0, m3. */
struct pl_lattice_strip { double y_m, width_m, lift, moment; };
const struct pl_lattice_strip *pl_lattice_strips(const struct pl_lattice *lattice, size_t *count);

/* Drag in the Trefftz plane of both halves, and drag summed on the surface, the same unit. */
double pl_lattice_trefftz_drag(const struct pl_lattice *lattice);
double pl_lattice_near_drag(const struct pl_lattice *lattice);

#endif
