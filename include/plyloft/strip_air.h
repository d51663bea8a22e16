/* strip_air.h - what the real section does on a strip of a wing, when a lattice of mean lines says what the strip carries.
 *
 * Drag: the profile's in free air, at the strip's own Reynolds number and at the incidence where its cl_potential is the
 * strip's (contract, Flow, `drag_n`).  Lift: the lattice knows neither thickness nor boundary layers.  The incidence at which
 * the mean line alone, in the same plane place, carries what the lattice gives the strip (thin_section.h) is the one at
 * which the strip works, up- and downwash of the wing counted in; the real section there, by panels and with layers
 * (polar.h), has what the strip would carry.  So is a lifting line of measured sections made (Sivells and Neely, NACA
 * report 865, 1947), here over a lattice and with ground.  The strip gives way without the others being told: where many do,
 * the wing has less change of downwash than it would.
 *
 * A profile is prepared once and asked for many strips; an answer does not depend on those before.  Between two stations
 * the caller asks both profiles and mixes.  The profile is the right way up, lengths in chords, angles in degrees.
 */
#ifndef PLYLOFT_STRIP_AIR_H
#define PLYLOFT_STRIP_AIR_H

#include "plyloft/part.h"
#include "plyloft/polar.h"
#include "plyloft/problems.h"

#include <stdbool.h>

struct pl_strip_air;

/* panels, even, of the outline; chordwise: of the lattice.  On failure *air is NULL: PL_NO_MEMORY, or PL_BAD_INPUT or
 * PL_NOT_CONVERGED with a problem, as there is no flow round this outline.  One thinner than PL_STRIP_THINNEST is refused:
 * 200 panels would miss its lift by more than 3 %. */
#define PL_STRIP_THINNEST 5e-3
enum pl_status pl_strip_air_start(struct pl_strip_air **air, const struct pl_profile *profile, size_t panels, size_t chordwise,
                                  struct pl_problems *problems);
void pl_strip_air_free(struct pl_strip_air *air);

/* ---- drag ---- */

struct pl_strip_drag {
    double alpha_deg, cl, cd;      /* cl: the potential one at that incidence, what was asked for unless beyond */
    double turbulent_from_upper, turbulent_from_lower;  /* chord fractions; 1: nowhere */
    bool separated;                /* ahead of 0.95 chord: cd is only a floor */
    bool beyond;                   /* no incidence within 30 degrees has that lift: the end nearer to it is meant */
};

/* Every figure is finite when PL_OK.  PL_BAD_INPUT: a lift or Reynolds number that is none; PL_NOT_CONVERGED: no layer can
 * be followed at that incidence. */
enum pl_status pl_strip_air_drag(struct pl_strip_air *air, double cl, double reynolds, struct pl_strip_drag *out, struct pl_problems *problems);

/* ---- lift ---- */

/* With so little lift a ratio says nothing, since the mean line and the section have theirs vanish at incidences a little
 * apart. */
#define PL_STRIP_LEAST_CL 0.1

struct pl_strip_lift {
    double alpha_deg;              /* at which the mean line carries cl_lattice */
    double cl_lattice, cl_thick, cl_limited;  /* as asked; the section's in potential flow; and with layers */
    double cd;                     /* in the same place, ground included: not the contract's */
    double scale;                  /* cl_limited / cl_lattice; 1 below PL_STRIP_LEAST_CL and where there are no figures */
    bool beyond;                   /* the mean line has not so much within 25 degrees: the end nearer to it is meant */
    bool touches;                  /* the section turned so would stand in the ground: no figures */
    bool limited;                  /* the flow of cl_limited leaves the surface ahead of 0.95 chord */
    bool separated, settled;       /* as in polar.h */
    struct pl_polar_doubt doubts[PL_POLAR_DOUBTS];
    size_t n_doubts;
};

/* height: of the trailing edge above the ground, the profile inverted (polar.h); NAN: free air.  When PL_OK every figure is
 * finite, otherwise they are NAN: PL_BAD_INPUT, with touches set or of a number that is none; PL_NOT_CONVERGED. */
enum pl_status pl_strip_air_lift(struct pl_strip_air *air, double cl_lattice, double reynolds, double height, struct pl_strip_lift *out,
                                 struct pl_problems *problems);

#endif
