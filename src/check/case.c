#include "model.h"

#include <math.h>
#include <stdio.h>

static const double gravity_m_s2 = 9.80665;

/* One case on one model: what all its solutions share. */
struct run {
    struct model *m;
    const struct pl_load_case *c;
    const struct pl_part *part;
    const struct case_state *states;
    struct computed_load computed;
    double load_y_m, load_x_m;  /* of a single point; not given without */
    double push_n;              /* there, in the solution in hand */
    double core_depth_m[PL_PADS_MOST];
    struct pl_problems *problems;
    char pointer[64];
};

/* ---- loads ---- */

static double acts_x(const struct pl_section *s, double fraction)
{
    return s->x_le_m + fraction * s->chord_m * s->cos_nose_up;
}

static void set_load_line(struct model *m, double fraction)
{
    for (size_t i = 0; i < m->beam.count; i++)
        m->load_x_m[i] = acts_x(pl_model_section(m, i), fraction);
}

static double load_downforce(struct run *r)
{
    const struct pl_load_case *c = r->c;
    if (c->distribution == PL_COMPUTED) {
        pl_load_places(&r->m->beam, r->computed.places, r->computed.count, &r->m->forces);
        return r->computed.total_n;
    }
    double total_n = -c->factor * pl_load_case_pressure_pa(c) * r->m->loft.plan_area_m2 * c->coefficient, s = r->m->loft.semispan_m;
    set_load_line(r->m, c->acts_at);
    pl_load_spread(&r->m->beam, c->distribution == PL_ELLIPTIC ? PL_SPREAD_ELLIPTIC : PL_SPREAD_EVEN, total_n, -s, s,
                   r->m->load_x_m, &r->m->forces);
    return total_n;
}

/* Own mass and tips in a bump (handbook F4.9). */
static double load_inertia(struct run *r)
{
    const struct pl_load_case *c = r->c;
    struct model *m = r->m;
    double n_m_s2 = (c->direction == PL_UP ? 1 : -1) * c->factor * c->n_g * gravity_m_s2, s = m->loft.semispan_m, total_n = 2 * n_m_s2 * c->tip_mass_kg;
    size_t last = m->beam.count - 1;
    set_load_line(m, c->acts_at);
    for (size_t i = 0; i <= last; i++) {
        m->load_n_m[i] = n_m_s2 * pl_model_section(m, i)->mass_kg_m;
        if (i)
            total_n += 0.5 * (m->load_n_m[i] + m->load_n_m[i - 1]) * (m->beam.y_m[i] - m->beam.y_m[i - 1]);
    }
    pl_load_up(&m->beam, m->load_n_m, m->load_x_m, &m->forces);
    for (int side = -1; side <= 1; side += 2) {
        double force_n = n_m_s2 * c->tip_mass_kg;
        struct pl_force force = {.z_n = force_n, .roll_nm = -force_n * m->load_x_m[side < 0 ? 0 : last]};
        pl_load_point(&m->beam, pl_model_left_cut(m, side * s), side * s, &force, &m->forces);
    }
    return total_n;
}

static double pad_share(const struct pl_load_case *c, int variant, size_t pad)
{
    double n = (double)c->n_pads;
    if (variant < 0)
        return 1 / n;
    double more = (1 + c->uneven) / n;
    return (size_t)variant == pad ? more : (1 - more) / (n - 1);
}

static double jacking_total(const struct pl_load_case *c)
{
    return c->factor * c->supported_mass_kg * gravity_m_s2 * c->dynamic_factor;  /* handbook F4.6 */
}

static double load_jacking(struct run *r, int variant)
{
    double total_n = jacking_total(r->c);
    for (size_t i = 0; i < r->c->n_pads; i++) {
        const struct pl_pad *pad = &r->c->pads[i];
        set_load_line(r->m, pad->acts_at);
        pl_load_spread(&r->m->beam, PL_SPREAD_EVEN, total_n * pad_share(r->c, variant, i), pad->y_m - 0.5 * pad->length_m,
                       pad->y_m + 0.5 * pad->length_m, r->m->load_x_m, &r->m->forces);
    }
    return total_n;
}

