/* polar_inside.h - a profile in the flow, and its two sides.  Private to the flow room. */
#ifndef PLYLOFT_POLAR_INSIDE_H
#define PLYLOFT_POLAR_INSIDE_H

#include "plyloft/boundary_layer.h"
#include "plyloft/polar.h"
#include "plyloft/section_flow.h"

/* From the stagnation point along one side: point 0 is the stagnation point, point i the middle of a panel. */
struct pl_flow_side {
    struct pl_boundary_layer layer;
    double *way, *speed, *x;   /* x of the upright profile, in chords */
    size_t first;              /* panel of point 1 */
    int step;                  /* from one panel to the next: -1 over the upper surface, 1 under the lower */
};

struct pl_polar {
    struct pl_section_flow *flow;
    struct pl_point *nodes, *turned;   /* upright; and as they stand over the ground */
    double *x;                         /* middles of panels, of the upright profile */
    size_t panels;
    double reynolds, height, alpha_rad;  /* alpha of the onset flow: 0 over ground, where the section is turned instead */
    struct pl_point quarter;           /* about which moments are taken */
    double *potential, *limited;       /* speeds */
    double *source, *wanted, *whole;   /* displacement of attached layers, the one the layers ask for, and all sources */
    double *unit[2], *made[2];         /* an outflow from the separated part of either side, and the speeds it makes */
    double separated[2];               /* panels from the trailing edge on, not a whole number */
    double last_lift;                  /* potential one of the row before */
    bool warm;
    struct pl_flow_side sides[2];      /* upper, lower */
    double *slab;
};

/* Splits speeds at the stagnation point next to the nose into the two sides.  False when there is none. */
bool pl_polar_sides(struct pl_polar *polar, const double *speed);

/* Chord fraction at a way along a side. */
double pl_polar_x_at(const struct pl_flow_side *side, double way);

/* The part of a row that is of the potential flow: cl_potential, cm_potential and the two layers that cd is made of. */
enum pl_status pl_polar_attached(struct pl_polar *polar, double alpha_deg, struct pl_polar_row *row, struct pl_problems *problems);

/* Flow and layers iterated: speeds into limited, sources into whole. */
enum pl_status pl_polar_limit(struct pl_polar *polar, struct pl_polar_row *row);

#endif
