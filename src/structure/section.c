#include "plyloft/section.h"

#include "wall.h"

#include <math.h>
#include <string.h>

bool pl_section_builder_start(struct pl_section_builder *b, const struct pl_part *part, const struct pl_loft *loft,
                              const struct pl_cloth *cloth, struct pl_stack_set *stacks, struct pl_arena *arena,
                              struct pl_problems *problems, const char *pointer)
{
    *b = (struct pl_section_builder){.part = part, .loft = loft, .cloth = cloth, .stacks = stacks, .arena = arena,
                                     .problems = problems, .pointer = pointer};
    b->last_plies = pl_arena_take_raw(arena, loft->element->n_layup, sizeof *b->last_plies);
    return b->last_plies && pl_wall_scratch_start(b);
}

/* Sums of a modulus-weighted line or area: stiffness, first and second moments about the leading edge. */
struct moments { double e, x, z, xx, zz, xz; };

static void shift(const struct moments *m, double *xn, double *zn, double *lead, double *flap, double *coupling)
{
    *xn = m->x / m->e;
    *zn = m->z / m->e;
    *lead = m->xx - m->e * *xn * *xn;
    *flap = m->zz - m->e * *zn * *zn;
    *coupling = m->xz - m->e * *xn * *zn;
}

static void add_line(struct moments *m, double stiffness, double x1, double z1, double x2, double z2)
{
    m->e += stiffness;
    m->x += 0.5 * stiffness * (x1 + x2);
    m->z += 0.5 * stiffness * (z1 + z2);
    m->xx += stiffness * (x1 * x1 + x1 * x2 + x2 * x2) / 3;
    m->zz += stiffness * (z1 * z1 + z1 * z2 + z2 * z2) / 3;
    m->xz += stiffness * (2 * x1 * z1 + x1 * z2 + x2 * z1 + 2 * x2 * z2) / 6;
}

/* One edge of a polygon walked with the area on its right (top from nose to tail): Green's theorem. */
static void add_edge(struct moments *m, double e, double x1, double z1, double x2, double z2)
{
    double cross = e * (z1 * x2 - x1 * z2);
    m->e += cross / 2;
    m->x += cross * (x1 + x2) / 6;
    m->z += cross * (z1 + z2) / 6;
    m->xx += cross * (x1 * x1 + x1 * x2 + x2 * x2) / 12;
    m->zz += cross * (z1 * z1 + z1 * z2 + z2 * z2) / 12;
    m->xz += cross * (2 * x1 * z1 + x1 * z2 + x2 * z1 + 2 * x2 * z2) / 24;
}

static struct moments core_moments(const struct side *top, const struct side *bottom, double e)
{
    struct moments m = {0};
    for (size_t i = 0; i + 1 < top->count; i++)
        add_edge(&m, e, top->x[i], top->z[i], top->x[i + 1], top->z[i + 1]);
    size_t t = top->count - 1, b = bottom->count - 1;
    add_edge(&m, e, top->x[t], top->z[t], bottom->x[b], bottom->z[b]);
    for (size_t i = b; i > 0; i--)
        add_edge(&m, e, bottom->x[i], bottom->z[i], bottom->x[i - 1], bottom->z[i - 1]);
    return m;
}

/* Wall moments, area inside the middle line (steps and closure bound it), girth flexibility and mass. */
static struct moments wall_moments(const struct pl_section_builder *b, struct pl_section *s)
{
    const struct pl_wall *w = &s->wall;
    struct moments m = {0};
    double twice_area = 0;
    s->mass_kg_m = s->girth_flexibility_m_n = 0;
    s->couples = false;
    for (size_t r = 0; r < w->n_runs; r++) {
        const struct pl_wall_run *run = &w->runs[r];
        const struct pl_stack *stack = &b->stacks->stacks[run->stack];
        s->couples |= fabs(stack->k) > 1e-9;
        s->mass_kg_m += run->girth_m * stack->mass_kg_m2;
        for (size_t i = run->first; i + 1 < run->first + run->count; i++) {
            double x1 = w->x_m[i], z1 = w->z_m[i], x2 = w->x_m[i + 1], z2 = w->z_m[i + 1];
            double length = sqrt((x2 - x1) * (x2 - x1) + (z2 - z1) * (z2 - z1));
            add_line(&m, stack->e1_n_m * length, x1, z1, x2, z2);
            s->girth_flexibility_m_n += length / stack->a66_n_m;
        }
    }
    for (size_t i = 0; i < w->count; i++) {
        size_t next = i + 1 < w->count ? i + 1 : 0;
        twice_area += w->z_m[i] * w->x_m[next] - w->x_m[i] * w->z_m[next];
    }
    s->cell_area_m2 = 0.5 * twice_area;
    return m;
}