static double load_at_point(struct run *r, double force_n)
{
    struct pl_force force = {.z_n = force_n, .roll_nm = -force_n * r->load_x_m};
    pl_load_point(&r->m->beam, pl_model_left_cut(r->m, r->load_y_m), r->load_y_m, &force, &r->m->forces);
    return force_n;
}

/* Height on the car of the chord line's point at a fraction, turned with the section. */
static double acts_z(const struct pl_section *s, double fraction)
{
    return s->z_le_m - fraction * s->chord_m * s->sin_nose_up;
}

/* Aft besides: at the point, or a length in proportion to the chord. */
static void load_aft(struct run *r)
{
    const struct pl_load_case *c = r->c;
    struct model *m = r->m;
    double aft_n = c->factor * c->aft_n;
    /* The lattice's own place stands for a computed load: near the quarter. */
    double fraction = c->kind == PL_DOWNFORCE && c->distribution == PL_COMPUTED ? 0.25 : c->acts_at;
    if (c->kind == PL_JACKING || aft_n == 0)
        return;
    if (pl_given(r->load_y_m)) {
        size_t cut = pl_model_left_cut(m, r->load_y_m);
        struct pl_force force = {.x_n = aft_n, .roll_nm = aft_n * acts_z(pl_model_section(m, cut), fraction)};
        pl_load_point(&m->beam, cut, r->load_y_m, &force, &m->forces);
        return;
    }
    for (size_t i = 0; i < m->beam.count; i++) {
        const struct pl_section *s = pl_model_section(m, i);
        m->load_n_m[i] = aft_n * s->chord_m / m->loft.plan_area_m2;
        m->load_x_m[i] = acts_z(s, fraction);
    }
    pl_load_aft(&m->beam, m->load_n_m, m->load_x_m, &m->forces);
}

/* What stands on this element leans on it: minus its reactions there, moments about the same fixed line. */
static double load_with(struct run *r)
{
    double total_n = 0;
    for (size_t i = 0; i < r->c->n_with; i++) {
        size_t other = r->c->with[i];
        const struct pl_element *upper = &r->part->elements[r->part->load_cases[other].element];
        for (size_t k = 0; k < upper->n_mounts; k++) {
            const struct pl_force *p = &r->states[other].reactions[k];
            struct pl_force force = {-p->z_n, -p->x_n, -p->flap_nm, -p->lead_nm, -p->roll_nm};
            if (upper->mounts[k].on != r->m->element)
                continue;
            pl_load_point(&r->m->beam, pl_model_left_cut(r->m, upper->mounts[k].y_m), upper->mounts[k].y_m, &force,
                          &r->m->forces);
            total_n += force.z_n;
        }
    }
    return total_n;
}

static enum pl_status no_answer(struct run *r, enum pl_status status, const char *why)
{
    pl_problem_add(r->problems, PL_ERROR, r->pointer, why, NULL);
    return status;
}

static enum pl_status solve_beam(struct run *r, bool pinned)
{
    enum pl_status status = pl_beam_solve(pinned ? r->m->system_pinned : r->m->system_given, &r->m->forces,
                                          &r->m->displacements);
    if (status != PL_OK)
        return no_answer(r, PL_NOT_CONVERGED, "the beam on its mounts has no finite answer");
    return status;
}

/* F = min(v sqrt(k m), k travel), k the beam's own stiffness at the struck point (Goldsmith 1960, handbook
 * F4.7, contract rule 5). */
static enum pl_status strike_force(struct run *r, bool pinned, double *force_n)
{
    const struct pl_load_case *c = r->c;
    *force_n = c->force_n;
    if (pl_given(c->force_n))
        return PL_OK;
    pl_forces_zero(&r->m->forces, r->m->beam.count);
    load_at_point(r, 1);
    enum pl_status status = solve_beam(r, pinned);
    if (status != PL_OK)
        return status;
    double give_m_n = pl_beam_rise_m(&r->m->displacements, pl_model_left_cut(r->m, r->load_y_m), r->load_x_m);
    if (!(give_m_n > 1e-12))
        return no_answer(r, PL_BAD_INPUT,
                         "strikes a place that does not give (a mount stands there), so energy sets no force: give force_n");
    *force_n = c->closing_speed_m_s * sqrt(c->moving_mass_kg / give_m_n);
    if (pl_given(c->travel_m))
        *force_n = fmin(*force_n, c->travel_m / give_m_n);
    return PL_OK;
}

