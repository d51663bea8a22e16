/* Pieces on the bias, in slanted lanes (handbook F9.1).  A lane runs across the roll at the angle of its pieces and
 * holds several end to end while their lengths by |sin| and the lane's width by |cos| go into the roll's width;
 * widest first, each piece in the first lane with room.  All lanes stand on one edge of the roll, so that a straight
 * edge marks them, and each follows those before as closely as their outlines let it: alike, at (width + spacing) /
 * |sin|.
 *
 * A lane may run along the widths of its pieces as well; at a shallow angle, where the lengths run nearly along the
 * roll, that is shorter.  Where cloth turns, one direction serves all pieces of a block, so that of balanced cloth
 * what lies at 45 and at -45 degrees nests together.  All these are tried and the shortest is kept. */
#include "nest_inside.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

struct lane {
    double width_m, filled_m; /* filled: with the spacing between pieces */
    size_t first;             /* piece, then through `next`; PL_END ends */
};

static const size_t END = (size_t)-1;

struct block {
    const struct pl_nest_slanted *list;
    size_t count;
    double turn_rad; /* of the pieces from their own angle */
    bool by_width;   /* lanes run along the pieces' widths */
    struct lane *lanes;
    size_t n_lanes;
    size_t *next, *order;
};

static double along_m(const struct block *b, size_t i)
{
    return b->by_width ? b->list[i].width_m : b->list[i].length_m;
}

static double across_m(const struct block *b, size_t i)
{
    return b->by_width ? b->list[i].length_m : b->list[i].width_m;
}

static double piece_angle(const struct block *b)
{
    return b->list[0].angle_rad + b->turn_rad;
}

/* Of the lanes, -90..90 degrees. */
static double lane_angle(const struct block *b)
{
    double angle = piece_angle(b);
    return !b->by_width ? angle : angle > 0 ? angle - M_PI_2 : angle + M_PI_2;
}

static void sort_widest_first(struct block *b)
{
    for (size_t i = 0; i < b->count; i++) {
        size_t k = i;
        for (; k && (across_m(b, b->order[k - 1]) < across_m(b, i) ||
                     (across_m(b, b->order[k - 1]) == across_m(b, i) && along_m(b, b->order[k - 1]) < along_m(b, i)));
             k--)
            b->order[k] = b->order[k - 1];
        b->order[k] = i;
    }
}

static void append(struct block *b, struct lane *lane, size_t i)
{
    size_t *link = &lane->first;
    while (*link != END)
        link = &b->next[*link];
    *link = i;
    b->next[i] = END;
}

static void fill_lanes(struct block *b, double roll_m, double spacing_m)
{
    double s = fabs(sin(lane_angle(b))), c = cos(lane_angle(b));
    sort_widest_first(b);
    b->n_lanes = 0;
    for (size_t k = 0; k < b->count; k++) {
        size_t i = b->order[k], l = 0;
        while (l < b->n_lanes && (b->lanes[l].filled_m + spacing_m + along_m(b, i)) * s + b->lanes[l].width_m * c >
                                     roll_m + PL_NEST_SLACK_M)
            l++;
        if (l == b->n_lanes)
            b->lanes[b->n_lanes++] = (struct lane){.width_m = across_m(b, i), .filled_m = -spacing_m, .first = END};
        b->lanes[l].filled_m += spacing_m + along_m(b, i);
        append(b, &b->lanes[l], i);
    }
}

/* A lane's pieces from its foot on the roll's edge, the lower for a lane that rises along the roll. */
static void lay_lane(struct pl_nest_table *table, const struct block *b, const struct lane *lane)
{
    double angle = lane_angle(b), s = fabs(sin(angle)), c = cos(angle), u = 0;
    size_t from = table->count;
    for (size_t i = lane->first; i != END; i = b->next[i]) {
        double middle = u + along_m(b, i) / 2, half = across_m(b, i) / 2, y = middle * s + half * c;
        table->solids[table->count++] = (struct pl_nest_solid){
            .x_m = middle * c - half * s,
            .y_m = angle > 0 ? y : table->roll_m - y,
            .cos = cos(piece_angle(b)),
            .sin = sin(piece_angle(b)),
            .half_length_m = b->list[i].length_m / 2,
            .half_width_m = b->list[i].width_m / 2,
            .piece = b->list[i].piece,
        };
        u += along_m(b, i) + table->spacing_m;
    }
    pl_nest_follow(table, from);
}

enum { LANE_ORDERS = 3 };

/* Lanes as they were filled, then fullest first and last: short ones at an end let the next block come nearer. */
static void sort_lanes(struct block *b, int order)
{
    for (size_t i = 1; order && i < b->n_lanes; i++) {
        struct lane lane = b->lanes[i];
        size_t k = i;
        for (; k && (order == 1 ? b->lanes[k - 1].filled_m < lane.filled_m : b->lanes[k - 1].filled_m > lane.filled_m);
             k--)
            b->lanes[k] = b->lanes[k - 1];
        b->lanes[k] = lane;
    }
}

/* The shortest of all ways to lay one block; what it lays is in best from `from` on. */
static void lay_block(struct pl_nest_table *table, struct block *b, struct pl_nest_solid *best)
{
    double shortest_m = HUGE_VAL;
    size_t from = table->count;
    for (int way = 0; way < (b->list[0].turns ? 4 : 2); way++) {
        b->turn_rad = way & 2 ? -M_PI_2 : 0;
        b->by_width = way & 1;
        fill_lanes(b, table->roll_m, table->spacing_m);
        for (int order = 0; order < LANE_ORDERS; order++) {
            table->count = from;
            sort_lanes(b, order);
            for (size_t l = 0; l < b->n_lanes; l++)
                lay_lane(table, b, &b->lanes[l]);
            double end_m = pl_nest_end(table);
            if (end_m < shortest_m - PL_NEST_SLACK_M) {
                shortest_m = end_m;
                memcpy(best, table->solids + from, b->count * sizeof *best);
            }
        }
    }
    memcpy(table->solids + from, best, b->count * sizeof *best);
    table->count = from + b->count;
}

bool pl_nest_slant(struct pl_nest_table *table, const struct pl_nest_slanted *list, size_t count,
                   struct pl_arena *arena)
{
    struct block b = {0};
    struct pl_nest_solid *best = pl_arena_take_raw(arena, count, sizeof *best);
    b.lanes = pl_arena_take_raw(arena, count, sizeof *b.lanes);
    b.next = pl_arena_take_raw(arena, count, sizeof *b.next);
    b.order = pl_arena_take_raw(arena, count, sizeof *b.order);
    if (!best || !b.lanes || !b.next || !b.order)
        return false;
    for (size_t i = 0; i < count; i += b.count) {
        b.list = list + i;
        b.count = 0;
        while (i + b.count < count && b.list[b.count].turns == b.list->turns &&
               fabs(b.list[b.count].angle_rad - b.list->angle_rad) < 1e-9)
            b.count++;
        lay_block(table, &b, best);
    }
    return true;
}
