/* beam.h - the whole wing as a beam on its mounts.
 *
 * Full span, both bending directions coupled, torsion about the local shear centre with
 * an unbalanced lay-up's coupling, shear deformation upward (contract, rule 4).  Cross
 * sections stay in planes of constant y.  Properties and forces stand at cuts, from left
 * to right; a place where something jumps has two cuts, one for either limit.  Strains
 * are taken as linear from cut to cut; forces are exact.
 *
 * A force is what acts on the left face of the cut: everything to its right.  Torque is
 * kept about the fixed line x = 0, z = 0 (`roll`), and moved to the local shear centre
 * by the two shears where it is needed.  Displacements likewise: u and w are those of
 * that line, twist carries them to any point.
 *
 * Redundant reactions by the force method: unit reactions at all mounts but the first,
 * displacements there by integration, one small dense system (Megson, Aircraft
 * Structures, ch. 5).  Solving allocates nothing.
 */
#ifndef PLYLOFT_BEAM_H
#define PLYLOFT_BEAM_H

#include "plyloft/arena.h"
#include "plyloft/problems.h"

#include <math.h>
#include <stdbool.h>
#include <stddef.h>

struct pl_beam {
    size_t count;
    double *y_m;
    double *flap_flap, *lead_lead, *twist_twist, *flap_lead, *flap_twist, *lead_twist;  /* compliance */
    double *shear;           /* 1 / shear stiffness */
    double *x_centre_m, *z_centre_m;  /* shear centre, on the car */
};

/* One value a cut each.  Also a single force: its own parts and its moment about x = 0, z = 0. */
struct pl_forces { double *shear_z_n, *shear_x_n, *flap_nm, *lead_nm, *roll_nm; };
struct pl_force { double z_n, x_n, flap_nm, lead_nm, roll_nm; };

/* Displacement of the line x = 0, z = 0, and rotations. */
struct pl_displacements { double *u_m, *slope_rad, *w_m, *lead_slope_rad, *twist_rad; };

struct pl_support {
    size_t left, right;           /* the cuts on either side of it */
    bool clamped;                 /* holds slopes, too */
    double stiffness_nm_per_rad;  /* of the flapwise slope when clamped; NAN: rigid */
};

/* Clamped, and on a spring. */
static inline bool pl_support_sprung(const struct pl_support *s)
{
    return s->clamped && !isnan(s->stiffness_nm_per_rad);
}

struct pl_beam_system;

bool pl_beam_alloc(struct pl_beam *beam, size_t count, struct pl_arena *arena);
bool pl_forces_alloc(struct pl_forces *forces, size_t count, struct pl_arena *arena);
bool pl_displacements_alloc(struct pl_displacements *d, size_t count, struct pl_arena *arena);
void pl_forces_zero(struct pl_forces *forces, size_t count);

/* Works out the small system for a beam on supports (from left to right; they must hold it).  NULL without
 * memory.  beam and supports must outlive it. */
struct pl_beam_system *pl_beam_fix(const struct pl_beam *beam, const struct pl_support *supports, size_t n,
                                   struct pl_arena *arena);

/* forces: in, everything applied to the right of each cut, as if the beam were held at its left end; out, the true
 * ones with all reactions.  PL_NOT_CONVERGED when the system has no finite answer. */
enum pl_status pl_beam_solve(struct pl_beam_system *system, struct pl_forces *forces, struct pl_displacements *d);

/* What support i of the system puts on the beam in the solution just found: the step of the forces there, less
 * what is applied at that very place. */
struct pl_force pl_beam_reaction(const struct pl_beam_system *system, const struct pl_forces *solved, size_t i);

/* Upward displacement of a point at x on the car. */
static inline double pl_beam_rise_m(const struct pl_displacements *d, size_t cut, double x_m)
{
    return d->u_m[cut] - d->twist_rad[cut] * x_m;
}

/* ---- applied loads, added to forces ---- */

/* A force at a place: cuts up to and including left get it. */
void pl_load_point(const struct pl_beam *beam, size_t left, double y_m, const struct pl_force *force,
                   struct pl_forces *forces);

enum pl_spread { PL_SPREAD_EVEN, PL_SPREAD_ELLIPTIC };

/* A vertical force spread over the span from from_m to to_m (evenly, or as half an ellipse), acting at x_m[cut] on
 * the car, linear between cuts.  Elliptic shear and moment: Prandtl 1921 (handbook F4.3). */
void pl_load_spread(const struct pl_beam *beam, enum pl_spread spread, double total_n, double from_m, double to_m,
                    const double *x_m, struct pl_forces *forces);

/* Force a length at each cut, upward at x_m[cut] on the car or aft at height z_m[cut], linear between cuts. */
void pl_load_up(const struct pl_beam *beam, const double *force_n_m, const double *x_m, struct pl_forces *forces);
void pl_load_aft(const struct pl_beam *beam, const double *force_n_m, const double *z_m, struct pl_forces *forces);

/* Upward force, and torque about x = 0, per length: linear between places in order of y, level beyond the outermost. */
struct pl_load_place { double y_m, force_n_m, roll_nm_m; };
void pl_load_places(const struct pl_beam *beam, const struct pl_load_place *places, size_t n, struct pl_forces *forces);
/* Their force over a span that holds them. */
double pl_load_places_total_n(const struct pl_load_place *places, size_t n, double from_m, double to_m);

#endif