/* The open flow of two unit shears along the circuit: dq/ds = -dN1/dy, with dN1/dy = E (a_z z + a_x x)
 * from the wall's own bending stiffness (rule 6; Megson ch. 17). Sums that close it come with it. */
struct flow {
    double a_z, a_x;      /* strain rate: coefficients of z and x from the wall's neutral point */
    double over_shear;    /* closed integral of q ds / A66* */
    double moment;        /* of the open flow about the leading edge, nose up */
    double constant;      /* that closes it */
};

/* Flow at parts 0, 1/2 and 1 of a straight piece, from its start. */
static void flow_along(const struct flow *f, double start, double stiffness, double x1, double z1, double x2, double z2,
                       double q[3])
{
    double g1 = f->a_z * z1 + f->a_x * x1, g2 = f->a_z * z2 + f->a_x * x2;
    q[0] = start;
    q[1] = start - stiffness * (g1 / 2 + (g2 - g1) / 8);
    q[2] = start - stiffness * (g1 / 2 + g2 / 2);
}

static double simpson(const double q[3])
{
    return (q[0] + 4 * q[1] + q[2]) / 6;  /* exact: q is quadratic along a straight piece */
}

/* Walks the circuit, leaves the open flow at every point in out.  xw, zw: the wall's neutral point.  Wall points
 * stand about the leading edge here. */
static void open_flow(const struct pl_section_builder *b, const struct pl_section *s, struct flow *f, double xw, double zw,
                      double *out)
{
    const struct pl_wall *w = &s->wall;
    double at = 0;
    for (size_t r = 0; r < w->n_runs; r++) {
        const struct pl_wall_run *run = &w->runs[r];
        const struct pl_stack *stack = &b->stacks->stacks[run->stack];
        for (size_t i = run->first; i < run->first + run->count; i++) {
            size_t next = i + 1 < w->count ? i + 1 : 0;
            double x1 = w->x_m[i], z1 = w->z_m[i], x2 = w->x_m[next], z2 = w->z_m[next];
            double arm = z1 * x2 - x1 * z2, q[3] = {at, at, at};
            out[i] = at;
            if (i + 1 < run->first + run->count) {
                double length = sqrt((x2 - x1) * (x2 - x1) + (z2 - z1) * (z2 - z1));
                flow_along(f, at, stack->e1_n_m * length, x1 - xw, z1 - zw, x2 - xw, z2 - zw, q);
                f->over_shear += simpson(q) * length / stack->a66_n_m;
                at = q[2];
            }
            f->moment += simpson(q) * arm;  /* steps and closure carry the flow too */
        }
    }
    f->constant = -f->over_shear / s->girth_flexibility_m_n;
}

/* Closed integral of q^2 / A66* ds of the closed flow. */
static double flow_energy(const struct pl_section_builder *b, const struct pl_section *s, const struct flow *f, double xw,
                          double zw, const double *open)
{
    const struct pl_wall *w = &s->wall;
    double sum = 0;
    for (size_t r = 0; r < w->n_runs; r++) {
        const struct pl_wall_run *run = &w->runs[r];
        const struct pl_stack *stack = &b->stacks->stacks[run->stack];
        for (size_t i = run->first; i + 1 < run->first + run->count; i++) {
            double x1 = w->x_m[i] - xw, z1 = w->z_m[i] - zw, x2 = w->x_m[i + 1] - xw, z2 = w->z_m[i + 1] - zw, q[3];
            double length = sqrt((x2 - x1) * (x2 - x1) + (z2 - z1) * (z2 - z1));
            flow_along(f, open[i] + f->constant, stack->e1_n_m * length, x1, z1, x2, z2, q);
            double squares[3] = {q[0] * q[0], q[1] * q[1], q[2] * q[2]};
            sum += simpson(squares) * length / stack->a66_n_m;
        }
    }
    return sum;
}

/* From the circuit's flow to N12: rearward is positive on top and below, and the circuit runs forward below. */
static void close_flow(const struct pl_section *s, const struct flow *f, double *flow)
{
    for (size_t r = 0; r < s->wall.n_runs; r++) {
        const struct pl_wall_run *run = &s->wall.runs[r];
        double sign = run->side == PL_TOP ? 1 : -1;
        for (size_t i = run->first; i < run->first + run->count; i++)
            flow[i] = sign * (flow[i] + f->constant);
    }
}

