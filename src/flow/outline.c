/* outline.c - a profile as the nodes of a body in the flow. */
#include "plyloft/section_flow.h"

#include "plyloft/profile.h"

#include <gsl/gsl_interp.h>
#include <gsl/gsl_spline.h>

#include <math.h>
#include <stdlib.h>

/* Coordinates over the way along the outline. */
struct curve { double *way, *x, *z; size_t count; gsl_spline *of_x, *of_z; gsl_interp_accel *x_at, *z_at; };

static void curve_free(struct curve *c)
{
    free(c->way);
    if (c->of_x)
        gsl_spline_free(c->of_x);
    if (c->of_z)
        gsl_spline_free(c->of_z);
    if (c->x_at)
        gsl_interp_accel_free(c->x_at);
    if (c->z_at)
        gsl_interp_accel_free(c->z_at);
}

static bool curve_make(struct curve *c, const struct pl_point *points, size_t count)
{
    *c = (struct curve){.way = malloc(3 * count * sizeof *c->way), .count = count};
    c->of_x = gsl_spline_alloc(gsl_interp_akima, count);
    c->of_z = gsl_spline_alloc(gsl_interp_akima, count);
    c->x_at = gsl_interp_accel_alloc();
    c->z_at = gsl_interp_accel_alloc();
    if (!c->way || !c->of_x || !c->of_z || !c->x_at || !c->z_at)
        return false;
    c->x = c->way + count;
    c->z = c->x + count;
    for (size_t i = 0; i < count; i++) {
        c->x[i] = points[i].x;
        c->z[i] = points[i].z;
        c->way[i] = i ? c->way[i - 1] + hypot(c->x[i] - c->x[i - 1], c->z[i] - c->z[i - 1]) : 0;
    }
    return !gsl_spline_init(c->of_x, c->way, c->x, count) && !gsl_spline_init(c->of_z, c->way, c->z, count);
}

static struct pl_point curve_at(const struct curve *c, double way)
{
    return (struct pl_point){gsl_spline_eval(c->of_x, way, c->x_at), gsl_spline_eval(c->of_z, way, c->z_at)};
}

/* Half of the nodes on either side of the nose, closer together at its ends. */
static void set_nodes(const struct curve *c, double nose_way, struct pl_point *nodes, size_t count)
{
    size_t half = (count - 1) / 2;
    double whole = c->way[c->count - 1];
    for (size_t i = 0; i <= half; i++) {
        double share = 0.5 * (1 - cos(M_PI * (double)i / (double)half));
        nodes[i] = curve_at(c, nose_way * share);
        nodes[half + i] = curve_at(c, fmin(whole, nose_way + (whole - nose_way) * share));
    }
}

bool pl_flow_outline(const struct pl_profile *profile, struct pl_point *nodes, size_t count)
{
    struct curve c;
    if (profile->naca) {
        pl_profile_list(profile, count, nodes);
        return true;
    }
    bool good = curve_make(&c, profile->points, profile->n_points);
    if (good)
        set_nodes(&c, c.way[pl_points_nose(profile->points, profile->n_points)], nodes, count);
    curve_free(&c);
    return good;
}
