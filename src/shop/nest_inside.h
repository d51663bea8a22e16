/* nest_inside.h - what the files of the nest share.
 *
 * Aligned pieces, along the roll or across it, are rectangles of a strip.  There each rectangle, and the strip's
 * width and length, have the spacing added once: rectangles that touch in the strip are pieces that keep the
 * spacing, and none is kept at the roll's edge.  Pieces at other angles are solids on a table, in their own size;
 * aligned ones become solids when both kinds meet.
 */
#ifndef PLYLOFT_NEST_INSIDE_H
#define PLYLOFT_NEST_INSIDE_H

#include "plyloft/nest.h"

#define PL_NEST_SLACK_M 1e-11 /* sums of sizes that should meet a width differ from it by less */

struct pl_nest_rect {
    double length_m, width_m; /* along the roll and across it */
    bool turns;               /* a quarter turn is allowed and fits */
    bool across;              /* the piece's length lies across the roll, as it is not turned */
    size_t piece;
};

/* Rectangles stand longest first. */
struct pl_nest_strip {
    const struct pl_nest_rect *rects;
    size_t count;
    double width_m;
    double least_m; /* a bound: at this length a search is over */
};

/* The corner nearest the roll's start. */
struct pl_nest_spot {
    double x_m, y_m;
    bool turned;
};

struct pl_nest_solid {
    double x_m, y_m, cos, sin; /* middle, direction of the length */
    double half_length_m, half_width_m;
    size_t piece;
};

struct pl_nest_table {
    struct pl_nest_solid *solids;
    size_t count;
    double roll_m, spacing_m;
};

/* A piece neither along the roll nor across it. */
struct pl_nest_slanted {
    double length_m, width_m;
    double angle_rad; /* of the length, -90..90 degrees; 0..90 when it turns: then 90 less is as good */
    bool turns;       /* and fits so */
    size_t piece;
};

/* nest_shelves.c: one of the two layouts that all others are measured by; the lengths are the strip's. */
bool pl_nest_shelves(const struct pl_nest_strip *strip, struct pl_nest_spot *spots, double *length_m,
                     struct pl_arena *arena);

/* nest_lanes.c: jobs, longest first, on a number of lanes alike, so that the fullest lane is short.  Gives that lane's
 * length and, in lane_of, each job's lane; least_m is a bound, equal to it when the search went through.  Each step of
 * the search takes one from budget. */
struct pl_nest_jobs {
    const double *lengths_m;
    size_t count, lanes;
    size_t *lane_of; /* may be NULL */
    double length_m, least_m;
};
bool pl_nest_lanes(struct pl_nest_jobs *jobs, size_t *budget, struct pl_arena *arena);
/* How many of a width lie side by side. */
size_t pl_nest_side_by_side(double strip_width_m, double width_m);

/* nest_skyline.c: the strip filled in one order. */
enum pl_nest_how { PL_NEST_FIRST, PL_NEST_MATCH, PL_NEST_LEFTMOST, PL_NEST_WIDEST, PL_NEST_HOWS };
struct pl_nest_sky;
struct pl_nest_sky *pl_nest_sky_take(size_t count, struct pl_arena *arena);
/* Gives the length; level_m is a measure of how evenly the end is filled, for layouts of one length. */
double pl_nest_fill(struct pl_nest_sky *sky, const struct pl_nest_strip *strip, const size_t *order, const bool *turned,
                    enum pl_nest_how how, struct pl_nest_spot *spots, double *level_m);

/* nest_search.c: the best layout found, never longer than the shelves; raises the strip's bound where it can. */
bool pl_nest_search(struct pl_nest_strip *strip, struct pl_nest_spot *spots, double *length_m, struct pl_arena *arena);

/* nest_least.c, nest_slices.c, nest_scales.c: lengths that no layout can be below, of a strip and of slanted pieces
 * alone. */
bool pl_nest_least_strip(struct pl_nest_strip *strip, struct pl_arena *arena);
/* Lengths come in twos, of each rectangle as it is and turned, HUGE_VAL where it cannot be so. */
struct pl_nest_slices;
struct pl_nest_slices *pl_nest_slices_take(struct pl_arena *arena);
double pl_nest_slices_least(struct pl_nest_slices *slices, const struct pl_nest_strip *strip, const double *lengths);
double pl_nest_least_slanted(const struct pl_nest_slanted *list, size_t count, double roll_m, double spacing_m);
/* Between the strip's bound and a length reached. */
bool pl_nest_prove(struct pl_nest_strip *strip, double reached_m, struct pl_arena *arena);

/* nest_table.c: solids that keep their distance. */
double pl_nest_reach_x(const struct pl_nest_solid *s); /* from the middle */
double pl_nest_reach_y(const struct pl_nest_solid *s);
double pl_nest_end(const struct pl_nest_table *table); /* greatest x, 0 when empty */
/* Moves the solids from `from` on, together, along the roll until they follow those before as closely as may be. */
void pl_nest_follow(struct pl_nest_table *table, size_t from);
/* Adds an aligned solid where it ends soonest, beyond no limit_m; false when there is no such place. */
bool pl_nest_tuck(struct pl_nest_table *table, struct pl_nest_solid solid, double limit_m);

/* nest_slanted.c: blocks of slanted lanes behind what is on the table.  Pieces of one angle and one `turns` stand
 * together in the list. */
bool pl_nest_slant(struct pl_nest_table *table, const struct pl_nest_slanted *list, size_t count,
                   struct pl_arena *arena);

#endif