static void set_flows(const struct pl_section_builder *b, struct pl_section *s, const struct moments *wall, double core_g_pa)
{
    double xw, zw, lead, flap, coupling;
    shift(wall, &xw, &zw, &lead, &flap, &coupling);
    double det = flap * lead - coupling * coupling;
    struct flow normal = {.a_z = lead / det, .a_x = -coupling / det};
    struct flow along = {.a_z = -coupling / det, .a_x = flap / det};
    open_flow(b, s, &normal, xw, zw, s->wall.flow_z);
    open_flow(b, s, &along, xw, zw, s->wall.flow_x);
    double twice_area = 2 * s->cell_area_m2;
    /* The flow of an upward shear at x has the moment -x about the leading edge, that of a rearward one z. */
    s->x_shear_centre_m = -(normal.moment + normal.constant * twice_area);
    s->z_shear_centre_m = along.moment + along.constant * twice_area;
    double energy = flow_energy(b, s, &normal, xw, zw, s->wall.flow_z);
    s->shear_stiffness_n = 1 / energy + core_g_pa * s->core_area_m2;
    close_flow(s, &normal, s->wall.flow_z);
    close_flow(s, &along, s->wall.flow_x);
}

/* k N12 (1, -z, -x) summed along one straight piece by Simpson's rule, given the flow at both ends and the
 * middle; from the neutral point. */
static void add_coupling(double out[3], double k_length, const double q[3], double x1, double z1, double x2, double z2)
{
    out[0] += k_length * simpson(q);
    out[1] -= k_length * (q[0] * z1 + 2 * q[1] * (z1 + z2) + q[2] * z2) / 6;
    out[2] -= k_length * (q[0] * x1 + 2 * q[1] * (x1 + x2) + q[2] * x2) / 6;
}

static void set_couplings(const struct pl_section_builder *b, struct pl_section *s)
{
    const struct pl_wall *w = &s->wall;
    for (int i = 0; i < 3; i++)
        s->by_torque[i] = s->by_shear_z[i] = s->by_shear_x[i] = 0;
    for (size_t r = 0; r < w->n_runs && s->couples; r++) {
        const struct pl_wall_run *run = &w->runs[r];
        double k = b->stacks->stacks[run->stack].k;
        for (size_t i = run->first; i + 1 < run->first + run->count; i++) {
            double x1 = w->x_m[i], z1 = w->z_m[i], x2 = w->x_m[i + 1], z2 = w->z_m[i + 1];
            double kl = k * sqrt((x2 - x1) * (x2 - x1) + (z2 - z1) * (z2 - z1)), t = run->flow_torsion;
            double flat[3] = {t, t, t};
            double qz[3] = {w->flow_z[i], 0.5 * (w->flow_z[i] + w->flow_z[i + 1]), w->flow_z[i + 1]};
            double qx[3] = {w->flow_x[i], 0.5 * (w->flow_x[i] + w->flow_x[i + 1]), w->flow_x[i + 1]};
            add_coupling(s->by_torque, kl, flat, x1, z1, x2, z2);
            add_coupling(s->by_shear_z, kl, qz, x1, z1, x2, z2);
            add_coupling(s->by_shear_x, kl, qx, x1, z1, x2, z2);
        }
    }
}

/* fmax would be a call. */
static inline void widen(double *most, double value)
{
    *most = value > *most ? value : *most;
}

static void widen_section(struct pl_wall_bounds *all, const struct pl_wall_run *run, const struct pl_stack *stack)
{
    const struct pl_wall_bounds *b = &run->bounds;
    widen(&all->x_far_m, b->x_far_m);
    widen(&all->z_far_m, b->z_far_m);
    widen(&all->flow_torsion, b->flow_torsion);
    widen(&all->flow_z_far, b->flow_z_far);
    widen(&all->flow_x_far, b->flow_x_far);
    widen(&all->wrinkle_strain, b->wrinkle_strain);
    widen(&all->wrinkle_flow, b->wrinkle_flow);
    widen(&all->offset_most_m, stack->offset_most_m);
    for (int i = 0; i < 6; i++)
        widen(&all->q_most[i], stack->q_most[i]);
    for (int i = 0; i < 3; i++) {
        widen(&all->l_most[i], stack->l_most[i]);
        widen(&all->share_most[i], stack->share_most[i]);
    }
}

