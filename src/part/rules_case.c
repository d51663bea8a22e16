#include "rules.h"

#include <math.h>

static const double slack_m = 1e-9;

static double semispan_of(const struct rules *r, const struct pl_load_case *c)
{
    return pl_element_semispan_m(&r->part->elements[c->element]);
}

static void check_place(const struct rules *r, size_t i, const struct pl_load_case *c)
{
    if (c->kind == PL_POINT_LOAD && !pl_given(c->y_m))
        pl_rule_tell(r, PL_ERROR, "is missing", "/load_cases/%zu/y_mm", i);
    else if (pl_given(c->y_m) && fabs(c->y_m) > semispan_of(r, c) + slack_m)
        pl_rule_tell(r, PL_ERROR, "lies past the tip", "/load_cases/%zu/y_mm", i);
    for (size_t k = 0; c->kind == PL_JACKING && k < c->n_pads; k++)
        if (fabs(c->pads[k].y_m) + 0.5 * c->pads[k].length_m > semispan_of(r, c) + slack_m)
            pl_rule_tell(r, PL_ERROR, "reaches past the tip", "/load_cases/%zu/pads/%zu/y_mm", i, k);
}

static void check_push(const struct rules *r, size_t i, const struct pl_load_case *c)
{
    bool energy = pl_given(c->moving_mass_kg) && pl_given(c->closing_speed_m_s);
    bool some_energy = pl_given(c->moving_mass_kg) || pl_given(c->closing_speed_m_s) || pl_given(c->travel_m);
    if (c->kind == PL_POINT_LOAD && !pl_given(c->force_n))
        pl_rule_tell(r, PL_ERROR, "is missing", "/load_cases/%zu/force_n", i);
    if (c->kind == PL_TIP_STRIKE && (pl_given(c->force_n) ? some_energy : !energy))
        pl_rule_tell(r, PL_ERROR, "needs either force_n, or moving_mass_kg and closing_speed_ms (and travel_mm)", "/load_cases/%zu", i);
}

/* Only glass and carbon have figures of their own (handbook F4.11). */
static void check_cycles(const struct rules *r, size_t i, const struct pl_load_case *c)
{
    const struct pl_element *e = &r->part->elements[c->element];
    for (size_t k = 0; pl_given(c->cycles) && k < e->n_layup; k++) {
        int fibre = r->part->fabrics[e->layup[k].fabric].fibre;
        if (fibre != PL_GLASS && fibre != PL_CARBON) {
            pl_rule_tell(r, PL_WARNING, "glass stands for the fatigue of other fibres", "/load_cases/%zu/cycles", i);
            return;
        }
    }
}

static void check_contact(const struct rules *r, size_t i, const struct pl_load_case *c)
{
    if (pl_given(c->contact_length_m) != pl_given(c->contact_width_m))
        pl_rule_tell(r, PL_ERROR, "needs both contact_length_mm and contact_width_mm, or neither", "/load_cases/%zu", i);
}

static void check_uneven(const struct rules *r, size_t i, const struct pl_load_case *c)
{
    if (c->kind == PL_JACKING && c->n_pads >= 2 && c->uneven > (double)c->n_pads - 1)
        pl_rule_tell(r, PL_ERROR, "must be at most the number of pads less 1", "/load_cases/%zu/uneven", i);
}

/* The lattice leaves thickness out, which matters near the ground (contract, `allowance`). */
static void check_computed(const struct rules *r, size_t i, const struct pl_load_case *c)
{
    bool low = c->ride_height_m < 0.5 * r->part->elements[c->element].stations[0].chord_m;
    if (c->kind == PL_DOWNFORCE && c->distribution == PL_COMPUTED && low && !pl_given(c->allowance))
        pl_rule_tell(r, PL_WARNING, "is left out below half a chord above the ground: the computed load has no thickness in it, which"
                     " counts there; `plyloft flow` tells what it makes", "/load_cases/%zu/allowance", i);
}

