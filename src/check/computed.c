/* computed.c - the load that the flow says, along the span. */
#include "model.h"

#include <math.h>

/* The flow of the case; worked out here and now unless an old one will do. */
static enum pl_status find_air(const struct model *m, const struct pl_load_case *c, struct air_source source, struct pl_wing_air_view *out,
                               struct pl_problems *problems)
{
    enum pl_status status = pl_wing_air_find(source.air, m->part, c, out, problems);
    if (status == PL_OK ? !out->old || source.old_will_do : status != PL_BAD_INPUT)
        return status;
    while (pl_wing_air_step(source.air, m->part, c))
        ;
    status = pl_wing_air_find(source.air, m->part, c, out, problems);
    if (status == PL_OK && out->old)  /* not even kept */
        return PL_NO_MEMORY;
    return status == PL_BAD_INPUT ? PL_NO_MEMORY : status;
}

/* One strip on either half: upward, and its torque about x = 0, by the dynamic pressure. */
static void put_strip(struct pl_load_place *places, size_t n, size_t i, const struct pl_wing_strip *s, double stretch)
{
    double force = -s->chord_m * s->cl, roll = s->chord_m * (s->x_le_m * s->cl + s->chord_m * s->moment), y_m = s->y_m * stretch;
    places[n + i] = (struct pl_load_place){y_m, force, roll};
    places[n - 1 - i] = (struct pl_load_place){-y_m, force, roll};
}

/* Force of the element's own strips, both halves, by the dynamic pressure; upward. */
static double strips_total(const struct pl_wing_air_view *v, size_t element, double stretch)
{
    double sum = 0;
    for (size_t i = 0; i < v->n_strips; i++)
        if (v->strips[i].element == element)
            sum -= 2 * v->strips[i].width_m * stretch * v->strips[i].chord_m * v->strips[i].cl;
    return sum;
}

static void multiply(struct computed_load *load, double by, double also_force_by)
{
    for (size_t i = 0; i < load->count; i++) {
        load->places[i].force_n_m *= by * also_force_by;
        load->places[i].roll_nm_m *= by * also_force_by;
    }
}

enum pl_status pl_computed_load(const struct model *m, const struct pl_load_case *c, struct air_source source, struct computed_load *out,
                                struct pl_arena *scratch, struct pl_problems *problems)
{
    struct pl_wing_air_view v;
    size_t n = 0, at = 0;
    enum pl_status status = find_air(m, c, source, &v, problems);
    if (status != PL_OK)
        return status;
    double semispan_m = m->loft.semispan_m, stretch = v.old ? semispan_m / v.semispan_m : 1;
    for (size_t i = 0; i < v.n_strips; i++)
        n += v.strips[i].element == m->element;
    *out = (struct computed_load){pl_arena_take_raw(scratch, 2 * n, sizeof *out->places), 2 * n, 0, v.old};
    if (!out->places || !n)
        return PL_NO_MEMORY;
    for (size_t i = 0; i < v.n_strips; i++)
        if (v.strips[i].element == m->element)
            put_strip(out->places, n, at++, &v.strips[i], stretch);
    double by = pl_load_case_pressure_pa(c) * c->factor * (pl_given(c->allowance) ? c->allowance : 1);
    double total = strips_total(&v, m->element, stretch), lines = pl_load_places_total_n(out->places, 2 * n, -semispan_m, semispan_m);
    /* Lines between the strips' middles hold a little less than the strips; where they cancel there is nothing to scale. */
    bool scaled = fabs(lines) > 1e-6 * m->loft.plan_area_m2 && total / lines > 0.5 && total / lines < 2;
    multiply(out, by, scaled ? total / lines : 1);
    out->total_n = by * (scaled ? total : lines);
    return PL_OK;
}
