#include "rules.h"

#include <string.h>

static void rule_profile_shape(const struct rules *r)
{
    for (size_t i = 0; i < r->part->n_profiles; i++)
        if (!r->part->profiles[i].naca == !r->part->profiles[i].points)
            pl_rule_tell(r, PL_ERROR, "needs either naca or points", "/profiles/%zu", i);
}

/* Positive definite stiffness: nu12^2 < e1/e2 (Jones 1999, eq. 2.48). */
static void rule_poisson(const struct rules *r)
{
    for (size_t i = 0; i < r->part->n_fabrics; i++) {
        const struct pl_fabric *f = &r->part->fabrics[i];
        if (f->nu12 * f->nu12 * f->e2_pa >= f->e1_pa)
            pl_rule_tell(r, PL_ERROR, "must be below the root of e1_gpa over e2_gpa", "/fabrics/%zu/nu12", i);
    }
}

static bool holds_styrene(const struct pl_resin *resin)
{
    return resin->kind == PL_POLYESTER || resin->kind == PL_VINYLESTER;
}

static bool is_polystyrene(const struct pl_core *core)
{
    return strcasestr(core->kind, "polystyrene");
}

static void rule_styrene(const struct rules *r)
{
    for (size_t i = 0; i < r->part->n_elements; i++) {
        const struct pl_element *e = &r->part->elements[i];
        if (holds_styrene(&r->part->resins[e->resin]) && is_polystyrene(&r->part->cores[e->core]))
            pl_rule_tell(r, PL_ERROR, "holds styrene, which dissolves the polystyrene core: use epoxy", "/elements/%zu/resin", i);
    }
}

static void check_core_heat(const struct rules *r, size_t core, double service_c)
{
    double most_c = r->part->cores[core].max_c;
    if (!pl_given(most_c))
        pl_rule_tell(r, PL_WARNING, "is left out: whether the core stands the heat in use is not checked", "/cores/%zu/max_c", core);
    else if (service_c > most_c)
        pl_rule_tell(r, PL_ERROR, "must not be above the heat the core stands (max_c)", "/allowables/service_c");
}

static void check_resin_heat(const struct rules *r, size_t resin, double service_c)
{
    const struct pl_resin *it = &r->part->resins[resin];
    if (pl_given(it->tg_wet_c) && service_c >= it->tg_wet_c)
        pl_rule_tell(r, PL_ERROR, "must be below the resin's wet glass transition (tg_wet_c)", "/allowables/service_c");
    else if (pl_given(it->tg_wet_c) && service_c > it->tg_wet_c - 20)
        pl_rule_tell(r, PL_WARNING, "is within 20 C of the resin's wet glass transition: post-cure, or paint it white",
                     "/allowables/service_c");
    if (!pl_given(it->tg_dry_c) || !pl_given(it->tg_wet_c))
        pl_rule_tell(r, PL_WARNING, "is left out: no strength is reduced for heat", "/resins/%zu/%s", resin,
                     pl_given(it->tg_dry_c) ? "tg_wet_c" : "tg_dry_c");
}

static bool uses(const struct pl_part *part, bool resin, size_t row)
{
    for (size_t i = 0; i < part->n_elements; i++)
        if ((resin ? part->elements[i].resin : part->elements[i].core) == row)
            return true;
    return false;
}

/* Each resin and core that an element uses, once. */
static void rule_heat(const struct rules *r)
{
    const struct pl_part *p = r->part;
    double service_c = p->allowables.service_c;
    if (!pl_given(service_c))
        pl_rule_tell(r, PL_WARNING, "is left out: no strength is reduced for heat, and the core's heat is not checked",
                     "/allowables/service_c");
    for (size_t i = 0; i < p->n_resins; i++) {
        if (!uses(p, true, i))
            continue;
        if (p->resins[i].tg_dry_c <= 23)
            pl_rule_tell(r, PL_ERROR, "must be above 23", "/resins/%zu/tg_dry_c", i);
        if (pl_given(service_c))
            check_resin_heat(r, i, service_c);
    }
    for (size_t i = 0; i < p->n_cores; i++)
        if (pl_given(service_c) && uses(p, false, i))
            check_core_heat(r, i, service_c);
}

static void rule_core_knockdown(const struct rules *r)
{
    if (pl_given(r->part->allowables.core_knockdown))
        return;
    r->part->allowables.core_knockdown = 1;
    pl_rule_tell(r, PL_WARNING, "is left out: core strengths are taken in full (0.70 to 0.85 is typical)",
                 "/allowables/core_knockdown");
}

const struct rule pl_material_rules[] = {
    {"a profile has either naca or points", rule_profile_shape, false},
    {"Poisson's ratio fits the two moduli", rule_poisson, true},
    {"no styrene resin on a polystyrene core", rule_styrene, true},
    {"the service temperature is below the wet Tg and the core's limit", rule_heat, true},
    {"the core knockdown is 1, with a warning, when left out", rule_core_knockdown, false},
};
const size_t pl_n_material_rules = sizeof pl_material_rules / sizeof *pl_material_rules;