/* Solves one solution of the case into the model's forces and displacements. */
static enum pl_status solve_one(struct run *r, bool pinned, int variant, double *total_n)
{
    const struct pl_load_case *c = r->c;
    double force_n = c->force_n;
    if (c->kind == PL_TIP_STRIKE) {
        enum pl_status status = strike_force(r, pinned, &force_n);
        if (status != PL_OK)
            return status;
    }
    pl_forces_zero(&r->m->forces, r->m->beam.count);
    *total_n = load_with(r);
    if (c->kind == PL_DOWNFORCE)
        *total_n += load_downforce(r);
    else if (c->kind == PL_JACKING)
        *total_n += load_jacking(r, variant);
    else if (c->kind == PL_INERTIA)
        *total_n += load_inertia(r);
    else
        *total_n += load_at_point(r, r->push_n = (c->direction == PL_UP ? 1 : -1) * c->factor * force_n);
    load_aft(r);
    return solve_beam(r, pinned);
}

/* ---- what the solution means ---- */

static double torque_at(const struct model *m, size_t c)
{
    const struct pl_forces *f = &m->forces;
    return f->roll_nm[c] + m->beam.x_centre_m[c] * f->shear_z_n[c] - m->beam.z_centre_m[c] * f->shear_x_n[c];
}

static void weakest_at_cut(const struct model *m, size_t c, struct pl_weakest *weakest)
{
    /* A left half is the right one seen in a mirror: shear and torque change sign. */
    double sign = m->cuts[c].mirrored ? -1 : 1;
    struct pl_internal f = {sign * m->forces.shear_z_n[c], sign * m->forces.shear_x_n[c], m->forces.flap_nm[c],
                            m->forces.lead_nm[c], sign * torque_at(m, c)};
    pl_section_weakest(pl_model_section(m, c), &m->stacks, &m->rules, &f, weakest);
}

static bool alike(double a, double b, double most)
{
    return fabs(a - b) <= 1e-9 * most;
}

/* A cut of the left half under the mirrored forces of its right one: the same reserve, and the right-hand one is
 * told. */
static bool mirrors_the_right(const struct model *m, size_t c)
{
    const struct pl_forces *f = &m->forces;
    size_t r = m->beam.count - 1 - c;
    double shear = fabs(f->shear_z_n[c]) + fabs(f->shear_x_n[c]), moment = fabs(f->flap_nm[c]) + fabs(f->lead_nm[c]);
    double torque = torque_at(m, c);
    return m->cuts[c].mirrored && alike(f->shear_z_n[c], -f->shear_z_n[r], shear) && alike(f->shear_x_n[c], -f->shear_x_n[r], shear)
           && alike(f->flap_nm[c], f->flap_nm[r], moment) && alike(f->lead_nm[c], f->lead_nm[r], moment)
           && alike(torque, -torque_at(m, r), fabs(torque));
}

static double larger(double a, double b)
{
    return fabs(b) > fabs(a) ? b : a;
}

/* Of both tips the greater; the right one when they are equal. */
static double larger_tip(double left, double right)
{
    return fabs(left) > fabs(right) * (1 + 1e-9) ? left : right;
}

/* What cancels leaves a rounding residue: below a billionth of a newton, or of a millimetre, it is nothing. */
static double tidy(double value, double least)
{
    return fabs(value) < least ? 0 : value;
}

static double centre_rise(const struct model *m, size_t c)
{
    return pl_beam_rise_m(&m->displacements, c, m->beam.x_centre_m[c]);
}

