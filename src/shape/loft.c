#include "plyloft/loft.h"

#include "plyloft/profile.h"

#include <math.h>
#include <stdlib.h>

/* Intervals of a smooth surface.  Area, girth and mass of a 6412 then stand within 0.1 % of their limits, bending and
 * torsional stiffness within 0.2 % (tests/structure/test_section.c). */
enum { SMOOTH_INTERVALS = 44 };

static int by_value(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static bool uses_profile(const struct pl_element *element, size_t profile)
{
    for (size_t i = 0; i < element->n_stations; i++)
        if (element->stations[i].profile == profile)
            return true;
    return false;
}

static const double beside = 1e-6;  /* chords */

/* All fractions at which a surface of the element may have a corner, plus a smooth grid. */
static bool make_fractions(struct pl_loft *loft, const struct pl_part *part, struct pl_arena *arena)
{
    size_t most = SMOOTH_INTERVALS + 1;
    for (size_t p = 0; p < part->n_profiles; p++)
        if (uses_profile(loft->element, p))
            most += 3 * part->profiles[p].n_points;
    double *s = loft->s = pl_arena_take_raw(arena, most, sizeof *s);
    if (!s)
        return false;
    size_t n = 0;
    for (size_t i = 0; i <= SMOOTH_INTERVALS; i++)
        s[n++] = 0.5 * (1 - cos(M_PI * (double)i / SMOOTH_INTERVALS));
    for (size_t p = 0; p < part->n_profiles; p++) {
        const struct pl_profile *profile = &part->profiles[p];
        for (size_t i = 0; uses_profile(loft->element, p) && i < profile->n_points; i++) {
            double x = profile->points[i].x;
            s[n++] = x;
            if (i && fabs(x - profile->points[i - 1].x) < beside) {  /* an upright line: a node on either side */
                s[n++] = fmax(0, x - beside);
                s[n++] = fmin(1, x + beside);
            }
        }
    }
    qsort(s, n, sizeof *s, by_value);
    loft->count = 1;
    for (size_t i = 1; i < n; i++)
        if (s[i] > s[loft->count - 1] + 1e-7)
            s[loft->count++] = s[i];
    return true;
}

static bool make_station(struct pl_loft *loft, const struct pl_part *part, size_t station, struct pl_arena *arena)
{
    size_t n = loft->count;
    double *x = pl_arena_take_raw(arena, 4 * n, sizeof *x);
    struct pl_point *upper = pl_arena_take_raw(arena, 2 * n, sizeof *upper);
    if (!x || !upper)
        return false;
    struct pl_point *lower = upper + n;
    pl_profile_surfaces(&part->profiles[loft->element->stations[station].profile], loft->s, n, upper, lower);
    bool inverted = loft->element->inverted;
    for (size_t i = 0; i < n; i++) {
        const struct pl_point *top = inverted ? &lower[i] : &upper[i], *bottom = inverted ? &upper[i] : &lower[i];
        double up = inverted ? -1 : 1;
        x[i] = top->x;
        x[n + i] = up * top->z;
        x[2 * n + i] = bottom->x;
        x[3 * n + i] = up * bottom->z;
    }
    loft->top[station] = (struct pl_surface){x, x + n};
    loft->bottom[station] = (struct pl_surface){x + 2 * n, x + 3 * n};
    return true;
}

static size_t same_profile_before(const struct pl_element *element, size_t station)
{
    size_t i = 0;
    while (element->stations[i].profile != element->stations[station].profile)
        i++;
    return i;
}

bool pl_loft_build(struct pl_loft *loft, const struct pl_part *part, const struct pl_element *element,
                   struct pl_arena *arena)
{
    *loft = (struct pl_loft){.element = element, .semispan_m = pl_element_semispan_m(element)};
    loft->top = pl_arena_take_raw(arena, element->n_stations, sizeof *loft->top);
    loft->bottom = pl_arena_take_raw(arena, element->n_stations, sizeof *loft->bottom);
    if (!loft->top || !loft->bottom || !make_fractions(loft, part, arena))
        return false;
    for (size_t i = 0; i < element->n_stations; i++) {
        size_t same = same_profile_before(element, i);
        loft->top[i] = loft->top[same];
        loft->bottom[i] = loft->bottom[same];
        if (same == i && !make_station(loft, part, i, arena))
            return false;
    }
    for (size_t i = 1; i < element->n_stations; i++) {
        const struct pl_station *a = &element->stations[i - 1], *b = &element->stations[i];
        loft->plan_area_m2 += (b->y_m - a->y_m) * (a->chord_m + b->chord_m);
    }
    return true;
}

static void mix(const double *a, const double *b, double part, size_t n, double *out)
{
    for (size_t i = 0; i < n; i++)
        out[i] = a[i] + part * (b[i] - a[i]);
}

static struct pl_surface mix_surfaces(struct pl_surface a, struct pl_surface b, double part, size_t n, double *out)
{
    if (a.x == b.x)
        return a;
    mix(a.x, b.x, part, n, out);
    mix(a.z, b.z, part, n, out + n);
    return (struct pl_surface){out, out + n};
}

void pl_loft_at(const struct pl_loft *loft, double y_m, double *scratch, struct pl_loft_place *place)
{
    const struct pl_element *element = loft->element;
    double y = fabs(y_m);
    size_t i = 0;
    while (i + 2 < element->n_stations && y > element->stations[i + 1].y_m)
        i++;
    const struct pl_station *a = &element->stations[i], *b = &element->stations[i + 1];
    double part = fmin(1, (y - a->y_m) / (b->y_m - a->y_m)), rest = 1 - part;
    double turn = element->incidence_rad + rest * a->twist_rad + part * b->twist_rad;
    place->y_m = y_m;
    place->chord_m = rest * a->chord_m + part * b->chord_m;
    place->x_le_m = rest * a->x_le_m + part * b->x_le_m;
    place->z_le_m = rest * a->z_le_m + part * b->z_le_m;
    /* Positive incidence presses an inverted element down: its nose goes down. */
    place->nose_up_rad = element->inverted ? -turn : turn;
    place->top = mix_surfaces(loft->top[i], loft->top[i + 1], part, loft->count, scratch);
    place->bottom = mix_surfaces(loft->bottom[i], loft->bottom[i + 1], part, loft->count, scratch + 2 * loft->count);
}

double pl_loft_chord_x(const struct pl_loft_place *place, double fraction)
{
    return place->x_le_m + fraction * place->chord_m * cos(place->nose_up_rad);
}

static double surface_z(struct pl_surface surface, size_t n, double x)
{
    for (size_t i = n - 1; i-- > 0;)
        if (surface.x[i] <= x) {
            double dx = surface.x[i + 1] - surface.x[i];
            double part = dx > 0 ? fmin(1, (x - surface.x[i]) / dx) : 0;
            return surface.z[i] + part * (surface.z[i + 1] - surface.z[i]);
        }
    return surface.z[0];
}

double pl_loft_core_depth(const struct pl_loft *loft, const struct pl_loft_place *place, double fraction)
{
    double depth = surface_z(place->top, loft->count, fraction) - surface_z(place->bottom, loft->count, fraction);
    return depth * place->chord_m;
}
