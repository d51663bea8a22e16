#include "plyloft/mean_surface.h"

#include "plyloft/profile.h"

#include <math.h>

struct pl_mean_surface {
    const struct pl_part *part;
    const struct pl_element *element;
    struct pl_naca *naca;  /* one a station; thickness 0 where the profile is a list of points */
};

struct pl_mean_surface *pl_mean_surface_make(const struct pl_part *part, size_t element, struct pl_arena *arena)
{
    const struct pl_element *e = &part->elements[element];
    struct pl_mean_surface *m = pl_arena_take(arena, 1, sizeof *m);
    struct pl_naca *naca = pl_arena_take(arena, e->n_stations, sizeof *naca);
    const char *why;
    if (!m || !naca)
        return NULL;
    *m = (struct pl_mean_surface){part, e, naca};
    for (size_t i = 0; i < e->n_stations; i++) {
        const struct pl_profile *p = &part->profiles[e->stations[i].profile];
        if (p->naca)
            pl_naca_parse(p->naca, &naca[i], &why);
    }
    return m;
}

/* Ordinate of a station's mean line, upright, in chords. */
static double mean_of_station(const struct pl_mean_surface *m, size_t station, double fraction)
{
    struct pl_point upper, lower;
    double slope;
    if (m->naca[station].thickness > 0)
        return pl_naca_mean(&m->naca[station], fraction, &slope);
    pl_profile_surfaces(&m->part->profiles[m->element->stations[station].profile], &fraction, 1, &upper, &lower);
    return 0.5 * (upper.z + lower.z);
}

/* Stations on either side of y and the share of the outer one. */
static size_t between(const struct pl_element *e, double y_m, double *share)
{
    size_t i = 1;
    while (i + 1 < e->n_stations && e->stations[i].y_m < y_m)
        i++;
    double from = e->stations[i - 1].y_m, to = e->stations[i].y_m;
    *share = fmin(1, fmax(0, (y_m - from) / (to - from)));
    return i;
}

static double mix(double a, double b, double share)
{
    return a + share * (b - a);
}

/* A point of the chord's own axes (x aft, z up, metres) turned with the section and placed. */
static struct pl_vector placed(const struct pl_mean_surface *m, double y_m, double x, double z)
{
    double share;
    size_t i = between(m->element, y_m, &share);
    const struct pl_station *a = &m->element->stations[i - 1], *b = &m->element->stations[i];
    double turn = m->element->incidence_rad + mix(a->twist_rad, b->twist_rad, share), nose_up = m->element->inverted ? -turn : turn;
    double c = cos(nose_up), s = sin(nose_up);
    return (struct pl_vector){mix(a->x_le_m, b->x_le_m, share) + x * c + z * s, y_m, mix(a->z_le_m, b->z_le_m, share) - x * s + z * c};
}

double pl_mean_surface_chord_m(const struct pl_mean_surface *m, double y_m)
{
    double share;
    size_t i = between(m->element, y_m, &share);
    return mix(m->element->stations[i - 1].chord_m, m->element->stations[i].chord_m, share);
}

struct pl_vector pl_mean_surface_at(const struct pl_mean_surface *m, double y_m, double fraction)
{
    double share, chord_m = pl_mean_surface_chord_m(m, y_m);
    size_t i = between(m->element, y_m, &share);
    double mean = mix(mean_of_station(m, i - 1, fraction), mean_of_station(m, i, fraction), share);
    return placed(m, y_m, chord_m * fraction, (m->element->inverted ? -1 : 1) * chord_m * mean);
}

struct pl_vector pl_mean_surface_normal(const struct pl_mean_surface *m, double y_m, double fraction)
{
    static const double step = 1e-5;  /* of the chord; and metres of the span, to the side that is there */
    double tip_m = m->element->stations[m->element->n_stations - 1].y_m, y0 = fmax(0, y_m - step), y1 = fmin(tip_m, y_m + step);
    struct pl_vector aft = pl_minus(pl_mean_surface_at(m, y_m, fmin(1, fraction + step)), pl_mean_surface_at(m, y_m, fmax(0, fraction - step)));
    struct pl_vector out = pl_minus(pl_mean_surface_at(m, y1, fraction), pl_mean_surface_at(m, y0, fraction));
    struct pl_vector n = pl_cross(aft, out);
    double length = sqrt(pl_dot(n, n)) * (n.z < 0 ? -1 : 1);
    return (struct pl_vector){n.x / length, n.y / length, n.z / length};
}

enum { OUTLINE = 200 };

double pl_mean_surface_root_lowest_m(const struct pl_mean_surface *m)
{
    const struct pl_profile *p = &m->part->profiles[m->element->stations[0].profile];
    double lowest_m = HUGE_VAL, chord_m = m->element->stations[0].chord_m, up = m->element->inverted ? -chord_m : chord_m;
    for (int i = 0; i <= OUTLINE; i++) {
        double s = 0.5 * (1 - cos(M_PI * i / OUTLINE));
        struct pl_point side[2];
        pl_profile_surfaces(p, &s, 1, &side[0], &side[1]);
        for (int k = 0; k < 2; k++)
            lowest_m = fmin(lowest_m, placed(m, 0, chord_m * side[k].x, up * side[k].z).z);
    }
    return lowest_m;
}
