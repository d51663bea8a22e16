/* wing_flow.h - what a whole wing makes of the air: lift, drag and their places, strip by strip.
 *
 * A thin lifting surface on the mean lines of all elements and on their end plates, wakes straight aft, ground by images
 * (lattice.h); drag far behind, and that of the sections (strip_air.h) and of the plates' skin (Prandtl and Schlichting,
 * 0.455 / (log10 Re)^2.58).  Contract, Flow.  Lengths in metres; downforce positive.  Figures by q S, S the plan area of all
 * elements, are of the full span and before the case's factor.  Work is done in slices of a few milliseconds.
 */
#ifndef PLYLOFT_WING_FLOW_H
#define PLYLOFT_WING_FLOW_H

#include "plyloft/part.h"
#include "plyloft/problems.h"

#include <stdint.h>

/* Strips of the right half, those of an element together and from the centreline outward; the left half mirrors them. */
struct pl_wing_strip {
    size_t element;
    double y_m, width_m, chord_m, x_le_m, height_m;  /* height of the trailing edge over the ground; NAN: free air */
    double cl;         /* downforce by q and chord */
    double moment;     /* of the same about the leading edge: sum of f (x - x_le) by q and chord squared */
};

struct pl_wing_figures {
    double area_m2, root_chord_m;
    double lift, induced_drag;      /* coefficients */
    double centre_m;                /* of the downforce, aft of the leading edge of the case's root; NAN without downforce */
};

struct pl_wing_flow;

struct pl_wing_flow *pl_wing_flow_new(void);  /* NULL without memory */
void pl_wing_flow_free(struct pl_wing_flow *flow);

/* Aims at a downforce case and begins.  Then slices: true while there is more.  The part is read by aiming alone. */
enum pl_status pl_wing_flow_aim(struct pl_wing_flow *flow, const struct pl_part *part, const struct pl_load_case *load_case,
                                struct pl_problems *problems);
bool pl_wing_flow_step(struct pl_wing_flow *flow);
/* PL_OK when all is done; PL_NOT_CONVERGED. */
enum pl_status pl_wing_flow_status(const struct pl_wing_flow *flow);

/* The same number for all that the lattice sees alike: shapes, plates and ground; not for speed, air or loads. */
uint64_t pl_wing_flow_key(const struct pl_part *part, const struct pl_load_case *load_case);

const struct pl_wing_strip *pl_wing_flow_strips(const struct pl_wing_flow *flow, size_t *count);
struct pl_wing_figures pl_wing_flow_figures(const struct pl_wing_flow *flow);

/* Panels along the chord of the largest element and strips of the right half of each: of one element, and of several. */
enum { PL_WING_CHORDWISE = 12, PL_WING_SPANWISE = 32, PL_WINGS_CHORDWISE = 8, PL_WINGS_SPANWISE = 24 };

#endif