static void set_deflections(const struct run *r, struct pl_solution *out)
{
    const struct model *m = r->m;
    size_t right = m->beam.count - 1;
    double nose[2], tail[2];
    for (int i = 0; i < 2; i++) {
        size_t c = i ? right : 0;
        const struct pl_section *s = pl_model_section(m, c);
        nose[i] = pl_beam_rise_m(&m->displacements, c, acts_x(s, 0));
        tail[i] = pl_beam_rise_m(&m->displacements, c, acts_x(s, 1));
    }
    out->tip_m = tidy(larger_tip(centre_rise(m, 0), centre_rise(m, right)), 1e-12);
    out->nose_m = tidy(larger_tip(nose[0], nose[1]), 1e-12);
    out->tail_m = tidy(larger_tip(tail[0], tail[1]), 1e-12);
    out->largest_m = out->largest_y_m = 0;
    for (size_t c = m->beam.count; c-- > 0;)
        if (fabs(centre_rise(m, c)) > fabs(out->largest_m) * (1 + 1e-9)) {
            out->largest_m = centre_rise(m, c);
            out->largest_y_m = m->beam.y_m[c];
        }
    out->largest_m = tidy(out->largest_m, 1e-12);
    out->at_load_m = PL_NOT_GIVEN;
    if (pl_given(r->load_y_m))
        out->at_load_m = tidy(pl_beam_rise_m(&m->displacements, pl_model_left_cut(m, r->load_y_m), r->load_x_m), 1e-12);
}

static struct pl_lowest name_weakest(const struct model *m, const struct pl_weakest *w, double y_m)
{
    const char *item = w->mode == PL_MODE_PLY && w->item != PL_NONE ? m->loft.element->layup[w->item].name
                       : w->mode == PL_MODE_WRINKLING ? (w->side == PL_TOP ? "top" : "bottom")
                                                      : m->part->cores[m->loft.element->core].name;
    return (struct pl_lowest){fmin(w->reserve, PL_MOST_RESERVE), y_m, w->mode, item, w->side, w->fraction};
}

/* Lower, or of reserves equal to one in a million farther to the right (contract, rule 7). */
static bool comes_first(const struct pl_lowest *a, const struct pl_lowest *b)
{
    return a->reserve < b->reserve * (1 - 1e-6)
           || (a->reserve <= b->reserve * (1 + 1e-6) && a->y_m > b->y_m + PL_SAME_PLACE_M);
}

static void weakest_pads(const struct run *r, int variant, struct pl_lowest *lowest)
{
    if (r->c->kind != PL_JACKING)
        return;
    for (size_t i = 0; i < r->c->n_pads; i++) {
        struct pl_weakest w = {.reserve = PL_MOST_RESERVE, .mode = PL_MODES};
        pl_pad_weakest(&r->m->rules, &r->c->pads[i], jacking_total(r->c) * pad_share(r->c, variant, i), r->core_depth_m[i], &w);
        if (w.mode == PL_MODES)
            continue;
        struct pl_lowest pad = name_weakest(r->m, &w, r->c->pads[i].y_m);
        if (comes_first(&pad, lowest))
            *lowest = pad;
    }
}

static bool crushes(const struct run *r)
{
    return r->c->kind == PL_TIP_STRIKE && pl_given(r->c->contact_length_m);
}

static void add_strike(const struct run *r, struct pl_weakest *w)
{
    pl_strike_weakest(&r->m->rules, r->push_n, r->c->contact_length_m * r->c->contact_width_m, r->c->acts_at, w);
}

static void weakest_strike(const struct run *r, struct pl_lowest *lowest)
{
    struct pl_weakest w = {.reserve = PL_MOST_RESERVE, .mode = PL_MODES};
    if (crushes(r))
        add_strike(r, &w);
    if (w.mode == PL_MODES)
        return;
    struct pl_lowest strike = name_weakest(r->m, &w, r->load_y_m);
    if (comes_first(&strike, lowest))
        *lowest = strike;
}

/* The most bent cut first, to have a low figure to beat; then all from the right, since of equal reserves the
 * right-hand is told. */
