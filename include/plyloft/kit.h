/* kit.h - the pieces of cloth to cut: how large as laid and as cut, in what order, and what each cloth comes to.
 *
 * The same pieces that carry the stress (pieces.h).  A row is one piece to cut: a group on both sides makes one a side, a pair
 * one a hand.  A piece across the centreline is cut as one where its threads look alike in a mirror - along or across the
 * span, or at 45 degrees in a balanced cloth - and else as two hands that meet there; one too long for its roll is cut in
 * several.  Areas as laid are over the core's surface (contract, rule 8).  Sizes as cut: handbook section 9.
 *
 * Threads are seen on the outside of the wing.  There the upper right and the lower left are alike, and the other two their
 * mirror image.
 */
#ifndef PLYLOFT_KIT_H
#define PLYLOFT_KIT_H

#include "plyloft/nest.h"
#include "plyloft/part.h"
#include "plyloft/problems.h"

enum pl_hand { PL_WHOLE, PL_RIGHT_HAND, PL_LEFT_HAND };

struct pl_kit_piece {
    char mark[16];                 /* layer, counted over the whole part from the core outwards, and a letter */
    size_t element, item, fabric;
    int ply;                       /* of its group, 0 is laid first */
    enum pl_side side;             /* top or bottom */
    enum pl_hand hand;
    double angle_rad;              /* from the span, +y, towards the trailing edge; on the left hand mirrored */
    double thread_rad;             /* of the piece's length from the roll's threads, seen on the outside */
    double from_m, to_m;           /* along the span, left negative */
    double length_m, width_m;      /* as laid: along the span, and the greatest girth */
    double area_m2;
    double cut_length_m, cut_width_m;
    bool balanced, cut_mirrored;   /* mirrored: the mirror image of its fellow */
    bool join_left, join_right;    /* its end overlaps another piece */
    bool join_nose;                /* and so does its front edge the piece of the other side, round the nose */
    size_t order;                  /* from 1 */
    double cloth_kg, resin_kg;     /* dry and as cut; resin it takes as laid */
    bool fits;                     /* its roll */
};

/* One cloth of the part. */
struct pl_kit_cloth {
    size_t fabric;
    double area_m2, cut_area_m2, dry_kg;
    struct pl_nest nest;
    size_t *pieces;                /* of the nest's places, in the kit's list */
    double price;                  /* NAN: not given */
};

struct pl_kit {
    struct pl_kit_piece *pieces;   /* in laying order */
    size_t n_pieces;
    struct pl_kit_cloth *cloths;   /* those that are cut from, in the part's order */
    size_t n_cloths;
    double *core_area_m2;          /* surface of each element, both sides of the full span */
    const char **warnings;
    size_t n_warnings;
    struct pl_arena arena;         /* owns all of it */
};

/* Of a part whose shape pl_check_shape takes.  kit is all zeros or from an earlier call, whose memory is used again.
 * PL_NO_MEMORY. */
enum pl_status pl_kit_build(struct pl_kit *kit, const struct pl_part *part);
void pl_kit_free(struct pl_kit *kit);

/* Threads both ways alike: moduli within a hundredth. */
bool pl_fabric_balanced(const struct pl_fabric *fabric);

/* Least radius of an edge that a cloth wraps wet, its threads at an angle from that edge: handbook section 3; glass woven 3 mm,
 * uni 4 mm, others woven 3 mm; uni of carbon by the curvature of its fibres, 9 mm sin^2 and not below 3. */
double pl_wrap_radius_m(const struct pl_fabric *fabric, double angle_rad);

#endif
