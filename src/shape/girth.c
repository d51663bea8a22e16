#include "plyloft/girth.h"

#include <math.h>

/* Point of a surface at a fraction, chords. */
static struct pl_point at_fraction(struct pl_surface s, size_t n, double fraction)
{
    if (fraction <= 0)
        return (struct pl_point){s.x[0], s.z[0]};
    for (size_t i = 1; i < n; i++)
        if (s.x[i] >= fraction) {
            double dx = s.x[i] - s.x[i - 1], part = dx > 0 ? fmax(0, (fraction - s.x[i - 1]) / dx) : 1;
            return (struct pl_point){s.x[i - 1] + part * dx, s.z[i - 1] + part * (s.z[i] - s.z[i - 1])};
        }
    return (struct pl_point){s.x[n - 1], s.z[n - 1]};
}

static double between(struct pl_point a, struct pl_point b)
{
    return hypot(b.x - a.x, b.z - a.z);
}

double pl_loft_girth_m(const struct pl_loft *loft, const struct pl_loft_place *place, enum pl_side side, double from, double to)
{
    struct pl_surface s = pl_loft_side(place, side);
    size_t n = loft->count;
    struct pl_point last = at_fraction(s, n, from), end = at_fraction(s, n, to);
    double sum = 0;
    for (size_t i = 0; i < n; i++) {
        bool inside = (s.x[i] > from || from <= 0) && (s.x[i] < to || to >= 1);
        if (!inside)
            continue;
        struct pl_point here = {s.x[i], s.z[i]};
        sum += between(last, here);
        last = here;
    }
    if (to < 1)
        sum += between(last, end);
    return sum * place->chord_m;
}

struct pl_vector pl_loft_on_surface(const struct pl_loft *loft, const struct pl_loft_place *place, enum pl_side side, double fraction)
{
    struct pl_point p = at_fraction(pl_loft_side(place, side), loft->count, fraction);
    double c = place->chord_m * cos(place->nose_up_rad), s = place->chord_m * sin(place->nose_up_rad);
    return (struct pl_vector){place->x_le_m + c * p.x + s * p.z, place->y_m, place->z_le_m - s * p.x + c * p.z};
}

/* The first node a length over the surface away from the nose: nodes lie on the curve, what is between them does not. */
static struct pl_point node_away(struct pl_surface s, size_t n, double length)
{
    size_t i = 0;
    for (double sum = 0; i + 1 < n && sum < length; i++)
        sum += hypot(s.x[i + 1] - s.x[i], s.z[i + 1] - s.z[i]);
    return (struct pl_point){s.x[i], s.z[i]};
}

/* Radius of the circle through three points, positive where b lies to the left of the way from a to c. */
static double radius_of(struct pl_point a, struct pl_point b, struct pl_point c)
{
    double cross = (c.x - a.x) * (b.z - a.z) - (c.z - a.z) * (b.x - a.x);
    return fabs(cross) > 1e-12 ? between(a, b) * between(b, c) * between(a, c) / (2 * cross) : (double)INFINITY;
}

double pl_loft_nose_radius_m(const struct pl_loft *loft, const struct pl_loft_place *place)
{
    double step = 0.004;
    struct pl_point nose = {place->top.x[0], place->top.z[0]};
    return place->chord_m * fabs(radius_of(node_away(place->top, loft->count, step), nose, node_away(place->bottom, loft->count, step)));
}

double pl_loft_hollow_radius_m(const struct pl_loft *loft, const struct pl_loft_place *place, enum pl_side side, double from, double to)
{
    struct pl_surface s = pl_loft_side(place, side);
    double least = (double)INFINITY, step = 0.02;
    for (double f = from + step; f <= to - step + 1e-9; f += 0.5 * step) {
        double radius = radius_of(at_fraction(s, loft->count, f - step), at_fraction(s, loft->count, f), at_fraction(s, loft->count, f + step));
        /* Seen from outside, a top bulges to the left on the way aft, a bottom to the right. */
        double hollow = side == PL_TOP ? -radius : radius;
        if (hollow > 0)
            least = fmin(least, hollow);
    }
    return least * place->chord_m;
}