static struct pl_lowest find_lowest(const struct run *r, int variant)
{
    const struct model *m = r->m;
    size_t most = 0;
    for (size_t c = 1; c < m->beam.count; c++)
        if (fabs(m->forces.flap_nm[c]) > fabs(m->forces.flap_nm[most]))
            most = c;
    struct pl_weakest start = {.reserve = PL_MOST_RESERVE, .mode = PL_MODE_WRINKLING, .item = PL_NONE};
    weakest_at_cut(m, most, &start);
    struct pl_lowest lowest = name_weakest(m, &start, m->beam.y_m[most]);
    lowest.reserve *= 1 + 1e-5;
    for (size_t c = m->beam.count; c-- > 0;) {
        struct pl_weakest w = {.reserve = lowest.reserve * (1 - 1e-6), .mode = PL_MODES};
        if (!m->cuts[c].beside && !mirrors_the_right(m, c))
            weakest_at_cut(m, c, &w);
        if (w.mode != PL_MODES)
            lowest = name_weakest(m, &w, m->beam.y_m[c]);
    }
    if (lowest.reserve >= PL_MOST_RESERVE) {  /* all alike: the right-hand one */
        lowest.reserve = PL_MOST_RESERVE;
        lowest.y_m = m->beam.y_m[m->beam.count - 1];
    }
    weakest_pads(r, variant, &lowest);
    weakest_strike(r, &lowest);
    return lowest;
}

static void add_pads(const struct run *r, int variant, double y_m, struct pl_weakest *w)
{
    for (size_t i = 0; r->c->kind == PL_JACKING && i < r->c->n_pads; i++) {
        const struct pl_pad *pad = &r->c->pads[i];
        if (fabs(y_m - pad->y_m) <= 0.5 * pad->length_m + PL_SAME_PLACE_M)
            pl_pad_weakest(&r->m->rules, pad, jacking_total(r->c) * pad_share(r->c, variant, i), r->core_depth_m[i], w);
    }
}

static void set_row(const struct run *r, int variant, size_t station, struct pl_check_row *row)
{
    const struct model *m = r->m;
    struct pl_weakest w = {.reserve = PL_MOST_RESERVE, .mode = PL_MODE_WRINKLING, .item = PL_NONE, .fraction = PL_NOT_GIVEN};
    *row = (struct pl_check_row){.y_m = m->station_y_m[station]};
    for (size_t c = m->station_cut[station]; c < m->station_cut[station + 1]; c++) {
        weakest_at_cut(m, c, &w);
        row->shear_n = larger(row->shear_n, m->forces.shear_z_n[c]);
        row->moment_nm = larger(row->moment_nm, m->forces.flap_nm[c]);
        row->torque_nm = larger(row->torque_nm, torque_at(m, c));
        row->deflection_m = larger(row->deflection_m, centre_rise(m, c));
        row->twist_rad = larger(row->twist_rad, m->displacements.twist_rad[c]);
    }
    row->shear_n = tidy(row->shear_n, 1e-9);
    row->moment_nm = tidy(row->moment_nm, 1e-9);
    row->torque_nm = tidy(row->torque_nm, 1e-9);
    row->deflection_m = tidy(row->deflection_m, 1e-12);
    row->twist_rad = tidy(row->twist_rad, 1e-12);
    add_pads(r, variant, row->y_m, &w);
    if (crushes(r) && fabs(row->y_m - r->load_y_m) <= 0.5 * r->c->contact_length_m + PL_SAME_PLACE_M)
        add_strike(r, &w);
    row->reserve = w.reserve;
    row->mode = w.mode;
    row->stress_pa = w.stress_pa;
    row->item = w.item;
    row->side = w.side;
    row->fraction = w.fraction;
}

static bool set_rows(const struct run *r, int variant, struct pl_case_result *out, struct pl_arena *arena)
{
    out->n_rows = r->m->n_stations;
    out->rows = pl_arena_take_raw(arena, out->n_rows, sizeof *out->rows);
    for (size_t s = 0; out->rows && s < out->n_rows; s++)
        set_row(r, variant, s, &out->rows[s]);
    return out->rows;
}

/* ---- the case ---- */

