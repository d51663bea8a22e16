#include "plyloft/profile.h"

#include <math.h>

size_t pl_points_nose(const struct pl_point *points, size_t count)
{
    size_t nose = 0;
    for (size_t i = 1; i < count; i++)
        if (points[i].x < points[nose].x)
            nose = i;
    return nose;
}

/* Where x stands between two points that follow each other, walking from the nose
 * (index `nose`) towards `end` by `step`; places ahead of the nose or behind the end give those. */
static struct pl_point surface_at(const struct pl_point *points, size_t nose, size_t end, int step, double x)
{
    size_t i = nose;
    if (x <= points[nose].x)
        return points[nose];
    while (i != end) {
        const struct pl_point *a = &points[i], *b = &points[step > 0 ? i + 1 : i - 1];
        if (x < b->x)
            return (struct pl_point){x, a->z + (b->z - a->z) * (x - a->x) / (b->x - a->x)};
        i = step > 0 ? i + 1 : i - 1;
    }
    return points[end];
}

/* Upper must not pass below lower at any corner of either surface. */
static bool surfaces_cross(const struct pl_point *points, size_t count, size_t nose, size_t *at)
{
    for (size_t i = 0; i < count; i++) {
        double x = points[i].x;
        if (i == nose || x <= points[nose].x || x > fmin(points[0].x, points[count - 1].x))
            continue;
        double upper = i < nose ? points[i].z : surface_at(points, nose, 0, -1, x).z;
        double lower = i > nose ? points[i].z : surface_at(points, nose, count - 1, 1, x).z;
        if (upper < lower - 1e-9) {
            *at = i;
            return true;
        }
    }
    return false;
}

const char *pl_points_fault(const struct pl_point *points, size_t count, size_t *at)
{
    *at = 0;
    if (count < 5)
        return "needs at least 5 points";
    size_t nose = pl_points_nose(points, count);
    for (size_t i = 0; i < count; i++) {
        *at = i;
        if (fabs(points[i].x) > 1.2 || fabs(points[i].z) > 1)
            return "must be in chords (x from 0 to 1)";
        if (i && points[i].x == points[i - 1].x && points[i].z == points[i - 1].z)
            return "repeats the point before it";
        if (i && i <= nose && points[i].x > points[i - 1].x)
            return "turns back: x must fall from the trailing edge over the upper surface to the nose";
        if (i > nose && points[i].x < points[i - 1].x)
            return "turns back: x must rise from the nose under the lower surface to the trailing edge";
    }
    *at = nose;
    if (nose == 0 || nose == count - 1)
        return "must start and end at the trailing edge, with the nose between";
    if (fabs(points[nose].x) > 0.02 || fabs(points[0].x - 1) > 0.02 || fabs(points[count - 1].x - 1) > 0.02)
        return "must reach from x = 0 at the nose to x = 1 at the trailing edge";
    return surfaces_cross(points, count, nose, at) ? "has crossing surfaces, or goes round under the lower surface first" : NULL;
}

void pl_profile_surfaces(const struct pl_profile *profile, const double *s, size_t count, struct pl_point *upper,
                         struct pl_point *lower)
{
    if (profile->naca) {
        struct pl_naca naca;
        const char *why;
        pl_naca_parse(profile->naca, &naca, &why);
        for (size_t i = 0; i < count; i++)
            pl_naca_point(&naca, s[i], &upper[i], &lower[i]);
        return;
    }
    size_t n = profile->n_points, nose = pl_points_nose(profile->points, n);
    for (size_t i = 0; i < count; i++) {
        upper[i] = surface_at(profile->points, nose, 0, -1, s[i]);
        lower[i] = surface_at(profile->points, nose, n - 1, 1, s[i]);
    }
}

enum { FINE = 2000 };  /* intervals a surface: figures good to six digits */

static double cosine(size_t i, size_t n)
{
    return 0.5 * (1 - cos(M_PI * (double)i / (double)n));
}

static struct pl_profile_figures naca_figures(const struct pl_naca *naca)
{
    struct pl_profile_figures f = {0};
    struct pl_point upper, lower, upper0, lower0;
    pl_naca_point(naca, 0, &upper0, &lower0);
    for (size_t i = 1; i <= FINE; i++) {
        double s = cosine(i, FINE), slope, mean = pl_naca_mean(naca, s, &slope);
        pl_naca_point(naca, s, &upper, &lower);
        f.area += 0.5 * (upper.z + upper0.z) * (upper.x - upper0.x) - 0.5 * (lower.z + lower0.z) * (lower.x - lower0.x);
        f.thickness = fmax(f.thickness, 2 * pl_naca_half_thickness(naca, s));
        if (fabs(mean) > fabs(f.camber))
            f.camber = mean;
        upper0 = upper;
        lower0 = lower;
    }
    return f;
}

static struct pl_profile_figures points_figures(const struct pl_point *points, size_t count)
{
    struct pl_profile_figures f = {0};
    size_t nose = pl_points_nose(points, count);
    for (size_t i = 0; i < count; i++) {
        const struct pl_point *a = &points[i], *b = &points[(i + 1) % count];
        f.area += 0.5 * (a->x * b->z - b->x * a->z);
        /* Thickness and camber are straight between corners, so corners hold the greatest. */
        double upper = surface_at(points, nose, 0, -1, a->x).z, lower = surface_at(points, nose, count - 1, 1, a->x).z;
        upper = i <= nose ? a->z : upper;
        lower = i >= nose ? a->z : lower;
        f.thickness = fmax(f.thickness, upper - lower);
        if (fabs(0.5 * (upper + lower)) > fabs(f.camber))
            f.camber = 0.5 * (upper + lower);
    }
    return f;
}

struct pl_profile_figures pl_profile_figures(const struct pl_profile *profile)
{
    struct pl_naca naca;
    const char *why;
    if (profile->naca && pl_naca_parse(profile->naca, &naca, &why))
        return naca_figures(&naca);
    return points_figures(profile->points, profile->n_points);
}

void pl_profile_list(const struct pl_profile *profile, size_t count, struct pl_point *out)
{
    size_t above = count / 2, below = count - 1 - above;  /* intervals of either surface */
    for (size_t i = 0; i <= above || i <= below; i++) {
        struct pl_point upper, lower;
        double s = cosine(i, above);
        pl_profile_surfaces(profile, &s, 1, &upper, &lower);
        if (i <= above)
            out[above - i] = upper;
        s = cosine(i, below);
        pl_profile_surfaces(profile, &s, 1, &upper, &lower);
        if (i <= below)
            out[above + i] = lower;
    }
}
