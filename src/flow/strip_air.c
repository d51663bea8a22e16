#include "plyloft/strip_air.h"

#include "plyloft/profile.h"
#include "plyloft/thin_section.h"

#include "polar_inside.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_roots.h>

#include <math.h>
#include <stdlib.h>

static const double drag_most_rad = 30 * M_PI / 180, leaves_ahead_of = 0.95;

enum { STEPS_MOST = 60 };

/* Force along an axis of the profile's own, for the onset flow (cos a, sin a): speeds are linear in the two, forces square. */
struct square { double cc, cs, ss; };

struct pl_strip_air {
    struct pl_polar *free_air, *ground;
    struct pl_thin_section *thin;
    gsl_root_fsolver *root;
    struct square x, z;   /* in free air */
};

void pl_strip_air_free(struct pl_strip_air *a)
{
    if (!a)
        return;
    pl_polar_free(a->free_air);
    pl_polar_free(a->ground);
    pl_thin_section_free(a->thin);
    if (a->root)
        gsl_root_fsolver_free(a->root);
    free(a);
}

/* ---- lift in free air as a closed form ---- */

static struct pl_flow_force body_force(struct pl_polar *p, double alpha_rad)
{
    pl_section_flow_speeds(p->flow, alpha_rad, NULL, p->potential);
    return pl_section_flow_force(p->flow, 0, 0, p->potential, NULL, 0, 0);
}

/* From three directions: at half a right angle the three parts count half, twice a half, half. */
static struct square square_of(double ahead, double half, double across)
{
    return (struct square){ahead, half - 0.5 * (ahead + across), across};
}

static bool set_squares(struct pl_strip_air *a)
{
    struct pl_flow_force ahead = body_force(a->free_air, 0), half = body_force(a->free_air, M_PI_4), across = body_force(a->free_air, M_PI_2);
    a->x = square_of(ahead.drag, half.drag, across.drag);
    a->z = square_of(ahead.lift, half.lift, across.lift);
    return isfinite(a->x.cc + a->x.cs + a->x.ss) && isfinite(a->z.cc + a->z.cs + a->z.ss);
}

static double square_at(const struct square *q, double c, double s)
{
    return c * c * q->cc + 2 * c * s * q->cs + s * s * q->ss;
}

static double lift_at(const struct pl_strip_air *a, double alpha_rad)
{
    double c = cos(alpha_rad), s = sin(alpha_rad);
    return c * square_at(&a->z, c, s) - s * square_at(&a->x, c, s);
}

static enum pl_status prepare(struct pl_strip_air *a, const struct pl_profile *profile, size_t panels, size_t chordwise,
                              struct pl_problems *problems)
{
    static const double some_reynolds = 1e6, some_height = 1;  /* each question sets its own */
    enum pl_status status = pl_polar_start(&a->free_air, profile, some_reynolds, (double)NAN, panels, problems);
    if (status == PL_OK)
        status = pl_polar_start(&a->ground, profile, some_reynolds, some_height, panels, problems);
    if (status != PL_OK)
        return status;
    a->thin = pl_thin_section_new(profile, chordwise);
    a->root = gsl_root_fsolver_alloc(gsl_root_fsolver_brent);
    if (!a->thin || !a->root)
        return PL_NO_MEMORY;
    if (set_squares(a))
        return PL_OK;
    pl_problem_add(problems, PL_ERROR, "", "the flow round this outline did not converge", NULL);
    return PL_NOT_CONVERGED;
}

enum pl_status pl_strip_air_start(struct pl_strip_air **out, const struct pl_profile *profile, size_t panels, size_t chordwise,
                                  struct pl_problems *problems)
{
    *out = NULL;
    if (!(pl_profile_figures(profile).thickness >= PL_STRIP_THINNEST)) {
        pl_problem_add(problems, PL_ERROR, "", "this outline is too thin for air to flow round it", NULL);
        return PL_BAD_INPUT;
    }
    struct pl_strip_air *a = calloc(1, sizeof *a);
    enum pl_status status = a ? prepare(a, profile, panels, chordwise, problems) : PL_NO_MEMORY;
    if (status == PL_OK)
        *out = a;
    else
        pl_strip_air_free(a);
    return status;
}

/* ---- drag ---- */

static enum pl_status refuse(struct pl_problems *problems, enum pl_status status, const char *sentence)
{
    pl_problem_add(problems, PL_ERROR, "", sentence, NULL);
    return status;
}

static bool is_reynolds(double reynolds)
{
    return isfinite(reynolds) && reynolds > 0;
}

struct question { const struct pl_strip_air *air; double cl; };

