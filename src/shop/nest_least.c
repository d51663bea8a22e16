/* Lengths that no layout can be below.  Every one here and in nest_slices.c and nest_scales.c is exact: it holds for
 * all layouts that keep the spacing as nest.h measures it. */
#include "nest_inside.h"

#include <math.h>
#include <stdlib.h>

/* However a rectangle that turns is laid, the square of its shorter side lies in it. */
static double least_length_m(const struct pl_nest_rect *r)
{
    return r->turns ? fmin(r->length_m, r->width_m) : r->length_m;
}

static double least_width_m(const struct pl_nest_rect *r)
{
    return r->turns ? fmin(r->length_m, r->width_m) : r->width_m;
}

static int longest_first(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x < y) - (x > y);
}

/* Pieces of a width and wider, were they no wider: lanes, whose schedule is searched through where it is small. */
static bool least_from_width(struct pl_nest_strip *strip, double width_m, double *lengths_m, size_t *budget,
                             struct pl_arena *arena)
{
    struct pl_nest_jobs jobs = {.lengths_m = lengths_m, .lanes = pl_nest_side_by_side(strip->width_m, width_m)};
    for (size_t i = 0; i < strip->count; i++)
        if (least_width_m(&strip->rects[i]) >= width_m)
            lengths_m[jobs.count++] = least_length_m(&strip->rects[i]);
    if (!jobs.count || !jobs.lanes)
        return true;
    qsort(lengths_m, jobs.count, sizeof *lengths_m, longest_first);
    if (!pl_nest_lanes(&jobs, budget, arena))
        return false;
    strip->least_m = fmax(strip->least_m, jobs.least_m);
    return true;
}

static bool least_from_slices(struct pl_nest_strip *strip, struct pl_arena *arena)
{
    struct pl_nest_slices *slices = pl_nest_slices_take(arena);
    double *lengths_m = pl_arena_take_raw(arena, 2 * strip->count, sizeof *lengths_m);
    if (!slices || !lengths_m)
        return false;
    for (size_t i = 0; i < strip->count; i++) {
        lengths_m[2 * i] = strip->rects[i].length_m;
        lengths_m[2 * i + 1] = strip->rects[i].turns ? strip->rects[i].width_m : HUGE_VAL;
    }
    strip->least_m = fmax(strip->least_m, pl_nest_slices_least(slices, strip, lengths_m));
    return true;
}

bool pl_nest_least_strip(struct pl_nest_strip *strip, struct pl_arena *arena)
{
    double area_m2 = 0;
    double *lengths_m = pl_arena_take_raw(arena, strip->count, sizeof *lengths_m);
    if (!lengths_m)
        return false;
    strip->least_m = 0;
    for (size_t i = 0; i < strip->count; i++) {
        area_m2 += strip->rects[i].length_m * strip->rects[i].width_m;
        strip->least_m = fmax(strip->least_m, least_length_m(&strip->rects[i]));
    }
    strip->least_m = fmax(strip->least_m, area_m2 / strip->width_m);
    for (size_t i = 0; i < strip->count; i++) {
        double width_m = least_width_m(&strip->rects[i]);
        bool seen = false;
        for (size_t j = 0; j < i && !seen; j++)
            seen = least_width_m(&strip->rects[j]) == width_m;
        size_t budget = 200000 / strip->count;
        if (!seen && !least_from_width(strip, width_m, lengths_m, &budget, arena))
            return false;
    }
    return least_from_slices(strip, arena);
}

/* Pieces of one angle at least this long and wide, as if no more.  Take their middles in the order of x, and of two
 * in turn dx >= 0 and dy, |dy| <= slack since both lie on the roll.  Parallel rectangles are apart along one of
 * their sides: across the width, and as slack < (w + s) / cos the one behind is on the right of the first:
 *       dx - dy cot >= (w + s) / sin;
 * along the length, and as slack < (l + s) / sin it is ahead:
 *       dx - dy cot >= (l + s) / cos - dy / (sin cos) >= (l + s) / cos - slack / (sin cos).
 * The sum over all pairs in turn has dy only of the first and last, so the roll is at least extent + (n - 1) times
 * the lesser of the two - slack cot.  F9.1's nest is this long but for the last term: its pieces all stand on one
 * edge. */
static double least_in_turn(double length_m, double width_m, double n, double angle_rad, double roll_m,
                            double spacing_m)
{
    double s = sin(fabs(angle_rad)), c = cos(angle_rad);
    double slack_m = fmax(0, roll_m - length_m * s - width_m * c);
    double across_m = width_m + spacing_m, along_m = length_m + spacing_m;
    double step_m = fmin(across_m / s, along_m / c - slack_m / (s * c));
    double extent_m = length_m * c + width_m * s;
    if (slack_m * c >= across_m || slack_m * s >= along_m || step_m <= 0)
        return extent_m;
    return fmax(extent_m, extent_m + (n - 1) * step_m - slack_m * c / s);
}

/* Of pieces that turn just the lesser extent is sure. */
static double least_alone(const struct pl_nest_slanted *p)
{
    double s = fabs(sin(p->angle_rad)), c = fabs(cos(p->angle_rad));
    double as_it_is = p->length_m * c + p->width_m * s, turned = p->length_m * s + p->width_m * c;
    return p->turns ? fmin(as_it_is, turned) : as_it_is;
}

enum { PAIRS_MOST = 200 }; /* above it only like with like: the sizes of all pairs would take the cube of the number */

double pl_nest_least_slanted(const struct pl_nest_slanted *list, size_t count, double roll_m, double spacing_m)
{
    double least_m = 0;
    for (size_t i = 0; i < count; i++) {
        least_m = fmax(least_m, least_alone(&list[i]));
        for (size_t j = 0; j < count && !list[i].turns; j++) {
            if (count > PAIRS_MOST && j != i)
                continue;
            double length_m = fmin(list[i].length_m, list[j].length_m),
                   width_m = fmin(list[i].width_m, list[j].width_m);
            double n = 0;
            for (size_t k = 0; k < count; k++)
                n += !list[k].turns && list[k].angle_rad == list[i].angle_rad && list[k].length_m >= length_m &&
                     list[k].width_m >= width_m;
            if (n > 0 && list[j].angle_rad == list[i].angle_rad && !list[j].turns)
                least_m = fmax(least_m, least_in_turn(length_m, width_m, n, list[i].angle_rad, roll_m, spacing_m));
        }
    }
    return least_m;
}