static void start_result(struct pl_case_result *out, const struct pl_load_case *c)
{
    *out = (struct pl_case_result){.load_case = c, .least.reserve = HUGE_VAL};
}

static void widen(struct pl_case_result *out, const struct pl_solution *s, bool pinned)
{
    if (comes_first(&s->lowest, &out->least)) {
        out->least = s->lowest;
        out->least_pinned = pinned;
        out->least_variant = s->variant;
    }
    double most = larger(larger(s->tip_m, s->nose_m), s->tail_m);
    if (pl_given(s->at_load_m))
        most = larger(most, s->at_load_m);
    out->tip_most_m = larger(out->tip_most_m, most / out->load_case->factor);
}

static enum pl_status solve_variant(struct run *r, bool pinned, int variant, struct pl_solution *s)
{
    *s = (struct pl_solution){.variant = variant};
    enum pl_status status = solve_one(r, pinned, variant, &s->total_force_n);
    if (status != PL_OK)
        return status;
    s->lowest = find_lowest(r, variant);
    set_deflections(r, s);
    return PL_OK;
}

/* All variants on one set of mounts; the lowest of them, the first of equals. */
static enum pl_status solve_set(struct run *r, bool pinned, struct pl_case_result *out, struct pl_solution *best)
{
    bool uneven = r->c->kind == PL_JACKING && r->c->n_pads >= 2;
    int first = r->c->kind == PL_JACKING ? PL_VARIANT_EVEN : PL_VARIANT_NONE, last = uneven ? (int)r->c->n_pads - 1 : first;
    for (int variant = first; variant <= last; variant++) {
        struct pl_solution s;
        enum pl_status status = solve_variant(r, pinned, variant, &s);
        if (status != PL_OK)
            return status;
        widen(out, &s, pinned);
        if (variant == first || comes_first(&s.lowest, &best->lowest))
            *best = s;
    }
    return PL_OK;
}

static void start_run(struct run *r)
{
    const struct pl_load_case *c = r->c;
    const struct model *m = r->m;
    bool point = c->kind == PL_TIP_STRIKE || c->kind == PL_POINT_LOAD;
    r->load_y_m = pl_given(c->y_m) ? c->y_m : m->loft.semispan_m;
    if (!point)
        r->load_y_m = PL_NOT_GIVEN;
    r->load_x_m = PL_NOT_GIVEN;
    if (point)
        r->load_x_m = acts_x(pl_model_section(m, pl_model_left_cut(m, r->load_y_m)), c->acts_at);
    for (size_t i = 0; c->kind == PL_JACKING && i < c->n_pads; i++) {
        struct pl_loft_place place;
        pl_loft_at(&m->loft, c->pads[i].y_m, m->builder.loft_scratch, &place);
        r->core_depth_m[i] = pl_loft_core_depth(&m->loft, &place, c->pads[i].acts_at);
    }
    snprintf(r->pointer, sizeof r->pointer, "/load_cases/%zu", (size_t)(c - r->part->load_cases));
}

static bool keep_reactions(const struct run *r, struct case_state *state, struct pl_arena *arena)
{
    const struct model *m = r->m;
    size_t n = m->loft.element->n_mounts;
    state->reactions = pl_arena_take_raw(arena, n, sizeof *state->reactions);
    for (size_t i = 0; state->reactions && i < n; i++)
        state->reactions[m->mount_order[i]] = pl_beam_reaction(m->system_given, &m->forces, i);
    state->done = true;
    return state->reactions;
}

/* Reactions of the solution in hand as the chassis feels them: the other way, about the shear centre. */
static struct pl_reaction *car_reactions(const struct run *r, bool pinned, struct pl_arena *arena)
{
    const struct model *m = r->m;
    size_t n = m->loft.element->n_mounts;
    struct pl_reaction *out = pl_arena_take_raw(arena, n, sizeof *out);
    for (size_t i = 0; out && i < n; i++) {
        size_t mount = m->mount_order[i], cut = pl_model_left_cut(m, m->loft.element->mounts[mount].y_m);
        struct pl_force f = pl_beam_reaction(pinned ? m->system_pinned : m->system_given, &m->forces, i);
        double x_m = m->beam.x_centre_m[cut], z_m = m->beam.z_centre_m[cut];
        /* Taken from 0, so that no figure is minus nothing. */
        out[mount] = (struct pl_reaction){mount, x_m, z_m, 0 - f.x_n, 0 - f.z_n, 0 - f.flap_nm, 0 - (f.roll_nm + x_m * f.z_n - z_m * f.x_n), 0 + f.lead_nm};
    }
    return out;
}

