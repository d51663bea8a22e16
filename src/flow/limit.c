/* limit.c - what boundary layers leave of the lift: flow and layers iterated until they agree.
 *
 * Attached layers displace the air: sources on the panels, d(u delta*)/ds.  Behind the place where a turbulent layer leaves
 * the surface the air is at rest at one pressure; an even outflow from there to the edge is as strong as makes the speed at
 * the edge equal to that at the place of separation. */
#include "polar_inside.h"

#include <math.h>
#include <string.h>

/* Head's H at separation is 1.8 to 2.8 in measurements.  The contract's 2.4 ends the summing of drag; here, where the flow
 * gives way as the layer thickens, the late end of that range places the greatest lift of 12 % sections best. */
static const double shape_separates = 2.8;
static const double least_source = -0.05, most_source = 0.1;
static const double most_forward = 1, most_back = -3;  /* panels a round that separation moves */

static const double second_side = 0.1;  /* panels of all: 0.9 of the chord */
static const double rises_over = 0.6;  /* of the separated panels, from nothing to the even outflow */

enum { ROUNDS_MOST = 90, ROUNDS_AVERAGED = 8, STEPS = 2 };

/* What the rounds come to, for the mean of the last ones. */
struct rounds { double cl[ROUNDS_AVERAGED], cm[ROUNDS_AVERAGED]; size_t count; };

static double mean(const double *values, size_t count)
{
    double sum = 0;
    size_t n = count < ROUNDS_AVERAGED ? count : ROUNDS_AVERAGED;
    for (size_t i = 0; i < n; i++)
        sum += values[i];
    return sum / (double)n;
}

/* Panel a number of panels from the trailing edge on along a side. */
static size_t panel_from_edge(const struct pl_polar *p, int side, size_t number)
{
    return side == 0 ? number : p->panels - 1 - number;
}

/* Speed at a place between two panels' middles, counted from the edge. */
static double speed_from_edge(const struct pl_polar *p, int side, const double *speed, double number)
{
    size_t whole = (size_t)number;
    double share = number - (double)whole;
    double a = speed[panel_from_edge(p, side, whole)], b = speed[panel_from_edge(p, side, whole + 1)];
    return a + share * (b - a);
}

/* How much faster the air is at the edge than where it leaves that side. */
static double edge_over_separation(const struct pl_polar *p, int side, const double *speed)
{
    return speed[panel_from_edge(p, side, 0)] - speed_from_edge(p, side, speed, p->separated[side]);
}

/* An outflow from the separated part of a side: nothing where the layer leaves, so that no speed jumps there, rising to an
 * even one. */
static bool make_unit(struct pl_polar *p, int side)
{
    double separated = p->separated[side];
    memset(p->unit[side], 0, p->panels * sizeof **p->unit);
    for (size_t k = 0; k < (size_t)separated + 1; k++)
        p->unit[side][panel_from_edge(p, side, k)] = fmax(0, fmin(1, (separated - (double)k) / fmax(1, separated * rises_over)));
    return pl_section_flow_of_sources(p->flow, p->unit[side], p->made[side]);
}

/* At an edge both layers are always near to leaving: the side that leaves less counts only when it leaves well ahead. */
static bool is_separated(const struct pl_polar *p, int side)
{
    double least = p->separated[side] < p->separated[!side] ? second_side * (double)p->panels : 1;
    return p->separated[side] >= least;
}

/* As strong as makes the speed at the edge, on each separated side, that of the place where the air leaves: one equation a
 * side. */
static void find_outflows(const struct pl_polar *p, double outflow[2])
{
    double a[2][2] = {{1, 0}, {0, 1}}, b[2] = {0, 0};
    for (int k = 0; k < 2; k++) {
        if (!is_separated(p, k))
            continue;
        b[k] = -edge_over_separation(p, k, p->limited);
        for (int j = 0; j < 2; j++)
            a[k][j] = is_separated(p, j) ? edge_over_separation(p, k, p->made[j]) : 0;
    }
    double det = a[0][0] * a[1][1] - a[0][1] * a[1][0];
    if (fabs(det) < 1e-9) {
        outflow[0] = outflow[1] = 0;
        return;
    }
    outflow[0] = fmin(1, fmax(0, (b[0] * a[1][1] - a[0][1] * b[1]) / det));
    outflow[1] = fmin(1, fmax(0, (a[0][0] * b[1] - b[0] * a[1][0]) / det));
}

static bool flow_with_layers(struct pl_polar *p)
{
    double outflow[2];
    memcpy(p->whole, p->source, p->panels * sizeof *p->whole);
    if (!pl_section_flow_speeds(p->flow, p->alpha_rad, p->whole, p->limited))
        return false;
    for (int k = 0; k < 2; k++)
        if (is_separated(p, k) && !make_unit(p, k))
            return false;
    find_outflows(p, outflow);
    for (int k = 0; k < 2; k++)
        for (size_t i = 0; i < p->panels && is_separated(p, k); i++) {
            p->limited[i] += outflow[k] * p->made[k][i];
            p->whole[i] += outflow[k] * p->unit[k][i];
        }
    return true;
}

