/* pieces.h - the cloth pieces of an element.
 *
 * A group of N plies makes N pieces (N pairs when it starts off the centreline).  The
 * last laid is the longest; each below it is drop_m shorter at either end.  The same
 * pieces carry the stress, are weighed, cut and ticked off.  Distances are from the
 * centreline; the left half mirrors the right.
 */
#ifndef PLYLOFT_PIECES_H
#define PLYLOFT_PIECES_H

#include "plyloft/arena.h"
#include "plyloft/part.h"

struct pl_piece {
    size_t item;           /* lay-up item */
    int ply;               /* 0 is laid first */
    double from_m, to_m;   /* from 0: one piece across the centreline; else a mirrored pair */
};

struct pl_cloth {
    const struct pl_element *element;
    double semispan_m;
    struct pl_piece *pieces;  /* in laying order */
    size_t count;
    size_t *first;            /* of each lay-up item; n_layup + 1 of them */
};

bool pl_cloth_build(struct pl_cloth *cloth, const struct pl_element *element, struct pl_arena *arena);

/* Which side of a place counts where a piece ends: both (a piece covers its own ends), just
 * inboard of the place, or just outboard. */
enum pl_limit { PL_HERE, PL_INBOARD, PL_OUTBOARD };

/* Plies of an item at a distance from the centreline. */
size_t pl_cloth_plies_at(const struct pl_cloth *cloth, size_t item, double distance_m, enum pl_limit limit);

/* Two places of the span nearer than this are one. */
#define PL_SAME_PLACE_M 1e-8

/* Where an item's longest piece ends and starts, metres from the centreline. */
double pl_item_half_length_m(const struct pl_layup_item *item, double semispan_m);

/* Chord fractions an item covers on a chord, clipped to the chord; *clipped (may be NULL) tells whether it
 * reaches past. */
void pl_item_edges(const struct pl_layup_item *item, double chord_m, double *from, double *to, bool *clipped);

static inline bool pl_item_on_side(const struct pl_layup_item *item, enum pl_side side)
{
    return item->side == PL_BOTH || item->side == (int)side;
}

#endif
