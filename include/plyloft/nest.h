/* nest.h - pieces of one cloth laid out on its roll.
 *
 * The roll runs along x from 0, its width along y from 0.  The thread that a piece's angle counts from (the roll's
 * warp) runs along x; a piece is a rectangle, its length at thread_rad from the warp, and never turned but by half a
 * turn (a rectangle does not see that) or, where the cloth is balanced and so `turns` is set, by a quarter.  Pieces
 * keep spacing_m from each other, measured square to a side of one of the two, as a rule is laid on; none is kept at
 * the roll's edge.  Knows no wing.
 */
#ifndef PLYLOFT_NEST_H
#define PLYLOFT_NEST_H

#include "plyloft/arena.h"

struct pl_nest_piece {
    double length_m, width_m;
    double thread_rad; /* of the length from the warp, either way; reduced by the nest to -90..90 degrees */
    bool turns;        /* a quarter turn is as good */
};

/* Where a piece lies: the middle of its rectangle and the direction of its length from the roll's x. */
struct pl_nest_place {
    double x_m, y_m, angle_rad;
    bool fits; /* else no figures: it is wider than the roll as its thread must lie */
};

struct pl_nest {
    struct pl_nest_place *places; /* one a piece, in their order */
    size_t count;
    double length_m; /* of roll that is cut into */
    double used;     /* area of the pieces that fit by that of this length; 0 when there are none */
    double least_m;  /* no layout can be shorter: the greatest of the bounds in nest_least.c */
};

/* Whether a piece fits the roll at all, alone.  One without length or width does not. */
bool pl_nest_fits(const struct pl_nest_piece *piece, double roll_width_m);

/* Lays out; the same pieces give the same layout, and in another order one as long.  Never longer than shelves for
 * aligned pieces and lanes for slanted ones (handbook F9.1, F9.2).  Places are in the arena, which also keeps what
 * the search has used.  False without memory. */
bool pl_nest_lay(struct pl_nest *nest, const struct pl_nest_piece *pieces, size_t count, double roll_width_m,
                 double spacing_m, struct pl_arena *arena);

/* The four corners of a piece as it lies, x and y in metres, round the rectangle. */
void pl_nest_corners(const struct pl_nest_piece *piece, const struct pl_nest_place *place, double x_m[4],
                     double y_m[4]);

#endif
