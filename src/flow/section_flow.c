#include "plyloft/section_flow.h"

#include "flow_inside.h"

#include <gsl/gsl_linalg.h>
#include <gsl/gsl_matrix.h>
#include <gsl/gsl_permutation.h>
#include <gsl/gsl_vector.h>

#include <math.h>
#include <stdlib.h>
#include <string.h>

struct pl_section_flow {
    struct pl_flow_panels p;
    double *slab;                     /* panels and scratch */
    double *x, *z, *length, *tangent_x, *tangent_z, *from_x, *from_z;
    double *normal;                   /* angle of the direction into the body */
    struct pl_panel edges[PL_FLOW_BODIES_MOST];  /* across open trailing edges */
    double ground_z;
    gsl_matrix *system;               /* factored */
    gsl_permutation *order;
    gsl_vector *right, *answer;
    gsl_matrix *sources;              /* stream function of each panel's source; NULL when not asked for */
    double *cosine, *sine;            /* free air: answers to either part of the onset flow */
};

/* ---- memory ---- */

struct pl_section_flow *pl_section_flow_new(void)
{
    return calloc(1, sizeof(struct pl_section_flow));
}

static void drop(struct pl_section_flow *f)
{
    free(f->slab);
    if (f->system)
        gsl_matrix_free(f->system);
    if (f->order)
        gsl_permutation_free(f->order);
    if (f->right)
        gsl_vector_free(f->right);
    if (f->answer)
        gsl_vector_free(f->answer);
    if (f->sources)
        gsl_matrix_free(f->sources);
    *f = (struct pl_section_flow){.ground_z = f->ground_z};
}

void pl_section_flow_free(struct pl_section_flow *f)
{
    if (!f)
        return;
    drop(f);
    free(f);
}

/* Memory grows only when the number of panels does not stay. */
static bool take_memory(struct pl_section_flow *f, size_t n, size_t bodies, bool sources)
{
    size_t rows = n + bodies;
    if (f->slab && f->p.count == n && f->p.n_bodies == bodies && (f->sources || !sources))
        return true;
    drop(f);
    f->slab = malloc((8 * n + 2 * rows) * sizeof *f->slab);
    f->system = gsl_matrix_alloc(rows, rows);
    f->order = gsl_permutation_alloc(rows);
    f->right = gsl_vector_alloc(rows);
    f->answer = gsl_vector_alloc(rows);
    f->sources = sources ? gsl_matrix_alloc(n, n) : NULL;
    if (!f->slab || !f->system || !f->order || !f->right || !f->answer || (sources && !f->sources)) {
        drop(f);
        return false;
    }
    double **parts[] = {&f->x, &f->z, &f->length, &f->tangent_x, &f->tangent_z, &f->from_x, &f->from_z, &f->normal};
    for (size_t i = 0; i < 8; i++)
        *parts[i] = f->slab + i * n;
    f->cosine = f->slab + 8 * n;
    f->sine = f->cosine + rows;
    f->p = (struct pl_flow_panels){.count = n, .n_bodies = bodies, .x = f->x, .z = f->z, .length = f->length,
                                   .tangent_x = f->tangent_x, .tangent_z = f->tangent_z};
    return true;
}

/* ---- panels ---- */

static bool set_panel(struct pl_section_flow *f, size_t i, struct pl_point a, struct pl_point b)
{
    double length = hypot(b.x - a.x, b.z - a.z);
    if (!(length > 1e-9) || !isfinite(length))
        return false;
    f->from_x[i] = a.x;
    f->from_z[i] = a.z;
    f->x[i] = 0.5 * (a.x + b.x);
    f->z[i] = 0.5 * (a.z + b.z);
    f->length[i] = length;
    f->tangent_x[i] = (b.x - a.x) / length;
    f->tangent_z[i] = (b.z - a.z) / length;
    f->normal[i] = atan2(f->tangent_x[i], -f->tangent_z[i]);
    return true;
}

static struct pl_panel panel_at(const struct pl_section_flow *f, size_t i)
{
    return (struct pl_panel){f->from_x[i], f->from_z[i], f->length[i], f->tangent_x[i], f->tangent_z[i]};
}