/* The solution of lowest reserve once more, where the beam holds that of another variant. */
static enum pl_status solve_lowest(struct run *r, bool pinned, const struct pl_solution *s)
{
    double total_n;
    return r->c->kind == PL_JACKING ? solve_one(r, pinned, s->variant, &total_n) : PL_OK;
}

/* What the flow says stands under the case in the list of problems. */
static enum pl_status find_computed(struct run *r, struct air_source source, struct pl_arena *scratch)
{
    size_t before = r->problems->count;
    enum pl_status status = pl_computed_load(r->m, r->c, source, &r->computed, scratch, r->problems);
    for (size_t i = before; i < r->problems->count; i++)
        snprintf(r->problems->list[i].place, sizeof r->problems->list[i].place, "%s", r->pointer);
    return status;
}

/* Strength that cycles leave, item by item; the rules are the model's, for this case. */
static bool set_fatigue(struct run *r, struct pl_arena *scratch)
{
    struct pl_strength_rules *rules = &r->m->rules;
    const struct pl_element *e = r->m->loft.element;
    rules->keeps = NULL;
    rules->keeps_least = 1;
    if (!pl_given(r->c->cycles))
        return true;
    double *keeps = pl_arena_take_raw(scratch, e->n_layup, sizeof *keeps);
    for (size_t i = 0; keeps && i < e->n_layup; i++) {
        keeps[i] = pl_fatigue_keeps(r->part->fabrics[e->layup[i].fabric].fibre, r->c->cycles);
        rules->keeps_least = fmin(rules->keeps_least, keeps[i]);
    }
    rules->keeps = keeps;
    return keeps;
}

enum pl_status pl_case_solve(struct model *models, const struct pl_load_case *c, struct case_state *states,
                             struct air_source source, struct pl_case_result *out, struct pl_arena *arena, struct pl_arena *scratch,
                             struct pl_problems *problems)
{
    struct run r = {.m = &models[c->element], .c = c, .part = models->part, .states = states, .problems = problems};
    start_run(&r);
    start_result(out, c);
    enum pl_status status = set_fatigue(&r, scratch) ? PL_OK : PL_NO_MEMORY;
    if (status == PL_OK && c->kind == PL_DOWNFORCE && c->distribution == PL_COMPUTED)
        status = find_computed(&r, source, scratch);
    out->air_old = r.computed.air_old;
    if (status == PL_OK)
        status = solve_set(&r, false, out, &out->given);
    if (status != PL_OK)
        return status;
    status = solve_lowest(&r, false, &out->given);
    if (status != PL_OK)
        return status;
    out->n_reactions = r.m->loft.element->n_mounts;
    out->reactions = car_reactions(&r, false, arena);
    if (!out->reactions || !set_rows(&r, out->given.variant, out, arena) || !keep_reactions(&r, &states[c - r.part->load_cases], arena))
        return PL_NO_MEMORY;
    out->total_force_n = out->given.total_force_n;
    out->has_pinned = r.m->has_pinned;
    if (out->has_pinned)
        status = solve_set(&r, true, out, &out->pinned);
    if (status == PL_OK && out->has_pinned)
        status = solve_lowest(&r, true, &out->pinned);
    if (status == PL_OK && out->has_pinned) {
        out->pinned_reactions = car_reactions(&r, true, arena);
        status = out->pinned_reactions ? PL_OK : PL_NO_MEMORY;
    }
    out->holds = out->least.reserve >= 1 && (!pl_given(c->tip_limit_m) || fabs(out->tip_most_m) <= c->tip_limit_m);
    return status;
}
