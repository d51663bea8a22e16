/* wall.h - the wall's geometry: which stack lies where, and its middle line.
 *
 * Private to the structure room; section.c turns it into stiffness.
 */
#ifndef PLYLOFT_WALL_H
#define PLYLOFT_WALL_H

#include "plyloft/section.h"

/* A stretch of one side with one stack, from node to node. */
struct strip {
    double from, to;  /* chord fractions */
    size_t stack, first, last;
};

/* One side of the core from nose to tail, with a node at every edge of a piece. */
struct side {
    size_t count, n_strips;
    double *x, *z;                /* core surface, chord axes, metres */
    double *normal_x, *normal_z;  /* outward, length 1 */
    double *stretch;              /* of an offset along the normal, so that both neighbours keep their distance */
    double *fraction;
    struct strip *strips;
};

struct pl_section_scratch {
    size_t *plies;            /* of each lay-up item here */
    double *edges;            /* fractions where the stack may change */
    double *segment_x, *segment_z;  /* normals of one side's segments */
    struct pl_stack_part *parts;
    struct side top, bottom;
};

bool pl_wall_scratch_start(struct pl_section_builder *b);

/* Both sides of the section at place; scratch->plies must be set. */
enum pl_status pl_wall_sides(struct pl_section_builder *b, const struct pl_loft_place *place);

/* The stack over one chord fraction of a side, by the plies set in scratch; PL_NONE when bare. *no_memory tells. */
size_t pl_wall_stack(struct pl_section_builder *b, enum pl_side side, double chord_m, double fraction, bool *no_memory);

/* Turns both sides into runs of middle-line points, chord axes, in circuit order. */
bool pl_wall_runs(struct pl_section_builder *b, struct pl_wall *wall);

#endif
