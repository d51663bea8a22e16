/* kit_size.c - how large a stretch of cloth is over the core's surface. */
#include "kit_inside.h"

#include <math.h>

bool pl_kit_element_start(struct kit_element *e, const struct pl_part *part, size_t index, struct pl_arena *arena)
{
    *e = (struct kit_element){.part = part, .index = index, .element = &part->elements[index]};
    if (!pl_loft_build(&e->loft, part, e->element, arena) || !pl_cloth_build(&e->cloth, e->element, arena))
        return false;
    e->scratch = pl_arena_take_raw(arena, 4 * e->loft.count, sizeof *e->scratch);
    return e->scratch;
}

struct stretch {
    const struct kit_element *e;
    size_t item;       /* PL_NONE: all of the surface */
    enum pl_side side;
};

static void edges_at(const struct stretch *s, const struct pl_loft_place *place, double *from, double *to)
{
    *from = 0;
    *to = 1;
    if (s->item != PL_NONE)
        pl_item_edges(&s->e->element->layup[s->item], place->chord_m, from, to, NULL);
}

static double girth_at(double y_m, void *context)
{
    const struct stretch *s = context;
    struct pl_loft_place place;
    double from, to;
    pl_loft_at(&s->e->loft, y_m, s->e->scratch, &place);
    edges_at(s, &place, &from, &to);
    return to > from ? pl_loft_girth_m(&s->e->loft, &place, s->side, from, to) : 0;
}

/* Gauss and Legendre's rule of five points is exact to the ninth power: for a girth, smooth between stations, 50 mm at a time
 * are ample. */
enum { GAUSS_POINTS = 5 };
static const double panel_m = 0.05;

static double integral(struct stretch *s, double from_m, double to_m)
{
    /* Abscissae and weights on -1..1: Abramowitz and Stegun, table 25.4. */
    static const double at[GAUSS_POINTS] = {-0.9061798459386640, -0.5384693101056831, 0, 0.5384693101056831, 0.9061798459386640};
    static const double weight[GAUSS_POINTS] = {0.2369268850561891, 0.4786286704993665, 0.5688888888888889, 0.4786286704993665, 0.2369268850561891};
    size_t n = (size_t)ceil((to_m - from_m) / panel_m);
    double sum = 0, half = 0.5 * (to_m - from_m) / (double)(n ? n : 1);
    for (size_t i = 0; i < n; i++)
        for (int k = 0; k < GAUSS_POINTS; k++)
            sum += weight[k] * half * girth_at(from_m + half * (2 * (double)i + 1 + at[k]), s);
    return sum;
}

/* Between two places of the right half, station by station. */
static double half_area_m2(struct stretch *s, double from_m, double to_m)
{
    const struct pl_element *e = s->e->element;
    double sum = 0;
    for (size_t i = 1; i < e->n_stations; i++) {
        double a = fmax(from_m, e->stations[i - 1].y_m), b = fmin(to_m, e->stations[i].y_m);
        if (b > a)
            sum += integral(s, a, b);
    }
    return sum;
}

/* A stretch of the span, split where it crosses the centreline. */
static double area_m2(struct stretch *s, double from_m, double to_m)
{
    if (from_m < 0 && to_m > 0)
        return half_area_m2(s, 0, -from_m) + half_area_m2(s, 0, to_m);
    return half_area_m2(s, fmin(fabs(from_m), fabs(to_m)), fmax(fabs(from_m), fabs(to_m)));
}

/* Length of an edge, or of the line between, from place to place over the surface. */
static double edge_m(const struct stretch *s, double share, double from_m, double to_m)
{
    size_t n = (size_t)ceil((to_m - from_m) / panel_m) + 1;
    struct pl_vector last = {0};
    double sum = 0;
    for (size_t i = 0; i <= n; i++) {
        double y_m = from_m + (to_m - from_m) * (double)i / (double)n, from, to;
        struct pl_loft_place place;
        pl_loft_at(&s->e->loft, y_m, s->e->scratch, &place);
        edges_at(s, &place, &from, &to);
        struct pl_vector here = pl_loft_on_surface(&s->e->loft, &place, s->side, from + share * (to - from)), step = pl_minus(here, last);
        sum += i ? sqrt(pl_dot(step, step)) : 0;
        last = here;
    }
    return sum;
}

/* Greatest girth: at the ends, the stations between, and steps. */
static double most_girth_m(struct stretch *s, double from_m, double to_m)
{
    const struct pl_element *e = s->e->element;
    size_t n = (size_t)ceil((to_m - from_m) / panel_m) + 1;
    double most = 0;
    for (size_t i = 0; i <= n; i++)
        most = fmax(most, girth_at(from_m + (to_m - from_m) * (double)i / (double)n, s));
    for (size_t i = 0; i < e->n_stations; i++)
        for (int way = -1; way <= 1; way += 2)
            if (way * e->stations[i].y_m > from_m && way * e->stations[i].y_m < to_m)
                most = fmax(most, girth_at(e->stations[i].y_m, s));
    return most;
}

struct kit_size pl_kit_measure(const struct kit_element *e, size_t item, enum pl_side side, double from_m, double to_m)
{
    struct stretch s = {e, item, side};
    double edges = fmax(edge_m(&s, 0, from_m, to_m), fmax(edge_m(&s, 0.5, from_m, to_m), edge_m(&s, 1, from_m, to_m)));
    return (struct kit_size){area_m2(&s, from_m, to_m), most_girth_m(&s, from_m, to_m), edges};
}

double pl_kit_core_area_m2(const struct kit_element *e)
{
    struct stretch top = {e, PL_NONE, PL_TOP}, bottom = {e, PL_NONE, PL_BOTTOM};
    return 2 * (half_area_m2(&top, 0, e->loft.semispan_m) + half_area_m2(&bottom, 0, e->loft.semispan_m));
}