static void rule_cases(const struct rules *r)
{
    for (size_t i = 0; i < r->part->n_load_cases; i++) {
        const struct pl_load_case *c = &r->part->load_cases[i];
        check_place(r, i, c);
        check_push(r, i, c);
        check_uneven(r, i, c);
        check_cycles(r, i, c);
        check_contact(r, i, c);
        check_computed(r, i, c);
    }
}

static bool stands_on(const struct pl_element *upper, size_t element)
{
    for (size_t i = 0; i < upper->n_mounts; i++)
        if (upper->mounts[i].on == element)
            return true;
    return false;
}

static void check_with(const struct rules *r, size_t i, size_t k)
{
    const struct pl_load_case *c = &r->part->load_cases[i], *other = &r->part->load_cases[c->with[k]];
    if (other->kind == PL_JACKING)
        pl_rule_tell(r, PL_ERROR, "is a jacking case, which loads nothing else", "/load_cases/%zu/with/%zu", i, k);
    else if (!stands_on(&r->part->elements[other->element], c->element))
        pl_rule_tell(r, PL_ERROR, "is a case of an element that does not stand on this one", "/load_cases/%zu/with/%zu", i, k);
    for (size_t j = 0; j < k; j++)
        if (c->with[j] == c->with[k]) {
            pl_rule_tell(r, PL_ERROR, "is named twice", "/load_cases/%zu/with/%zu", i, k);
            break;
        }
}

static bool is_named(const struct pl_part *part, size_t load_case)
{
    for (size_t i = 0; i < part->n_load_cases; i++)
        for (size_t k = 0; k < part->load_cases[i].n_with; k++)
            if (part->load_cases[i].with[k] == load_case)
                return true;
    return false;
}

static bool is_carried(const struct pl_element *e)
{
    for (size_t i = 0; i < e->n_mounts; i++)
        if (e->mounts[i].on != PL_NONE)
            return true;
    return false;
}

static void rule_with(const struct rules *r)
{
    const struct pl_part *p = r->part;
    for (size_t i = 0; i < p->n_load_cases; i++) {
        for (size_t k = 0; k < p->load_cases[i].n_with; k++)
            check_with(r, i, k);
        if (p->load_cases[i].kind != PL_JACKING && is_carried(&p->elements[p->load_cases[i].element]) && !is_named(p, i))
            pl_rule_tell(r, PL_WARNING, "loads an element that stands on another, but no case there names it in `with`: what"
                         " carries it is not judged under it", "/load_cases/%zu/name", i);
    }
}

static void rule_limits(const struct rules *r)
{
    struct pl_part *p = r->part;
    for (size_t i = 0; i < p->n_load_cases; i++)
        p->load_cases[i].tip_limit_m = PL_NOT_GIVEN;
    for (size_t i = 0; i < p->limits.n_tips; i++)
        p->load_cases[p->limits.tips[i].load_case].tip_limit_m = p->limits.tips[i].tip_deflection_m;
}

static void rule_loaded(const struct rules *r)
{
    const struct pl_part *p = r->part;
    for (size_t e = 0; e < p->n_elements; e++) {
        bool loaded = false;
        for (size_t i = 0; i < p->n_load_cases; i++)
            loaded = loaded || p->load_cases[i].element == e;
        if (!loaded)
            pl_rule_tell(r, PL_WARNING, "has no load case: nothing of it is judged", "/elements/%zu/name", e);
    }
}

static void rule_scatter(const struct rules *r)
{
    for (size_t i = 0; i < r->part->n_load_cases; i++)
        if (r->part->load_cases[i].factor == 1 && r->part->allowables.knockdown == 1)
            pl_rule_tell(r, PL_WARNING, "is 1 and so is the ply knockdown: nothing covers scatter", "/load_cases/%zu/factor", i);
}

const struct rule pl_case_rules[] = {
    {"places lie on the wing, pushes and strikes have what they need", rule_cases, true},
    {"`with` names cases of elements that stand on this one", rule_with, true},
    {"tip limits belong to load cases", rule_limits, false},
    {"every element has a load case", rule_loaded, true},
    {"factor and knockdown are not both 1", rule_scatter, true},
};
const size_t pl_n_case_rules = sizeof pl_case_rules / sizeof *pl_case_rules;
