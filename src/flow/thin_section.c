#include "plyloft/thin_section.h"

#include "plyloft/profile.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_linalg.h>
#include <gsl/gsl_matrix.h>
#include <gsl/gsl_permutation.h>
#include <gsl/gsl_roots.h>
#include <gsl/gsl_vector.h>

#include <math.h>
#include <stdlib.h>

static const double two_pi = 6.283185307179586, most_rad = PL_THIN_MOST_DEG * M_PI / 180;
static const double slope_step = 1e-5;  /* of the chord, on either side */

enum { LINE = 100, STEPS_MOST = 60 };

struct pl_thin_section {
    size_t panels;
    struct pl_point *vortex, *control;   /* on the mean line, upright */
    double *slope;                       /* of the mean line at control points */
    double edge_z;                       /* of the trailing edge */
    struct pl_point *placed_vortex, *placed_control;  /* turned */
    struct pl_point line[LINE + 1];      /* the mean line, to see where it touches */
    double *slab;
    gsl_matrix *system;
    gsl_vector *right, *strength;
    gsl_permutation *order;
    gsl_root_fsolver *root;
};

/* ---- memory ---- */

void pl_thin_section_free(struct pl_thin_section *s)
{
    if (!s)
        return;
    free(s->vortex);
    free(s->slope);
    if (s->system)
        gsl_matrix_free(s->system);
    if (s->right)
        gsl_vector_free(s->right);
    if (s->strength)
        gsl_vector_free(s->strength);
    if (s->order)
        gsl_permutation_free(s->order);
    if (s->root)
        gsl_root_fsolver_free(s->root);
    free(s);
}

static bool take_memory(struct pl_thin_section *s)
{
    size_t n = s->panels;
    s->vortex = malloc(4 * n * sizeof *s->vortex);
    s->slope = malloc(n * sizeof *s->slope);
    s->system = gsl_matrix_alloc(n, n);
    s->right = gsl_vector_alloc(n);
    s->strength = gsl_vector_alloc(n);
    s->order = gsl_permutation_alloc(n);
    s->root = gsl_root_fsolver_alloc(gsl_root_fsolver_brent);
    if (!s->vortex || !s->slope || !s->system || !s->right || !s->strength || !s->order || !s->root)
        return false;
    s->control = s->vortex + n;
    s->placed_vortex = s->control + n;
    s->placed_control = s->placed_vortex + n;
    return true;
}

/* ---- the mean line ---- */

double pl_thin_section_mean(const struct pl_profile *profile, double fraction)
{
    struct pl_naca naca;
    struct pl_point upper, lower;
    const char *why;
    double slope;
    if (profile->naca && pl_naca_parse(profile->naca, &naca, &why))
        return pl_naca_mean(&naca, fraction, &slope);
    pl_profile_surfaces(profile, &fraction, 1, &upper, &lower);
    return 0.5 * (upper.z + lower.z);
}

static struct pl_point on_line(const struct pl_profile *profile, double fraction)
{
    return (struct pl_point){fraction, pl_thin_section_mean(profile, fraction)};
}

struct pl_thin_section *pl_thin_section_new(const struct pl_profile *profile, size_t panels)
{
    struct pl_thin_section *s = calloc(1, sizeof *s);
    if (!s)
        return NULL;
    s->panels = panels;
    if (!take_memory(s)) {
        pl_thin_section_free(s);
        return NULL;
    }
    for (size_t i = 0; i < panels; i++) {
        double three = ((double)i + 0.75) / (double)panels;
        s->vortex[i] = on_line(profile, ((double)i + 0.25) / (double)panels);
        s->control[i] = on_line(profile, three);
        s->slope[i] = (pl_thin_section_mean(profile, three + slope_step) - pl_thin_section_mean(profile, three - slope_step)) / (2 * slope_step);
    }
    for (size_t i = 0; i <= LINE; i++)
        s->line[i] = on_line(profile, (double)i / LINE);
    s->edge_z = s->line[LINE].z;
    return s;
}

/* ---- placed over the ground ---- */

/* Turned nose up about the leading edge. */
static struct pl_point turned(struct pl_point p, double c, double s)
{
    return (struct pl_point){p.x * c + p.z * s, p.z * c - p.x * s};
}

/* Above the trailing edge a point ahead of it by a and higher by b stands a sin alpha + b cos alpha = r sin(alpha + phi). */
double pl_thin_section_touches_rad(const struct pl_thin_section *s, double height)
{
    double first = HUGE_VAL, room = height - PL_THIN_CLEARS;
    if (room <= 0)
        return -HUGE_VAL;
    for (size_t i = 0; i < LINE; i++) {
        double ahead = 1 - s->line[i].x, above = s->line[i].z - s->edge_z, r = hypot(ahead, above), phi = atan2(above, ahead);
        if (r > room)
            first = fmin(first, asin(room / r) - phi);
    }
    return first;
}

/* ---- the flow ---- */

