#include "polar_inside.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double separated_ahead_of = 0.95;

/* ---- memory ---- */

static bool take_memory(struct pl_polar *p)
{
    size_t n = p->panels, side = n + 2;
    p->flow = pl_section_flow_new();
    p->nodes = malloc(2 * (n + 1) * sizeof *p->nodes);
    p->slab = calloc(10 * n + 10 * side, sizeof *p->slab);
    if (!p->flow || !p->nodes || !p->slab)
        return false;
    p->turned = p->nodes + n + 1;
    double **whole[] = {&p->x, &p->potential, &p->limited, &p->source, &p->wanted, &p->whole,
                        &p->unit[0], &p->unit[1], &p->made[0], &p->made[1]};
    for (size_t i = 0; i < 10; i++)
        *whole[i] = p->slab + i * n;
    for (size_t k = 0; k < 2; k++) {
        struct pl_flow_side *s = &p->sides[k];
        double *at = p->slab + 10 * n + 5 * k * side;
        s->way = at;
        s->speed = at + side;
        s->x = at + 2 * side;
        s->layer = (struct pl_boundary_layer){.way = s->way, .speed = s->speed, .theta = at + 3 * side, .shape = at + 4 * side};
    }
    return true;
}

void pl_polar_free(struct pl_polar *p)
{
    if (!p)
        return;
    pl_section_flow_free(p->flow);
    free(p->nodes);
    free(p->slab);
    free(p);
}

static enum pl_status free_air(struct pl_polar *p, struct pl_problems *problems)
{
    struct pl_flow_body body = {p->nodes, p->panels + 1};
    p->quarter = (struct pl_point){0.25, 0};
    return pl_section_flow_set(p->flow, &body, 1, (double)NAN, true, problems);
}

enum pl_status pl_polar_start(struct pl_polar **out, const struct pl_profile *profile, double reynolds, double height, size_t panels,
                              struct pl_problems *problems)
{
    struct pl_polar *p = calloc(1, sizeof *p);
    enum pl_status status = PL_NO_MEMORY;
    *out = NULL;
    if (!p)
        return status;
    p->panels = panels;
    p->reynolds = reynolds;
    p->height = height;
    if (take_memory(p) && pl_flow_outline(profile, p->nodes, panels + 1)) {
        for (size_t i = 0; i < panels; i++)
            p->x[i] = 0.5 * (p->nodes[i].x + p->nodes[i + 1].x);
        status = isnan(height) ? free_air(p, problems) : PL_OK;
    }
    if (status == PL_OK)
        *out = p;
    else
        pl_polar_free(p);
    return status;
}

/* ---- over ground ---- */

/* Upright and turned, the ground above it: the inverted section over the ground seen in a mirror. */
static enum pl_status over_ground(struct pl_polar *p, double alpha_rad, struct pl_polar_row *row, struct pl_problems *problems)
{
    double c = cos(alpha_rad), s = sin(alpha_rad), highest = -HUGE_VAL;
    for (size_t i = 0; i <= p->panels; i++) {
        p->turned[i] = (struct pl_point){p->nodes[i].x * c + p->nodes[i].z * s, p->nodes[i].z * c - p->nodes[i].x * s};
        highest = fmax(highest, p->turned[i].z);
    }
    double ground_z = 0.5 * (p->turned[0].z + p->turned[p->panels].z) + p->height;
    struct pl_flow_body body = {p->turned, p->panels + 1};
    p->quarter = (struct pl_point){0.25 * c, -0.25 * s};
    row->clearance = ground_z - highest;
    return pl_section_flow_set(p->flow, &body, 1, ground_z, true, problems);
}

/* ---- sides ---- */

/* The panel behind which speeds change from clockwise to anticlockwise; the one nearest the nose of several. */
static bool find_stagnation(const struct pl_polar *p, const double *speed, size_t *at)
{
    bool found = false;
    size_t nose = p->panels / 2, best = p->panels;
    for (size_t i = 0; i + 1 < p->panels; i++) {
        size_t far = i > nose ? i - nose : nose - i;
        if (speed[i] > 0 && speed[i + 1] <= 0 && far < best) {
            best = far;
            *at = i;
            found = true;
        }
    }
    return found;
}

/* Points from the stagnation point on, a share of the way between two panels' middles. */
static void set_side(struct pl_polar *p, struct pl_flow_side *s, const double *speed, size_t first, int step, double lead)
{
    const struct pl_flow_panels *panels = pl_section_flow_panels(p->flow);
    size_t n = 1, i = first;
    double way = lead;
    s->first = first;
    s->step = step;
    s->way[0] = s->speed[0] = 0;
    for (;;) {
        s->way[n] = way;
        s->speed[n] = -step * speed[i];
        s->x[n] = p->x[i];
        n++;
        if (step < 0 ? i == 0 : i + 1 == p->panels)
            break;
        size_t next = step < 0 ? i - 1 : i + 1;
        way += 0.5 * (panels->length[i] + panels->length[next]);
        i = next;
    }
    s->x[0] = s->x[1];
    s->layer.count = n;
}

