/* flows.h - sections for tests of the flow: NACA shapes, mapped circles, and the flow round one body in one call.
 *
 * Bodies are lists of nodes from the trailing edge over the upper surface round the nose and back; what cannot be set up
 * fails the test.
 */
#ifndef PLYLOFT_TESTS_FLOWS_H
#define PLYLOFT_TESTS_FLOWS_H

#include "../support.h"

#include "plyloft/section_flow.h"

#include <complex.h>
#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

#define assert_near(got, want, absolute) \
    do { \
        if (!(fabs((got) - (want)) <= (absolute))) \
            fail_msg("%s is %.10g, not %.10g within %.3g", #got, (double)(got), (double)(want), (double)(absolute)); \
    } while (0)

#define assert_between(got, least, most) \
    do { \
        if (!((got) >= (least) && (got) <= (most))) \
            fail_msg("%s is %.10g, not from %.10g to %.10g", #got, (double)(got), (double)(least), (double)(most)); \
    } while (0)

/* I of complex.h is a float. */
#define i_unit ((double complex)I)

enum { NODES_MOST = PL_FLOW_PANELS_MOST };

static const double degree = M_PI / 180;

/* One body in the flow and what comes of it. */
struct trial {
    struct pl_section_flow *flow;
    double speed[PL_FLOW_PANELS_MOST];
    struct pl_flow_force force;
    double circulation_lift, edge_drag;  /* 2 x circulation; what an open edge's outflow carries */
};

static inline void set_bodies(struct trial *t, const struct pl_flow_body *bodies, size_t n, double ground_z, double alpha_rad)
{
    struct pl_problems problems = {0};
    t->flow = pl_section_flow_new();
    assert_non_null(t->flow);
    if (pl_section_flow_set(t->flow, bodies, n, ground_z, false, &problems) != PL_OK)
        fail_msg("the flow cannot be set: %s", problems.count ? problems.list[0].rule : "");
    assert_true(pl_section_flow_speeds(t->flow, alpha_rad, NULL, t->speed));
    pl_problems_free(&problems);
}

static inline struct trial flow_round(const struct pl_point *nodes, size_t count, double ground_z, double alpha_rad)
{
    struct trial t = {0};
    struct pl_flow_body body = {nodes, count};
    set_bodies(&t, &body, 1, ground_z, alpha_rad);
    t.force = pl_section_flow_force(t.flow, 0, alpha_rad, t.speed, NULL, 0.25, 0);
    t.edge_drag = pl_section_flow_edge_drag(t.flow, 0, alpha_rad, t.speed);
    const struct pl_flow_panels *p = pl_section_flow_panels(t.flow);
    for (size_t i = 0; i < p->count; i++)
        t.circulation_lift += 2 * t.speed[i] * p->length[i];
    return t;
}

/* The same when only its figures are wanted. */
static inline struct trial figures_round(const struct pl_point *nodes, size_t count, double ground_z, double alpha_rad)
{
    struct trial t = flow_round(nodes, count, ground_z, alpha_rad);
    pl_section_flow_free(t.flow);
    t.flow = NULL;
    return t;
}

static inline void naca_nodes(const char *designation, struct pl_point *nodes, size_t panels)
{
    struct pl_profile profile = {.name = "section", .naca = designation};
    assert_true(panels < NODES_MOST);
    assert_true(pl_flow_outline(&profile, nodes, panels + 1));
}

static inline struct trial naca_flow(const char *designation, size_t panels, double alpha_deg)
{
    static struct pl_point nodes[NODES_MOST];
    naca_nodes(designation, nodes, panels);
    return figures_round(nodes, panels + 1, (double)NAN, alpha_deg * degree);
}

/* ---- a circle mapped to a section ----
 *
 * z / k = ((1 + 1/zeta)^k + (1 - 1/zeta)^k) / ((1 + 1/zeta)^k - (1 - 1/zeta)^k): of a circle through zeta = 1 a section with a
 * tail of (2 - k) pi (Karman and Trefftz 1918); k = 2 gives Joukowski's, with a cusp.  In the plane of the circle, of centre s
 * and radius R, the velocity is
 *
 *     W = e^-ia + i Gamma / (2 pi (zeta - s)) - R^2 e^ia / (zeta - s)^2,   Gamma = 4 pi R sin(a + beta),
 *
 * so that zeta = 1, at the angle -beta seen from s, is a stagnation point; in that of the section W / (dz / dzeta).
 */
struct mapped { double complex centre; double k, radius, beta, chord, nose; };

static inline double complex mapped_place(const struct mapped *m, double theta, double complex *zeta)
{
    *zeta = m->centre + m->radius * cexp(i_unit * theta);
    double complex a = cpow(1 + 1 / *zeta, m->k), b = cpow(1 - 1 / *zeta, m->k);
    return m->k * (a + b) / (a - b);
}

static inline struct mapped mapped_make(double k, double complex centre)
{
    struct mapped m = {.k = k, .centre = centre, .radius = cabs(1 - centre), .beta = asin(cimag(centre) / cabs(1 - centre))};
    double least = HUGE_VAL;
    double complex zeta;
    for (int i = 0; i < 200000; i++)
        least = fmin(least, creal(mapped_place(&m, 0.5 * M_PI + M_PI * i / 200000, &zeta)));
    m.nose = least;
    m.chord = k - least;  /* the tail stands at z = k */
    return m;
}

/* The angle on the circle of a share of the way round, from the tail over the upper surface. */
static inline double mapped_angle(const struct mapped *m, double share)
{
    return -m->beta + 2 * M_PI * share;
}

static inline void mapped_nodes(const struct mapped *m, struct pl_point *nodes, size_t panels)
{
    double complex zeta;
    for (size_t i = 0; i <= panels; i++) {
        double complex z = i == 0 || i == panels ? m->k : mapped_place(m, mapped_angle(m, (double)i / (double)panels), &zeta);
        nodes[i] = (struct pl_point){(creal(z) - m->nose) / m->chord, cimag(z) / m->chord};
    }
}

static inline double mapped_lift(const struct mapped *m, double alpha_rad)
{
    return 8 * M_PI * m->radius / m->chord * sin(alpha_rad + m->beta);
}

/* Speed on the surface. */
static inline double mapped_speed(const struct mapped *m, double theta, double alpha_rad)
{
    double complex zeta, from;
    mapped_place(m, theta, &zeta);
    from = zeta - m->centre;
    double complex a = cpow(1 + 1 / zeta, m->k), b = cpow(1 - 1 / zeta, m->k);
    double complex slope = 4 * m->k * m->k / (zeta * zeta - 1) * a * b / ((a - b) * (a - b));
    double complex w = cexp(-i_unit * alpha_rad) + 2 * i_unit * m->radius * sin(alpha_rad + m->beta) / from
                       - m->radius * m->radius * cexp(i_unit * alpha_rad) / (from * from);
    return cabs(w / slope);
}

#endif