/* Velocity at p of a clockwise vortex of unit strength at a. */
static struct pl_point of_vortex(struct pl_point p, struct pl_point a)
{
    double dx = p.x - a.x, dz = p.z - a.z, k = 1 / (two_pi * (dx * dx + dz * dz));
    return (struct pl_point){k * dz, -k * dx};
}

/* The same of a vortex and its image; own: without itself. */
static struct pl_point of_pair(struct pl_point p, struct pl_point a, double ground_z, bool own)
{
    struct pl_point v = {0, 0};
    if (!own)
        v = of_vortex(p, a);
    if (!isnan(ground_z)) {
        struct pl_point image = of_vortex(p, (struct pl_point){a.x, 2 * ground_z - a.z});
        v.x -= image.x;
        v.z -= image.z;
    }
    return v;
}

static bool solve(struct pl_thin_section *s, double alpha_rad, double ground_z)
{
    size_t n = s->panels;
    int sign;
    for (size_t i = 0; i < n; i++) {
        /* Normal to the mean line, upright and then turned. */
        struct pl_point normal = turned((struct pl_point){-s->slope[i], 1}, cos(alpha_rad), sin(alpha_rad));
        for (size_t j = 0; j < n; j++) {
            struct pl_point v = of_pair(s->placed_control[i], s->placed_vortex[j], ground_z, false);
            gsl_matrix_set(s->system, i, j, v.x * normal.x + v.z * normal.z);
        }
        gsl_vector_set(s->right, i, -normal.x);
    }
    return !gsl_linalg_LU_decomp(s->system, s->order, &sign) && !gsl_linalg_LU_solve(s->system, s->order, s->right, s->strength);
}

/* rho Gamma (1 + u) on every vortex, by half rho V^2 and the chord. */
static double force(const struct pl_thin_section *s, double ground_z)
{
    double lift = 0;
    for (size_t i = 0; i < s->panels; i++) {
        double u = 0;
        for (size_t j = 0; j < s->panels; j++)
            u += gsl_vector_get(s->strength, j) * of_pair(s->placed_vortex[i], s->placed_vortex[j], ground_z, i == j).x;
        lift += 2 * gsl_vector_get(s->strength, i) * (1 + u);
    }
    return lift;
}

double pl_thin_section_lift(struct pl_thin_section *s, double alpha_rad, double height)
{
    double c = cos(alpha_rad), sine = sin(alpha_rad);
    /* Upright, the ground above it: the inverted section over the ground seen in a mirror.  NAN stays NAN. */
    double ground_z = turned((struct pl_point){1, s->edge_z}, c, sine).z + height;
    for (size_t i = 0; i < s->panels; i++) {
        s->placed_vortex[i] = turned(s->vortex[i], c, sine);
        s->placed_control[i] = turned(s->control[i], c, sine);
    }
    double lift = solve(s, alpha_rad, ground_z) ? force(s, ground_z) : (double)NAN;
    return isfinite(lift) ? lift : (double)NAN;
}

/* ---- the incidence of a lift ---- */

struct question { struct pl_thin_section *section; double cl, height; };

static double excess(double alpha_rad, void *context)
{
    const struct question *q = context;
    return pl_thin_section_lift(q->section, alpha_rad, q->height) - q->cl;
}

/* Brent, Algorithms for Minimization without Derivatives, 1973, ch. 4. */
static bool find_between(struct question *q, double low, double high, double *alpha_rad)
{
    gsl_function f = {excess, q};
    int status = gsl_root_fsolver_set(q->section->root, &f, low, high);
    for (int i = 0; i < STEPS_MOST && !status; i++) {
        status = gsl_root_fsolver_iterate(q->section->root);
        low = gsl_root_fsolver_x_lower(q->section->root);
        high = gsl_root_fsolver_x_upper(q->section->root);
        *alpha_rad = gsl_root_fsolver_root(q->section->root);
        if (gsl_root_test_interval(low, high, 1e-9, 0) == GSL_SUCCESS)
            return true;
    }
    return false;
}

enum pl_thin_found pl_thin_section_incidence(struct pl_thin_section *s, double cl, double height, double *alpha_rad)
{
    struct question q = {s, cl, height};
    double touches = pl_thin_section_touches_rad(s, height), low = -most_rad, high = fmin(most_rad, touches);
    *alpha_rad = fmax(low, high);
    if (!isfinite(cl) || isinf(height))
        return PL_THIN_FAILS;
    if (!(high > low))
        return PL_THIN_TOUCHES;
    double at_low = excess(low, &q), at_high = excess(high, &q);
    if (isnan(at_low) || isnan(at_high))
        return PL_THIN_FAILS;
    if (at_low <= 0 && at_high >= 0)
        return find_between(&q, low, high, alpha_rad) ? PL_THIN_FOUND : PL_THIN_FAILS;
    *alpha_rad = at_low > 0 ? low : high;
    return at_low <= 0 && touches < most_rad ? PL_THIN_TOUCHES : PL_THIN_BEYOND;
}