/* Moves the wall points to the neutral point and notes how far each run, and all together, reach. */
static void finish_runs(const struct pl_section_builder *builder, struct pl_section *s)
{
    struct pl_wall *w = &s->wall;
    s->bounds = (struct pl_wall_bounds){0};
    for (size_t r = 0; r < w->n_runs; r++) {
        struct pl_wall_run *run = &w->runs[r];
        const struct pl_stack *stack = &builder->stacks->stacks[run->stack];
        struct pl_wall_bounds *b = &run->bounds;
        b->flow_torsion = 0.5 / s->cell_area_m2;
        b->wrinkle_strain = run->wrinkles ? stack->wrinkle_strain : 0;
        b->wrinkle_flow = run->wrinkles ? stack->wrinkle_flow : 0;
        run->flow_torsion = (run->side == PL_TOP ? 0.5 : -0.5) / s->cell_area_m2;
        for (size_t i = run->first; i < run->first + run->count; i++) {
            w->x_m[i] -= s->x_neutral_m;
            w->z_m[i] -= s->z_neutral_m;
            widen(&b->x_far_m, fabs(w->x_m[i]));
            widen(&b->z_far_m, fabs(w->z_m[i]));
            widen(&b->flow_z_far, fabs(w->flow_z[i]));
            widen(&b->flow_x_far, fabs(w->flow_x[i]));
        }
        widen_section(&s->bounds, run, stack);
    }
}

static void set_place(const struct pl_loft_place *place, struct pl_section *s)
{
    s->y_m = place->y_m;
    s->chord_m = place->chord_m;
    s->x_le_m = place->x_le_m;
    s->z_le_m = place->z_le_m;
    s->nose_up_rad = place->nose_up_rad;
    s->cos_nose_up = cos(place->nose_up_rad);
    s->sin_nose_up = sin(place->nose_up_rad);
}

static void count_plies(struct pl_section_builder *b, double y_m, enum pl_limit limit)
{
    for (size_t i = 0; i < b->loft->element->n_layup; i++)
        b->scratch->plies[i] = pl_cloth_plies_at(b->cloth, i, fabs(y_m), limit);
}

static enum pl_status build(struct pl_section_builder *b, const struct pl_loft_place *place, struct pl_section *s)
{
    enum pl_status status = pl_wall_sides(b, place);
    if (status != PL_OK)
        return status;
    if (!pl_wall_runs(b, &s->wall))
        return PL_NO_MEMORY;
    const struct pl_core *core = &b->part->cores[b->loft->element->core];
    struct moments wall = wall_moments(b, s), all = wall;
    struct moments foam = core_moments(&b->scratch->top, &b->scratch->bottom, core->e_pa);
    s->core_area_m2 = foam.e / core->e_pa;
    s->core_mass_kg_m = s->core_area_m2 * core->density_kg_m3;
    s->mass_kg_m += s->core_mass_kg_m;
    all.e += foam.e;
    all.x += foam.x;
    all.z += foam.z;
    all.xx += foam.xx;
    all.zz += foam.zz;
    all.xz += foam.xz;
    s->ea_n = all.e;
    shift(&all, &s->x_neutral_m, &s->z_neutral_m, &s->ei_lead_nm2, &s->ei_flap_nm2, &s->ei_coupling_nm2);
    s->gj_nm2 = 4 * s->cell_area_m2 * s->cell_area_m2 / s->girth_flexibility_m_n;
    set_flows(b, s, &wall, core->g_pa);
    finish_runs(b, s);
    set_couplings(b, s);
    return PL_OK;
}

/* Nothing but its place on the car tells this section from the last: a bay of one profile and chord. */
static bool same_as_last(const struct pl_section_builder *b, const struct pl_loft_place *place)
{
    const struct pl_loft_place *last = &b->last_place;
    bool outline = b->last && place->chord_m == last->chord_m && place->top.x == last->top.x && place->bottom.x == last->bottom.x
                   && place->top.x != b->loft_scratch;
    return outline && !memcmp(b->last_plies, b->scratch->plies, b->loft->element->n_layup * sizeof *b->last_plies);
}

static void remember(struct pl_section_builder *b, const struct pl_loft_place *place, const struct pl_section *s)
{
    b->last = s;
    b->last_place = *place;
    memcpy(b->last_plies, b->scratch->plies, b->loft->element->n_layup * sizeof *b->last_plies);
}

enum pl_status pl_section_build(struct pl_section_builder *b, double y_m, enum pl_limit limit, struct pl_section *s)
{
    struct pl_loft_place place;
    enum pl_status status = PL_OK;
    pl_loft_at(b->loft, y_m, b->loft_scratch, &place);
    count_plies(b, y_m, limit);
    if (same_as_last(b, &place))
        *s = *b->last;
    else
        status = build(b, &place, s);
    set_place(&place, s);
    if (status == PL_OK)
        remember(b, &place, s);
    return status;
}

size_t pl_section_stack_at(struct pl_section_builder *b, double y_m, enum pl_limit limit, enum pl_side side,
                           double fraction)
{
    struct pl_loft_place place;
    bool no_memory;
    pl_loft_at(b->loft, y_m, b->loft_scratch, &place);
    count_plies(b, y_m, limit);
    return pl_wall_stack(b, side, place.chord_m, fraction, &no_memory);
}
