/* Solids on the roll.  Two keep their distance when along one side of either of them there is the spacing between them:
 * the test of separating axes, exact for convex bodies (Gottschalk, Lin & Manocha 1996). */
#include "nest_inside.h"

#include <math.h>

/* Half the extent of a solid along a direction. */
static double reach(const struct pl_nest_solid *s, double nx, double ny)
{
    return s->half_length_m * fabs(s->cos * nx + s->sin * ny) + s->half_width_m * fabs(s->cos * ny - s->sin * nx);
}

double pl_nest_reach_x(const struct pl_nest_solid *s)
{
    return reach(s, 1, 0);
}

double pl_nest_reach_y(const struct pl_nest_solid *s)
{
    return reach(s, 0, 1);
}

double pl_nest_end(const struct pl_nest_table *table)
{
    double end = 0;
    for (size_t i = 0; i < table->count; i++)
        end = fmax(end, table->solids[i].x_m + pl_nest_reach_x(&table->solids[i]));
    return end;
}

/* Where solid a, moved along the roll at its y, would be too near b: x between lo and hi.  False when nowhere. */
static bool too_near(const struct pl_nest_solid *a, const struct pl_nest_solid *b, double spacing_m, double *lo,
                     double *hi)
{
    double axes[4][2] = {{a->cos, a->sin}, {-a->sin, a->cos}, {b->cos, b->sin}, {-b->sin, b->cos}};
    double dy = a->y_m - b->y_m;
    *lo = -HUGE_VAL;
    *hi = HUGE_VAL;
    for (int i = 0; i < 4; i++) {
        double nx = axes[i][0], ny = axes[i][1];
        double apart = reach(a, nx, ny) + reach(b, nx, ny) + spacing_m;
        if (fabs(nx) < 1e-12) {
            if (fabs(dy * ny) >= apart - PL_NEST_SLACK_M)
                return false;
            continue;
        }
        double middle = -dy * ny / nx, half = apart / fabs(nx);
        *lo = fmax(*lo, middle - half);
        *hi = fmin(*hi, middle + half);
    }
    *lo += b->x_m;
    *hi += b->x_m;
    return *hi - *lo > PL_NEST_SLACK_M;
}

void pl_nest_follow(struct pl_nest_table *table, size_t from)
{
    double shift = -HUGE_VAL, lo, hi;
    for (size_t i = from; i < table->count; i++) {
        const struct pl_nest_solid *s = &table->solids[i];
        shift = fmax(shift, pl_nest_reach_x(s) - s->x_m);
        for (size_t j = 0; j < from; j++)
            if (too_near(s, &table->solids[j], table->spacing_m, &lo, &hi))
                shift = fmax(shift, hi - s->x_m);
    }
    for (size_t i = from; i < table->count; i++)
        table->solids[i].x_m += shift;
}

/* The least x at this y that is near nothing; past limit the search is given up. */
static double soonest_m(const struct pl_nest_table *table, const struct pl_nest_solid *s, double limit_m)
{
    double x = pl_nest_reach_x(s), lo, hi;
    for (size_t j = 0; j < table->count && x <= limit_m; j++)
        if (too_near(s, &table->solids[j], table->spacing_m, &lo, &hi) && x > lo + PL_NEST_SLACK_M &&
            x < hi - PL_NEST_SLACK_M) {
            x = hi;
            j = (size_t)-1; /* from the start: what was clear before may be near now */
        }
    return x;
}

static void try_at(const struct pl_nest_table *table, const struct pl_nest_solid *s, double y_m, double limit_m,
                   struct pl_nest_solid *best)
{
    struct pl_nest_solid at = *s;
    double top = table->roll_m - pl_nest_reach_y(s);
    if (y_m < pl_nest_reach_y(s) - PL_NEST_SLACK_M || y_m > top + PL_NEST_SLACK_M)
        return;
    at.y_m = y_m;
    at.x_m = soonest_m(table, &at, fmin(limit_m, best->x_m));
    if (at.x_m < best->x_m - PL_NEST_SLACK_M && at.x_m <= limit_m)
        *best = at;
}

enum { CORNERS_MOST = 60 }; /* solids beyond which only the roll's edges are tried: the work grows with the cube */

/* Against either edge of the roll, or level with a corner of another solid. */
bool pl_nest_tuck(struct pl_nest_table *table, struct pl_nest_solid solid, double limit_m)
{
    double half = pl_nest_reach_y(&solid), to_middle_m = limit_m - pl_nest_reach_x(&solid);
    struct pl_nest_solid best = {.x_m = HUGE_VAL};
    try_at(table, &solid, half, to_middle_m, &best);
    try_at(table, &solid, table->roll_m - half, to_middle_m, &best);
    for (size_t j = 0; j < table->count && table->count <= CORNERS_MOST; j++) {
        const struct pl_nest_solid *o = &table->solids[j];
        for (int corner = 0; corner < 4; corner++) {
            double along = corner & 1 ? o->half_length_m : -o->half_length_m;
            double across = corner & 2 ? o->half_width_m : -o->half_width_m;
            double y = o->y_m + along * o->sin + across * o->cos;
            try_at(table, &solid, y + half + table->spacing_m, to_middle_m, &best);
            try_at(table, &solid, y - half - table->spacing_m, to_middle_m, &best);
        }
    }
    if (best.x_m == HUGE_VAL)
        return false;
    table->solids[table->count++] = best;
    return true;
}
