/* panel.c - closed forms of a straight panel (Katz and Plotkin, Low-Speed Aerodynamics, 2001, ch. 10; the stream function
 * is the harmonic conjugate of their potential). */
#include "flow_inside.h"

#include <math.h>

static const double two_pi = 6.283185307179586;

/* Place in the panel's own axes: t along from either end, n to the left. */
struct local { double t0, t1, n; };

static struct local local_at(const struct pl_panel *p, double x, double z)
{
    double dx = x - p->x, dz = z - p->z;
    double along = dx * p->tangent_x + dz * p->tangent_z, across = -dx * p->tangent_z + dz * p->tangent_x;
    /* Rounding must not put a middle on the wrong side of its own panel. */
    return (struct local){along, along - p->length, fabs(across) < 1e-12 * p->length ? 0 : across};
}

/* t ln r, 0 where both vanish. */
static double t_log(double t, double n)
{
    double r2 = t * t + n * n;
    return r2 > 0 ? 0.5 * t * log(r2) : 0;
}

double pl_panel_vortex(const struct pl_panel *p, double x, double z)
{
    struct local l = local_at(p, x, z);
    double h = fabs(l.n), angle = h > 0 ? h * (atan(l.t0 / h) - atan(l.t1 / h)) : 0;
    return (t_log(l.t0, l.n) - t_log(l.t1, l.n) - p->length + angle) / two_pi;
}

/* Angle of the way from a place to (x, z), counted from the reference. */
static double angle_from(double from_x, double from_z, double x, double z, double ref_x, double ref_z)
{
    double dx = x - from_x, dz = z - from_z;
    return atan2(ref_x * dz - ref_z * dx, ref_x * dx + ref_z * dz);
}

double pl_panel_source(const struct pl_panel *p, double x, double z, double ref_x, double ref_z)
{
    struct local l = local_at(p, x, z);
    double end_x = p->x + p->length * p->tangent_x, end_z = p->z + p->length * p->tangent_z;
    double first, last;
    if (l.n == 0 && l.t0 > 0 && l.t1 < 0) {
        /* On the panel, seen from its left: the angles of a place just there. */
        double left = angle_from(0, 0, -p->tangent_z, p->tangent_x, ref_x, ref_z), quarter = two_pi / 4;
        first = left - quarter;
        last = left + quarter;
    } else {
        first = angle_from(p->x, p->z, x, z, ref_x, ref_z);
        last = angle_from(end_x, end_z, x, z, ref_x, ref_z);
    }
    double logs = l.n == 0 ? 0 : 0.5 * l.n * (log(l.t0 * l.t0 + l.n * l.n) - log(l.t1 * l.t1 + l.n * l.n));
    return (l.t0 * first - l.t1 * last + logs) / two_pi;
}

/* ---- the same for many panels that share their nodes ---- */

struct pl_sight pl_sight_of(double from_x, double from_z, double x, double z)
{
    double dx = x - from_x, dz = z - from_z, r2 = dx * dx + dz * dz;
    return (struct pl_sight){dx, dz, r2 > 0 ? 0.5 * log(r2) : 0, atan2(dz, dx)};
}

/* Into half a circle to either side. */
static double wrapped(double angle)
{
    if (angle > two_pi / 2)
        return angle - two_pi;
    return angle <= -two_pi / 2 ? angle + two_pi : angle;
}

void pl_panel_influence(const struct pl_panel *p, const struct pl_sight *start, const struct pl_sight *end, double ref_angle, double *vortex,
                        double *source)
{
    double t0 = start->dx * p->tangent_x + start->dz * p->tangent_z, t1 = t0 - p->length;
    double n = -start->dx * p->tangent_z + start->dz * p->tangent_x, seen = fabs(wrapped(end->angle - start->angle));
    *vortex = (t0 * start->log_r - t1 * end->log_r - p->length + fabs(n) * seen) / two_pi;
    if (source)
        *source = (t0 * wrapped(start->angle - ref_angle) - t1 * wrapped(end->angle - ref_angle) + n * (start->log_r - end->log_r))
                  / two_pi;
}

void pl_panel_add_velocity(const struct pl_panel *p, double vortex, double source, double x, double z, double sign, double *u, double *w)
{
    struct local l = local_at(p, x, z);
    double near = l.t0 * l.t0 + l.n * l.n, far = l.t1 * l.t1 + l.n * l.n;
    if (!(near > 0) || !(far > 0))
        return;  /* a corner */
    double logs = 0.5 * log(near / far), angle = l.n == 0 ? 0 : atan2(l.n * p->length, near - l.t0 * p->length);
    /* Source: (logs, angle); vortex, clockwise: (angle, -logs); in the panel's axes. */
    double along = (source * logs + vortex * angle) / two_pi, across = (source * angle - vortex * logs) / two_pi;
    *u += along * p->tangent_x - across * p->tangent_z;
    *w += sign * (along * p->tangent_z + across * p->tangent_x);
}