/* Growth of u delta* along a side, where the layer is attached. */
static void want_sources(struct pl_polar *p, const struct pl_flow_side *s)
{
    const struct pl_boundary_layer *l = &s->layer;
    size_t end = l->separates_at;  /* one behind the last attached point */
    for (size_t i = 1; i < l->count; i++) {
        size_t panel = s->step < 0 ? s->first - (i - 1) : s->first + (i - 1), a = i - 1, b = i + 1 < end ? i + 1 : end - 1;
        double grows = 0;
        if (i < end && b > a)
            grows = (l->speed[b] * l->theta[b] * l->shape[b] - l->speed[a] * l->theta[a] * l->shape[a]) / (l->way[b] - l->way[a]);
        p->wanted[panel] = fmin(most_source, fmax(least_source, grows));
    }
}

/* Panels behind the place of separation, in panels and parts of one. */
static double separated_panels(const struct pl_boundary_layer *l)
{
    if (l->separates_at >= l->count)
        return 0;
    size_t i = l->separates_at;
    double share = (l->separates_way - l->way[i - 1]) / (l->way[i] - l->way[i - 1]);
    return (double)(l->count - i) + 1 - fmin(1, fmax(0, share)) - 0.5;
}

/* Both layers on the speeds in hand, and where they leave the surface. */
static bool march_layers(struct pl_polar *p, double wanted[2])
{
    if (!pl_polar_sides(p, p->limited))
        return false;
    for (int k = 0; k < 2; k++) {
        struct pl_flow_side *s = &p->sides[k];
        if (!pl_boundary_layer_march(&s->layer, p->reynolds, shape_separates, STEPS))
            return false;
        want_sources(p, s);
        wanted[k] = separated_panels(&s->layer);
    }
    return true;
}

/* A part of the way to what the layers ask for; slowly forward, so that of several answers it is the one nearest to
 * attached flow. */
static void approach(struct pl_polar *p, const double wanted[2], double part)
{
    for (size_t i = 0; i < p->panels; i++)
        p->source[i] += part * (p->wanted[i] - p->source[i]);
    for (int k = 0; k < 2; k++) {
        p->separated[k] += fmin(most_forward, fmax(most_back, part * (wanted[k] - p->separated[k])));
        p->separated[k] = fmin(p->separated[k], 0.5 * (double)p->panels - 4);
    }
}

static void start(struct pl_polar *p)
{
    if (p->warm)
        return;
    memset(p->source, 0, p->panels * sizeof *p->source);
    p->separated[0] = p->separated[1] = 0;
}

static void set_attached(const struct pl_polar *p, struct pl_polar_row *row)
{
    double *attached[] = {&row->attached_upper, &row->attached_lower};
    for (int k = 0; k < 2; k++)
        *attached[k] = is_separated(p, k) ? p->x[panel_from_edge(p, k, (size_t)p->separated[k])] : 1;
}

static bool stands_still(const struct pl_polar *p, const double wanted[2], double lift_changed)
{
    return fabs(lift_changed) < 2e-4 && fabs(wanted[0] - p->separated[0]) < 1 && fabs(wanted[1] - p->separated[1]) < 1;
}

enum pl_status pl_polar_limit(struct pl_polar *p, struct pl_polar_row *row)
{
    struct rounds r = {.count = 0};
    double before = row->cl_potential;
    start(p);
    p->warm = false;  /* until this one has gone well */
    for (int round = 0; round < ROUNDS_MOST && !row->settled; round++) {
        double wanted[2];
        if (!flow_with_layers(p))
            break;
        struct pl_flow_force f = pl_section_flow_force(p->flow, 0, p->alpha_rad, p->limited, p->whole, p->quarter.x, p->quarter.z);
        if (!isfinite(f.lift) || !march_layers(p, wanted))
            break;
        r.cl[r.count % ROUNDS_AVERAGED] = f.lift;
        r.cm[r.count++ % ROUNDS_AVERAGED] = f.moment;
        row->settled = round > 3 && stands_still(p, wanted, f.lift - before);
        before = f.lift;
        approach(p, wanted, round > 30 ? 0.15 : 0.3);
    }
    p->warm = r.count > 0;
    row->cl = row->settled ? before : r.count ? mean(r.cl, r.count) : row->cl_potential;
    row->cm = row->settled ? r.cm[(r.count - 1) % ROUNDS_AVERAGED] : r.count ? mean(r.cm, r.count) : row->cm_potential;
    set_attached(p, row);
    return PL_OK;
}
