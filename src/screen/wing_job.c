/* wing_job.c - the flow over the whole wing, worked out between keys: first what `computed` loads wait for, then, while it
 * is shown, the flow of the load case in hand. */
#include "block.h"
#include "session.h"

#include <math.h>

const struct pl_load_case *pl_wing_job_case(const struct pl_session *s)
{
    const struct pl_part *part = pl_session_part(s);
    const struct pl_load_case *first = NULL;
    if (s->load_case < part->n_load_cases && part->load_cases[s->load_case].kind == PL_DOWNFORCE)
        return &part->load_cases[s->load_case];
    for (size_t i = part->n_load_cases; i-- > 0;) {
        const struct pl_load_case *c = &part->load_cases[i];
        if (c->kind == PL_DOWNFORCE && (!first || c->element == s->element || first->element != s->element))
            first = c;
    }
    return first;
}

static struct pl_wing_job_of job_of(const struct pl_session *s, const struct pl_load_case *c)
{
    return (struct pl_wing_job_of){true, pl_wing_flow_key(pl_session_part(s), c), c->speed_m_s, c->air_density_kg_m3};
}

static bool same_job(const struct pl_wing_job_of *a, const struct pl_wing_job_of *b)
{
    return a->there && b->there && a->key == b->key && a->speed_m_s == b->speed_m_s && a->density_kg_m3 == b->density_kg_m3;
}

/* Loads that still are those of an earlier shape: solved anew when their flow is there. */
static bool step_loads(struct pl_session *s)
{
    const struct pl_verdict *v = pl_session_verdict(s);
    for (size_t i = 0; v && i < v->n_cases; i++) {
        if (!v->cases[i].air_old)
            continue;
        if (!pl_wing_air_step(s->wing_air, pl_session_part(s), v->cases[i].load_case))
            pl_session_judge_again(s);
        return true;
    }
    return false;
}

static bool step_shown(struct pl_session *s)
{
    const struct pl_load_case *c = pl_wing_job_case(s);
    struct pl_problems unsaid = {0};
    struct pl_wing_air_view air;
    if (!c)
        return false;
    if (pl_wing_air_step(s->wing_air, pl_session_part(s), c))
        return true;
    struct pl_wing_job_of wanted = job_of(s, c);
    if (!same_job(&wanted, &s->wing_of)) {
        s->wing_of = wanted;
        s->wing_done = s->wing_failed = pl_wing_air_find(s->wing_air, pl_session_part(s), c, &air, &unsaid) != PL_OK || air.old
                                        || pl_wing_sections_aim(s->wing, pl_session_part(s), c, &air) != PL_OK;
    } else if (!s->wing_done && !pl_wing_sections_step(s->wing, &unsaid)) {
        s->wing_done = true;
        s->wing_failed = pl_wing_sections_status(s->wing) != PL_OK;
    }
    pl_problems_free(&unsaid);
    return !s->wing_done;
}

/* ---- as set otherwise ---- */

static struct pl_settings_of settings_of(const struct pl_session *s, const struct pl_load_case *c)
{
    const struct pl_car *car = &pl_session_part(s)->car;
    return (struct pl_settings_of){job_of(s, c), s->over, car->given ? *car : (struct pl_car){0}};
}

static bool same_settings(const struct pl_settings_of *a, const struct pl_settings_of *b)
{
    return same_job(&a->air, &b->air) && a->over == b->over && a->car.given == b->car.given && a->car.wheelbase_m == b->car.wheelbase_m
           && a->car.front_axle_x_m == b->car.front_axle_x_m;
}

static bool step_settings(struct pl_session *s)
{
    const struct pl_load_case *c = pl_wing_job_case(s);
    struct pl_setting around[PL_AROUND];
    if (!c || !s->valid)
        return false;
    struct pl_settings_of wanted = settings_of(s, c);
    if (same_settings(&wanted, &s->driver_of))
        return pl_driver_step(s->driver);
    s->driver_of = wanted;
    return pl_driver_aim(s->driver, pl_session_part(s), c, around, pl_settings_around(pl_session_part(s), c, s->over, around)) == PL_OK;
}

struct pl_settings_view pl_settings_view(const struct pl_session *s)
{
    struct pl_settings_view v = {.load_case = pl_wing_job_case(s)};
    struct pl_setting around[PL_AROUND];
    if (!v.load_case)
        return v;
    struct pl_settings_of wanted = settings_of(s, v.load_case);
    v.wanted = pl_settings_around(pl_session_part(s), v.load_case, s->over, around);
    if (s->driver_of.over == s->over)
        v.rows = pl_driver_rows(s->driver, &v.n);
    v.old = !same_settings(&wanted, &s->driver_of) || !s->valid;
    return v;
}

/* ---- both ---- */

bool pl_wing_job_step(struct pl_session *s)
{
    const struct pl_block *here = pl_block_here(s);
    return step_loads(s) || (s->page == PL_PAGE_LOADS && (step_shown(s) || (here && here->kind == PL_SETTINGS && step_settings(s))));
}

/* Jobs read the part while they work: an edit takes it away under them. */
void pl_wing_job_part_changes(struct pl_session *s)
{
    if (!s->wing_done)
        s->wing_of.there = false;
    if (pl_driver_at_work(s->driver))
        s->driver_of.air.there = false;
}

struct pl_wing_job_view pl_wing_job_view(const struct pl_session *s)
{
    struct pl_wing_job_view v = {.load_case = pl_wing_job_case(s)};
    struct pl_problems problems = {0};
    struct pl_wing_air_view air;
    if (!v.load_case)
        return v;
    struct pl_wing_job_of wanted = job_of(s, v.load_case);
    enum pl_status status = pl_wing_air_find(s->wing_air, pl_session_part(s), v.load_case, &air, &problems);
    v.failed = status == PL_NOT_CONVERGED;
    pl_problems_free(&problems);
    if (status == PL_OK) {
        v.old = air.old || !s->valid;
        v.strips = air.strips;
        v.n = air.n_strips;
        v.figures = air.figures;
        v.stretch = pl_element_semispan_m(&pl_session_part(s)->elements[v.load_case->element]) / air.semispan_m;
        v.pressure_pa = pl_load_case_pressure_pa(v.load_case);
        v.force_n = v.pressure_pa * v.figures.area_m2 * v.figures.lift;
    }
    if (status == PL_OK && s->wing_done && !s->wing_failed && same_job(&wanted, &s->wing_of)) {
        v.rows = pl_wing_sections_rows(s->wing);
        v.totals = pl_wing_sections_totals(s->wing);
    }
    return v;
}