bool pl_polar_sides(struct pl_polar *p, const double *speed)
{
    const struct pl_flow_panels *panels = pl_section_flow_panels(p->flow);
    size_t at = 0;
    if (!find_stagnation(p, speed, &at))
        return false;
    double between = 0.5 * (panels->length[at] + panels->length[at + 1]), share = speed[at] / (speed[at] - speed[at + 1]);
    /* A stagnation point on a panel's very middle: the layer begins a little ahead of it. */
    double least = 1e-3 * between;
    set_side(p, &p->sides[0], speed, at, -1, fmax(least, share * between));
    set_side(p, &p->sides[1], speed, at + 1, 1, fmax(least, (1 - share) * between));
    return true;
}

double pl_polar_x_at(const struct pl_flow_side *s, double way)
{
    size_t n = s->layer.count, i = 1;
    if (way >= s->way[n - 1])
        return s->x[n - 1];
    while (i + 1 < n && s->way[i] < way)
        i++;
    double share = (way - s->way[i - 1]) / (s->way[i] - s->way[i - 1]);
    return s->x[i - 1] + share * (s->x[i] - s->x[i - 1]);
}

/* ---- rows ---- */

enum { STEPS = 4 };

/* The nose of a cambered shape stands a little ahead of its chord. */
static double chord_fraction(double x)
{
    return fmin(1, fmax(0, x));
}

static bool set_drag(struct pl_polar *p, struct pl_polar_row *row)
{
    double *turbulent[] = {&row->turbulent_from_upper, &row->turbulent_from_lower};
    double *separates[] = {&row->separates_upper, &row->separates_lower};
    row->cd = 0;
    if (!pl_polar_sides(p, p->potential))
        return false;
    for (size_t k = 0; k < 2; k++) {
        struct pl_flow_side *s = &p->sides[k];
        struct pl_boundary_layer *l = &s->layer;
        if (!pl_boundary_layer_march(l, p->reynolds, PL_SHAPE_SEPARATES, STEPS))
            return false;
        row->cd += pl_boundary_layer_drag(l);
        *turbulent[k] = l->turbulent_from < l->count ? chord_fraction(pl_polar_x_at(s, l->turbulent_way)) : 1;
        *separates[k] = l->separates_at < l->count ? chord_fraction(s->x[l->separates_at - 1]) : 1;
        row->separated = row->separated || *separates[k] < separated_ahead_of;
    }
    return isfinite(row->cd);
}

static enum pl_status no_answer(struct pl_problems *problems, const char *sentence)
{
    pl_problem_add(problems, PL_ERROR, "", sentence, NULL);
    return PL_NOT_CONVERGED;
}

enum pl_status pl_polar_attached(struct pl_polar *p, double alpha_deg, struct pl_polar_row *row, struct pl_problems *problems)
{
    double alpha_rad = alpha_deg * M_PI / 180;
    enum pl_status status = PL_OK;
    *row = (struct pl_polar_row){.alpha_deg = alpha_deg, .clearance = (double)NAN};
    if (!isnan(p->height))
        status = over_ground(p, alpha_rad, row, problems);
    if (status != PL_OK)
        return status;
    p->alpha_rad = isnan(p->height) ? alpha_rad : 0;
    if (!pl_section_flow_speeds(p->flow, p->alpha_rad, NULL, p->potential))
        return no_answer(problems, "the flow round this outline did not converge");
    struct pl_flow_force f = pl_section_flow_force(p->flow, 0, p->alpha_rad, p->potential, NULL, p->quarter.x, p->quarter.z);
    row->cl_potential = f.lift;
    row->cm_potential = f.moment;
    if (!isfinite(f.lift) || !isfinite(f.moment))
        return no_answer(problems, "the flow round this outline did not converge");
    if (!set_drag(p, row))
        return no_answer(problems, "no boundary layer can be followed along this outline: the flow has no stagnation point at its nose");
    return PL_OK;
}

enum pl_status pl_polar_row(struct pl_polar *p, double alpha_deg, struct pl_polar_row *row, struct pl_problems *problems)
{
    enum pl_status status = pl_polar_attached(p, alpha_deg, row, problems);
    if (status != PL_OK)
        return status;
    /* Only on the way away from zero lift, as stall comes about: on the way back another answer could be found. */
    p->warm = p->warm && row->cl_potential * p->last_lift > 0 && fabs(row->cl_potential) > fabs(p->last_lift);
    p->last_lift = row->cl_potential;
    return pl_polar_limit(p, row);
}

size_t pl_polar_pressures(const struct pl_polar *p, struct pl_polar_pressure *out, size_t most)
{
    size_t n = p->panels < most ? p->panels : most;
    for (size_t i = 0; i < n; i++)
        out[i] = (struct pl_polar_pressure){p->x[i], 0.5 * (p->nodes[i].z + p->nodes[i + 1].z), 1 - p->potential[i] * p->potential[i],
                                            1 - p->limited[i] * p->limited[i] - p->whole[i] * p->whole[i]};
    return n;
}