/* From the lower corner to the upper one, so that out of the body is to its right as everywhere. */
static void set_edge(struct pl_section_flow *f, size_t body, struct pl_point lower, struct pl_point upper)
{
    double gap = hypot(upper.x - lower.x, upper.z - lower.z);
    f->p.gap[body] = gap > 1e-9 ? gap : 0;
    f->edges[body] = (struct pl_panel){lower.x, lower.z, f->p.gap[body], gap > 0 ? (upper.x - lower.x) / gap : 0,
                                       gap > 0 ? (upper.z - lower.z) / gap : 1};
}

static enum pl_status set_panels(struct pl_section_flow *f, const struct pl_flow_body *bodies, size_t n, struct pl_problems *problems)
{
    size_t at = 0;
    for (size_t b = 0; b < n; b++) {
        const struct pl_flow_body *body = &bodies[b];
        f->p.first[b] = at;
        for (size_t i = 0; i + 1 < body->count; i++)
            if (!set_panel(f, at++, body->nodes[i], body->nodes[i + 1])) {
                pl_problem_addf(problems, PL_ERROR, "", "two nodes of the outline, %zu and the next, stand on each other", i);
                return PL_BAD_INPUT;
            }
        set_edge(f, b, body->nodes[body->count - 1], body->nodes[0]);
    }
    f->p.first[n] = at;
    return PL_OK;
}

static enum pl_status refuse(struct pl_problems *problems, const char *sentence)
{
    pl_problem_add(problems, PL_ERROR, "", sentence, NULL);
    return PL_BAD_INPUT;
}

static enum pl_status over_ground(const struct pl_flow_body *bodies, size_t n, double ground_z, struct pl_problems *problems)
{
    double side = bodies[0].nodes[0].z - ground_z;
    for (size_t b = 0; b < n && !isnan(ground_z); b++)
        for (size_t i = 0; i < bodies[b].count; i++)
            if (!((bodies[b].nodes[i].z - ground_z) * side > 0))
                return refuse(problems, "the section touches or crosses the ground");
    return PL_OK;
}

/* ---- the system ---- */

/* Stream function at the middle of panel i of a unit source on a panel, its image included.  The cut across which it jumps
 * goes out of its own body, and from its image away from the body: neither meets a middle of this body.  Another body may
 * lie across it, and then would see it turned by whole circles: for that one the cut is laid on the far side. */
static double source_at(const struct pl_section_flow *f, const struct pl_panel *panel, bool own, size_t i)
{
    double psi = own ? pl_panel_source(panel, f->x[i], f->z[i], -panel->tangent_z, panel->tangent_x)
                     : pl_panel_source(panel, f->x[i], f->z[i], f->x[i] - panel->x, f->z[i] - panel->z);
    if (!isnan(f->ground_z))
        psi -= pl_panel_source(panel, f->x[i], 2 * f->ground_z - f->z[i], 0, f->ground_z > f->z[i] ? 1 : -1);
    return psi;
}

static size_t body_of(const struct pl_section_flow *f, size_t i)
{
    size_t b = 0;
    while (f->p.first[b + 1] <= i)
        b++;
    return b;
}

/* An open edge gives off its width times the speed beside it, half of either side's. */
static void add_edges(struct pl_section_flow *f)
{
    for (size_t b = 0; b < f->p.n_bodies; b++)
        for (size_t i = 0; i < f->p.count && f->p.gap[b] > 0; i++) {
            double half = 0.5 * source_at(f, &f->edges[b], body_of(f, i) == b, i);
            *gsl_matrix_ptr(f->system, i, f->p.first[b]) += half;
            *gsl_matrix_ptr(f->system, i, f->p.first[b + 1] - 1) -= half;
        }
}

