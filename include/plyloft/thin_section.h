/* thin_section.h - the mean line of a profile in a plane flow, as a vortex lattice sees it.
 *
 * The lattice of lattice.h with a span without end: equal panels along the chord, a vortex at a quarter and a control point
 * at three quarters of each, on the mean line (James, Comp. Methods Appl. Mech. Eng. 1, 1972, has why that is exact for a
 * flat plate in free air), ground by images of opposite turn, force by Kutta and Joukowski with the local velocity, images'
 * included.  What both lack - thickness, and the last of a panel's length - they lack alike, so that an incidence at which
 * this section carries what a strip of the wing carries is the one at which to ask what the real section would.
 *
 * The profile is the right way up.  Near the ground it is inverted, height is that of the trailing edge, turned, and a
 * positive lift presses down (polar.h).  Lengths in chords.  Knows no thickness and no Reynolds number.
 */
#ifndef PLYLOFT_THIN_SECTION_H
#define PLYLOFT_THIN_SECTION_H

#include "plyloft/part.h"

#include <stdbool.h>

struct pl_thin_section;

/* panels: at least 1, the lattice's own number along the chord.  NULL without memory. */
struct pl_thin_section *pl_thin_section_new(const struct pl_profile *profile, size_t panels);
void pl_thin_section_free(struct pl_thin_section *section);

/* Ordinate of a profile's mean line at a chord fraction (mean-line station of a NACA shape; midway between the surfaces of
 * points, along z). */
double pl_thin_section_mean(const struct pl_profile *profile, double fraction);

/* Incidence from which the mean line, turned, stands less than PL_THIN_CLEARS over the ground or in it: HUGE_VAL in free air
 * (height NAN) and where no incidence up to a right angle does, -HUGE_VAL where the trailing edge itself does. */
#define PL_THIN_CLEARS 0.01
double pl_thin_section_touches_rad(const struct pl_thin_section *section, double height);

/* Lift coefficient at an incidence, below that one; NAN when the system has no finite answer. */
double pl_thin_section_lift(struct pl_thin_section *section, double alpha_rad, double height);

/* The incidence of a lift coefficient, sought to 25 degrees on either side. */
enum pl_thin_found {
    PL_THIN_FOUND,
    PL_THIN_BEYOND,    /* no incidence there has it: *alpha_rad is the end nearer to it */
    PL_THIN_TOUCHES,   /* the mean line would stand in the ground before it had so much; *alpha_rad is as far as it got */
    PL_THIN_FAILS      /* no finite answer, or cl or height is no number to ask with */
};
#define PL_THIN_MOST_DEG 25
enum pl_thin_found pl_thin_section_incidence(struct pl_thin_section *section, double cl, double height, double *alpha_rad);

#endif