static double excess(double alpha_rad, void *context)
{
    const struct question *q = context;
    return lift_at(q->air, alpha_rad) - q->cl;
}

/* Incidence of a lift in free air; the nearer end when none has it, *beyond then set. */
static double incidence_of(struct pl_strip_air *a, double cl, bool *beyond)
{
    struct question q = {a, cl};
    gsl_function f = {excess, &q};
    double low = -drag_most_rad, high = drag_most_rad, at_low = excess(low, &q), at_high = excess(high, &q);
    *beyond = at_low * at_high > 0;
    if (*beyond)
        return fabs(at_low) < fabs(at_high) ? low : high;
    int status = gsl_root_fsolver_set(a->root, &f, low, high);
    for (int i = 0; i < STEPS_MOST && !status && gsl_root_test_interval(low, high, 1e-10, 0) != GSL_SUCCESS; i++) {
        status = gsl_root_fsolver_iterate(a->root);
        low = gsl_root_fsolver_x_lower(a->root);
        high = gsl_root_fsolver_x_upper(a->root);
    }
    return gsl_root_fsolver_root(a->root);
}

enum pl_status pl_strip_air_drag(struct pl_strip_air *a, double cl, double reynolds, struct pl_strip_drag *out, struct pl_problems *problems)
{
    struct pl_polar_row row;
    *out = (struct pl_strip_drag){(double)NAN, (double)NAN, (double)NAN, 1, 1, false, false};
    if (!isfinite(cl) || !is_reynolds(reynolds))
        return refuse(problems, PL_BAD_INPUT, "lift and Reynolds number of a strip must be numbers, the latter above 0");
    double alpha_rad = incidence_of(a, cl, &out->beyond);
    a->free_air->reynolds = reynolds;
    enum pl_status status = pl_polar_attached(a->free_air, alpha_rad * 180 / M_PI, &row, problems);
    if (status != PL_OK)
        return status;
    *out = (struct pl_strip_drag){row.alpha_deg, row.cl_potential, row.cd, row.turbulent_from_upper, row.turbulent_from_lower,
                                  row.separated, out->beyond};
    return PL_OK;
}

/* ---- lift ---- */

static void set_figures(struct pl_strip_lift *out, const struct pl_polar_row *row, double reynolds, double height)
{
    out->cl_thick = row->cl_potential;
    out->cl_limited = row->cl;
    out->cd = row->cd;
    if (fabs(out->cl_lattice) >= PL_STRIP_LEAST_CL)
        out->scale = row->cl / out->cl_lattice;
    out->limited = fmin(row->attached_upper, row->attached_lower) < leaves_ahead_of;
    out->separated = row->separated;
    out->settled = row->settled;
    out->n_doubts = pl_polar_doubts(row, reynolds, height, out->doubts);
}

/* The row alone, as if it were the first. */
static enum pl_status ask_row(struct pl_polar *p, double alpha_deg, double reynolds, double height, struct pl_polar_row *row,
                              struct pl_problems *problems)
{
    p->reynolds = reynolds;
    p->height = height;
    p->warm = false;
    return pl_polar_row(p, alpha_deg, row, problems);
}

enum pl_status pl_strip_air_lift(struct pl_strip_air *a, double cl_lattice, double reynolds, double height, struct pl_strip_lift *out,
                                 struct pl_problems *problems)
{
    struct pl_polar_row row;
    double alpha_rad, none = (double)NAN;
    *out = (struct pl_strip_lift){.alpha_deg = none, .cl_lattice = cl_lattice, .cl_thick = none, .cl_limited = none, .cd = none, .scale = 1};
    if (!isfinite(cl_lattice) || !is_reynolds(reynolds) || isinf(height))
        return refuse(problems, PL_BAD_INPUT, "lift, Reynolds number and height of a strip must be numbers, the second above 0");
    enum pl_thin_found found = pl_thin_section_incidence(a->thin, cl_lattice, height, &alpha_rad);
    if (found == PL_THIN_FAILS)
        return refuse(problems, PL_NOT_CONVERGED, "the flow past this mean line did not converge");
    out->touches = found == PL_THIN_TOUCHES;
    if (out->touches)
        return refuse(problems, PL_BAD_INPUT, "the section of this strip would touch the ground before it had so much lift");
    out->beyond = found == PL_THIN_BEYOND;
    enum pl_status status = ask_row(isnan(height) ? a->free_air : a->ground, alpha_rad * 180 / M_PI, reynolds, height, &row, problems);
    out->touches = status == PL_BAD_INPUT;
    if (status != PL_OK)
        return status;
    out->alpha_deg = row.alpha_deg;
    set_figures(out, &row, reynolds, height);
    return PL_OK;
}