/* Row i of a body's panels: each node is seen once, by the panels on either side of it. */
static void fill_row(struct pl_section_flow *f, size_t i, size_t body)
{
    bool ground = !isnan(f->ground_z), own = body_of(f, i) == body;
    double image_z = 2 * f->ground_z - f->z[i], up = f->ground_z > f->z[i] ? M_PI_2 : -M_PI_2;
    size_t first = f->p.first[body], end = f->p.first[body + 1];
    struct pl_sight start = pl_sight_of(f->from_x[first], f->from_z[first], f->x[i], f->z[i]), start_image = start;
    if (ground)
        start_image = pl_sight_of(f->from_x[first], f->from_z[first], f->x[i], image_z);
    for (size_t j = first; j < end; j++) {
        struct pl_panel p = panel_at(f, j);
        double to_x = p.x + p.length * p.tangent_x, to_z = p.z + p.length * p.tangent_z, vortex, source = 0, of_image, source_image;
        double *sources = f->sources ? gsl_matrix_ptr(f->sources, i, j) : NULL;
        struct pl_sight stop = pl_sight_of(to_x, to_z, f->x[i], f->z[i]);
        double inward = f->normal[j], ref = own ? inward : 0.5 * (start.angle + stop.angle);
        pl_panel_influence(&p, &start, &stop, ref, &vortex, sources ? &source : NULL);
        if (i == j || (sources && !own))
            source = pl_panel_source(&p, f->x[i], f->z[i], own ? -p.tangent_z : f->x[i] - p.x, own ? p.tangent_x : f->z[i] - p.z);
        if (ground) {
            struct pl_sight stop_image = pl_sight_of(to_x, to_z, f->x[i], image_z);
            pl_panel_influence(&p, &start_image, &stop_image, up, &of_image, &source_image);
            vortex -= of_image;
            source -= source_image;
            start_image = stop_image;
        }
        gsl_matrix_set(f->system, i, j, vortex);
        if (sources)
            *sources = source;
        start = stop;
    }
}

static void fill_system(struct pl_section_flow *f)
{
    size_t n = f->p.count;
    gsl_matrix_set_zero(f->system);
    for (size_t i = 0; i < n; i++)
        for (size_t b = 0; b < f->p.n_bodies; b++)
            fill_row(f, i, b);
    for (size_t b = 0; b < f->p.n_bodies; b++) {
        for (size_t i = f->p.first[b]; i < f->p.first[b + 1]; i++)
            gsl_matrix_set(f->system, i, n + b, -1);
        gsl_matrix_set(f->system, n + b, f->p.first[b], 1);
        gsl_matrix_set(f->system, n + b, f->p.first[b + 1] - 1, 1);
    }
    add_edges(f);
}

/* Solves for what stands in right. */
static bool solve(struct pl_section_flow *f, double *out, size_t count)
{
    if (gsl_linalg_LU_solve(f->system, f->order, f->right, f->answer))
        return false;
    bool finite = true;
    for (size_t i = 0; i < count; i++) {
        out[i] = gsl_vector_get(f->answer, i);
        finite = finite && isfinite(out[i]);
    }
    return finite;
}

static bool solve_onset(struct pl_section_flow *f, double along, double across, double *out)
{
    gsl_vector_set_zero(f->right);
    for (size_t i = 0; i < f->p.count; i++)
        gsl_vector_set(f->right, i, -(along * f->z[i] - across * f->x[i]));
    return solve(f, out, f->p.count + f->p.n_bodies);
}

enum pl_status pl_section_flow_set(struct pl_section_flow *f, const struct pl_flow_body *bodies, size_t n, double ground_z, bool sources,
                                   struct pl_problems *problems)
{
    size_t panels = 0;
    int sign;
    for (size_t b = 0; b < n && b < PL_FLOW_BODIES_MOST; b++)
        panels += bodies[b].count < 4 ? PL_FLOW_PANELS_MOST : bodies[b].count - 1;
    if (n < 1 || n > PL_FLOW_BODIES_MOST || panels >= PL_FLOW_PANELS_MOST)
        return refuse(problems, "needs one to four bodies of at least 4 nodes, and fewer than 1000 panels in all");
    f->ground_z = ground_z;
    enum pl_status status = over_ground(bodies, n, ground_z, problems);
    if (status != PL_OK)
        return status;
    if (!take_memory(f, panels, n, sources))
        return PL_NO_MEMORY;
    status = set_panels(f, bodies, n, problems);
    if (status != PL_OK)
        return status;
    fill_system(f);
    bool good = !gsl_linalg_LU_decomp(f->system, f->order, &sign) && solve_onset(f, 1, 0, f->cosine) && solve_onset(f, 0, 1, f->sine);
    if (!good) {
        pl_problem_add(problems, PL_ERROR, "", "the flow round this outline did not converge", NULL);
        return PL_NOT_CONVERGED;
    }
    return PL_OK;
}

const struct pl_flow_panels *pl_section_flow_panels(const struct pl_section_flow *f)
{
    return &f->p;
}

/* ---- answers ---- */

