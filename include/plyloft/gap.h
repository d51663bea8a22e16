/* gap.h - how an element stands to the one ahead of it: gap and overlap, derived from the stations.
 *
 * At one place along the span: overlap is how far the rear element's nose stands ahead of the front element's trailing
 * edge, along the front element's chord (not along the free stream), negative where it stands behind; gap is the least
 * distance from that trailing edge to the rear element's surface, negative where the two sections cross.  The trailing
 * edge is the middle of what may be an open edge, the nose the foremost point of the rear section along that chord, both
 * as placed and turned; surfaces are the cores', as everywhere in this room: cloth takes its thickness off the gap.
 *
 * Ahead is, of the elements that reach the place and have their leading edge farther forward there, the one whose
 * trailing edge is nearest.  Knows nothing of files, and keeps nothing: who moves an element moves its stations.
 */
#ifndef PLYLOFT_GAP_H
#define PLYLOFT_GAP_H

#include "plyloft/loft.h"

/* Lofts of all elements, and room to place two sections side by side.  part must outlive it. */
struct pl_gap_shape;

/* In arena.  PL_BAD_INPUT when a profile is none that can be lofted (the check says why), PL_NO_MEMORY; *out is then NULL. */
enum pl_status pl_gap_shape_make(struct pl_gap_shape **out, const struct pl_part *part, struct pl_arena *arena);

const struct pl_part *pl_gap_part(const struct pl_gap_shape *shape);

struct pl_gap {
    size_t ahead;             /* element; PL_NONE where there is none, and nothing else is then given */
    double gap_m, overlap_m;  /* NAN without */
    double chord_m;           /* of the element ahead, at the same place; NAN without */
    bool crosses;
};

/* Any y, the left half mirrors the right; beyond the element's tips, or the other's, there is none ahead. */
struct pl_gap pl_gap_at(const struct pl_gap_shape *shape, size_t element, double y_m);

enum pl_gap_fault {
    PL_GAP_FITS,
    PL_GAP_NONE_AHEAD,
    PL_GAP_TOO_SMALL,    /* the nose stands so far behind the edge that nothing is as near as that; least_m says what is */
    PL_GAP_CROSSED,      /* the sections would cross elsewhere */
    PL_GAP_OTHER_AHEAD   /* the element ahead would no longer be the nearest with its leading edge farther forward */
};

struct pl_gap_move { double x_m, z_m, least_m; };

/* How the element's section at y would have to be moved, unturned, to have that gap (at least 0) and overlap.  It stays on
 * the side of the trailing edge that it is on; where they cross now, it goes to the usual side: above the edge of an
 * inverted element, below that of an upright one.  The least move is not looked for: of several answers it is the one met
 * first on the way in from outside. */
enum pl_gap_fault pl_gap_solve(const struct pl_gap_shape *shape, size_t element, double y_m, double gap_m, double overlap_m,
                               struct pl_gap_move *move);

/* True when another element has its leading edge ahead of this one's at one of this one's stations. */
bool pl_gap_is_behind(const struct pl_part *part, size_t element);

#endif