static bool add_sources(struct pl_section_flow *f, const double *source, double *speed, double keep)
{
    for (size_t i = 0; i < f->p.count + f->p.n_bodies; i++)
        gsl_vector_set(f->right, i, 0);
    for (size_t i = 0; i < f->p.count; i++) {
        const double *row = gsl_matrix_const_ptr(f->sources, i, 0);
        double sum = 0;
        for (size_t j = 0; j < f->p.count; j++)
            sum += row[j] * source[j];
        gsl_vector_set(f->right, i, -sum);
    }
    if (gsl_linalg_LU_solve(f->system, f->order, f->right, f->answer))
        return false;
    bool finite = true;
    for (size_t i = 0; i < f->p.count; i++) {
        speed[i] = keep * speed[i] + gsl_vector_get(f->answer, i);
        finite = finite && isfinite(speed[i]);
    }
    return finite;
}

bool pl_section_flow_speeds(struct pl_section_flow *f, double alpha_rad, const double *source, double *speed)
{
    double c = cos(alpha_rad), s = sin(alpha_rad);
    for (size_t i = 0; i < f->p.count; i++)
        speed[i] = c * f->cosine[i] + s * f->sine[i];
    return !source || !f->sources || add_sources(f, source, speed, 1);
}

bool pl_section_flow_of_sources(struct pl_section_flow *f, const double *source, double *speed)
{
    memset(speed, 0, f->p.count * sizeof *speed);
    return f->sources && add_sources(f, source, speed, 0);
}

/* Speed where the air leaves an edge. */
static double edge_speed(const struct pl_section_flow *f, size_t body, const double *speed)
{
    return 0.5 * fabs(speed[f->p.first[body]] - speed[f->p.first[body + 1] - 1]);
}

struct pl_flow_force pl_section_flow_force(const struct pl_section_flow *f, size_t body, double alpha_rad, const double *speed,
                                           const double *source, double x, double z)
{
    double force_x = 0, force_z = 0, moment = 0;
    for (size_t i = f->p.first[body]; i < f->p.first[body + 1]; i++) {
        double out = source ? source[i] : 0, pressure = 1 - speed[i] * speed[i] - out * out;
        /* Pressure pushes inward, to the left of the panel. */
        double px = -pressure * f->length[i] * f->tangent_z[i], pz = pressure * f->length[i] * f->tangent_x[i];
        force_x += px;
        force_z += pz;
        moment += (f->z[i] - z) * px - (f->x[i] - x) * pz;
    }
    double edge = edge_speed(f, body, speed), pressure = 1 - edge * edge;
    const struct pl_panel *e = &f->edges[body];
    double px = -pressure * e->length * e->tangent_z, pz = pressure * e->length * e->tangent_x;
    double mid_x = e->x + 0.5 * e->length * e->tangent_x, mid_z = e->z + 0.5 * e->length * e->tangent_z;
    force_x += px;
    force_z += pz;
    moment += (mid_z - z) * px - (mid_x - x) * pz;
    double c = cos(alpha_rad), s = sin(alpha_rad);
    return (struct pl_flow_force){force_z * c - force_x * s, force_x * c + force_z * s, moment};
}

/* Of a source of strength Q in a stream a force -Q pulls forward; what leaves carries its momentum away (Milne-Thomson,
 * Theoretical Hydrodynamics, 8.63). */
double pl_section_flow_edge_drag(const struct pl_section_flow *f, size_t body, const double *speed)
{
    double edge = edge_speed(f, body, speed);
    return 2 * f->p.gap[body] * edge * (edge - 1);
}

void pl_section_flow_velocity(const struct pl_section_flow *f, double alpha_rad, const double *speed, double x, double z, double *u, double *w)
{
    *u = cos(alpha_rad);
    *w = sin(alpha_rad);
    double mirrored_z = 2 * f->ground_z - z;
    for (size_t i = 0; i < f->p.count; i++) {
        struct pl_panel panel = panel_at(f, i);
        pl_panel_add_velocity(&panel, speed[i], 0, x, z, 1, u, w);
        if (!isnan(f->ground_z))
            pl_panel_add_velocity(&panel, -speed[i], 0, x, mirrored_z, -1, u, w);
    }
    for (size_t b = 0; b < f->p.n_bodies; b++) {
        double out = edge_speed(f, b, speed);
        if (f->p.gap[b] <= 0)
            continue;
        pl_panel_add_velocity(&f->edges[b], 0, out, x, z, 1, u, w);
        if (!isnan(f->ground_z))
            pl_panel_add_velocity(&f->edges[b], 0, out, x, mirrored_z, -1, u, w);
    }
}
