#include "plyloft/resin.h"

#include "batches.h"
#include "kit_inside.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* ---- single figures ---- */

double pl_cloth_resin_kg_m2(const struct pl_fabric *f, const struct pl_resin *r)
{
    return pl_fabric_ply_kg_m2(f, r) - f->areal_weight_kg_m2;
}

double pl_pot_life_s(const struct pl_resin *r, double temperature_c)
{
    return r->pot_life_s * exp2((r->pot_life_at_c - temperature_c) / 10);
}

double pl_hardener_by_weight(const struct pl_resin *r)
{
    return r->mix_ratio[1] / r->mix_ratio[0];
}

double pl_hardener_by_volume(const struct pl_resin *r)
{
    return pl_hardener_by_weight(r) * r->liquid_density_kg_m3 / r->hardener_density_kg_m3;
}

static const double share_of_pot = 0.6;

double pl_cup_kg(const struct pl_shed *shed, const struct pl_resin *r, double resin_kg_m2)
{
    return fmin(shed->cup_kg, shed->rate_m2_s * resin_kg_m2 * share_of_pot * pl_pot_life_s(r, shed->temperature_c));
}

double pl_fairing_m3(double step_m, double ramp_m, double length_m)
{
    return 0.5 * step_m * ramp_m * length_m;
}

double pl_fairing_ramp_m(double step_m)
{
    return 0.005 * ceil(20 * step_m / 0.005 - 1e-9);
}

/* ---- cups ---- */

struct planner {
    struct pl_resin_kit *out;
    const struct pl_part *part;
    const struct pl_kit *kit;
    struct pl_resin_plan *plan;
    struct batch_step *steps;    /* one a piece at most */
    struct batch_run *runs;
    size_t most;
    enum pl_status status;       /* why it failed */
    struct pl_problems *problems;
};

static const struct pl_resin *resin_of(const struct planner *p)
{
    return &p->part->resins[p->plan->resin];
}

static bool warn(struct pl_resin_kit *out, const char *format, ...) __attribute__((format(printf, 2, 3)));

static bool warn(struct pl_resin_kit *out, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    bool good = pl_kit_add_warning(&out->arena, out->warnings, &out->n_warnings, format, arguments);
    va_end(arguments);
    return good;
}

/* Room for so many cups more. */
static bool room_for(struct planner *p, size_t more)
{
    struct pl_resin_plan *plan = p->plan;
    if (plan->n_batches + more <= p->most)
        return true;
    size_t most = 2 * (plan->n_batches + more);
    struct pl_batch *batches = pl_arena_take_raw(&p->out->arena, most, sizeof *batches);
    if (!batches)
        return false;
    if (plan->n_batches)
        memcpy(batches, plan->batches, plan->n_batches * sizeof *batches);
    plan->batches = batches;
    p->most = most;
    return true;
}

static bool put_run(struct planner *p, const struct batch_run *run, struct pl_batch batch)
{
    double mixed_kg = 0, seconds = 0, part = 1 / (1 + pl_hardener_by_weight(resin_of(p)));
    for (size_t i = 0; i < run->count; i++) {
        mixed_kg += p->steps[run->first + i].mixed_kg;
        seconds += p->steps[run->first + i].seconds;
    }
    batch.mixed_kg = mixed_kg / run->cups;
    batch.resin_kg = part * batch.mixed_kg;
    batch.hardener_kg = batch.mixed_kg - batch.resin_kg;
    batch.minutes = seconds / run->cups / 60;
    batch.cups = run->cups;
    if (!room_for(p, (size_t)run->cups))
        return false;
    for (batch.cup = 1; batch.cup <= run->cups; batch.cup++)
        p->plan->batches[p->plan->n_batches++] = batch;
    p->plan->spare_kg = fmax(p->plan->spare_kg, batch.mixed_kg);
    return true;
}

/* Steps of one kind on one element; those of pieces begin with the kit's piece `first`. */
static bool put_steps(struct planner *p, size_t count, enum pl_batch_kind kind, size_t element, size_t first)
{
    const struct pl_shed *shed = &p->part->shed;
    struct batch_limit limit = {shed->cup_kg, share_of_pot * pl_pot_life_s(resin_of(p), shed->temperature_c)};
    size_t n = pl_batches_share(p->steps, count, limit, p->runs);
    for (size_t i = 0; i < n; i++) {
        bool plies = kind == PL_BATCH_PLIES;
        if (p->runs[i].cups > BATCHES_CUPS_MOST) {
            p->status = PL_BAD_INPUT;
            pl_problem_addf(p->problems, PL_ERROR, "/shed", "%s: one layer would take more than %d cups: check cup, working rate and pot life",
                            resin_of(p)->name, BATCHES_CUPS_MOST);
            return false;
        }
        struct pl_batch batch = {.kind = kind, .element = element, .first = plies ? first + p->runs[i].first : 0, .count = plies ? p->runs[i].count : 0};
        if (!put_run(p, &p->runs[i], batch))
            return false;
        if (plies && p->runs[i].cups > 1 && !warn(p->out, "piece %s takes %d cups: mix the next when one is nearly used", p->kit->pieces[batch.first].mark, p->runs[i].cups))
            return false;
    }
    return true;
}

/* A surface of one element: slurry or peel ply, resin a square metre. */
static bool put_surface(struct planner *p, size_t element, enum pl_batch_kind kind, double kg_m2)
{
    const struct pl_shed *shed = &p->part->shed;
    double area_m2 = p->kit->core_area_m2[element], dry_kg = kg_m2 * area_m2;
    *(kind == PL_BATCH_SLURRY ? &p->plan->slurry_kg : &p->plan->peel_ply_kg) += dry_kg;
    if (!(dry_kg > 0))
        return true;
    p->steps[0] = (struct batch_step){dry_kg * (1 + shed->loss), area_m2 / shed->rate_m2_s};
    return put_steps(p, 1, kind, element, 0);
}

static bool put_element(struct planner *p, size_t element)
{
    const struct pl_shed *shed = &p->part->shed;
    const struct pl_kit *kit = p->kit;
    size_t first = 0, n = 0;
    if (!put_surface(p, element, PL_BATCH_SLURRY, shed->slurry_kg_m2))
        return false;
    while (first < kit->n_pieces && kit->pieces[first].element != element)
        first++;
    for (; first + n < kit->n_pieces && kit->pieces[first + n].element == element; n++) {
        const struct pl_kit_piece *piece = &kit->pieces[first + n];
        p->steps[n] = (struct batch_step){piece->resin_kg * (1 + shed->loss), piece->area_m2 / shed->rate_m2_s};
        p->plan->cloth_kg += piece->resin_kg;
    }
    return put_steps(p, n, PL_BATCH_PLIES, element, first) && put_surface(p, element, PL_BATCH_PEEL_PLY, shed->peel_ply_kg_m2);
}

static bool warn_shed(struct planner *p)
{
    const struct pl_shed *shed = &p->part->shed;
    const struct pl_resin *r = resin_of(p);
    double t = shed->temperature_c;
    if (t < 12 || t > 35)
        if (!warn(p->out, "%s: its pot life at %g C is a guess, as the rule holds from 12 to 35 C", r->name, t))
            return false;
    if (t < 15 && !warn(p->out, "%s: below 15 C it is thick and will not wet the cloth", r->name))
        return false;
    if (t > 30 && !warn(p->out, "%s: above 30 C it needs small cups", r->name))
        return false;
    if (r->kind != PL_EPOXY && !warn(p->out, "%s: styrene and peroxide: organic-vapour respirator, goggles, no flame", r->name))
        return false;
    return true;
}

static bool plan_resin(struct planner *p)
{
    const struct pl_shed *shed = &p->part->shed;
    struct pl_resin_plan *plan = p->plan;
    const struct pl_resin *r = resin_of(p);
    p->most = 0;
    for (size_t i = 0; i < p->part->n_elements; i++)
        if (p->part->elements[i].resin == plan->resin && !put_element(p, i))
            return false;
    double dry_kg = plan->cloth_kg + plan->slurry_kg + plan->peel_ply_kg;
    plan->loss_kg = shed->loss * dry_kg;
    plan->mixed_kg = dry_kg + plan->loss_kg;
    plan->resin_kg = plan->mixed_kg / (1 + pl_hardener_by_weight(r));
    plan->hardener_kg = plan->mixed_kg - plan->resin_kg;
    plan->pot_life_min = pl_pot_life_s(r, shed->temperature_c) / 60;
    plan->price = (plan->mixed_kg + plan->spare_kg) * r->price_per_kg;  /* NAN without a price */
    return warn_shed(p);
}

/* ---- what it weighs when it races ---- */

/* Edges of a group on the surface: those that lie inside the chord, and its ends short of the tip. */
static double group_filler_m3(const struct pl_part *part, const struct pl_kit *kit, size_t element, size_t index)
{
    const struct pl_element *e = &part->elements[element];
    const struct pl_layup_item *item = &e->layup[index];
    bool strip = pl_given(item->centre_at);
    double ply_m = pl_fabric_ply_m(&part->fabrics[item->fabric]), step_m = item->plies * ply_m, sum = 0;
    int edges = (strip || item->chord_from > 0) + (strip || item->chord_to < 1);
    for (size_t i = 0; i < kit->n_pieces; i++) {
        const struct pl_kit_piece *p = &kit->pieces[i];
        if (p->element != element || p->item != index)
            continue;
        /* All plies of a group share their edges: the last one, the longest, stands for them; where they drop off the step is
         * lower, so this is ample. */
        if (p->ply == item->plies - 1)
            sum += edges * pl_fairing_m3(step_m, pl_fairing_ramp_m(step_m), p->length_m);
        bool ends = fmax(fabs(p->from_m), fabs(p->to_m)) < pl_element_semispan_m(e) - 1e-6;
        sum += ends * (p->hand == PL_WHOLE ? 2 : 1) * pl_fairing_m3(ply_m, pl_fairing_ramp_m(ply_m), p->width_m);
    }
    return sum;
}

static void weigh(struct pl_resin_kit *out, const struct pl_part *part, const struct pl_kit *kit, double structure_kg)
{
    const struct pl_shed *shed = &part->shed;
    struct pl_race_mass *m = &out->race;
    *m = (struct pl_race_mass){.structure_kg = structure_kg, .brackets_kg = shed->brackets_kg, .plates_kg = shed->plates_kg};
    for (size_t i = 0; i < part->n_elements; i++) {
        m->slurry_kg += shed->slurry_kg_m2 * kit->core_area_m2[i];
        m->paint_kg += shed->paint_kg_m2 * kit->core_area_m2[i];
        for (size_t k = 0; k < part->elements[i].n_layup; k++)
            m->filler_m3 += group_filler_m3(part, kit, i, k);
    }
    m->filler_mixed_m3 = 1.4 * m->filler_m3;
    m->filler_kg = m->filler_m3 * shed->filler_kg_m3;
    m->sum_kg = m->structure_kg + m->slurry_kg + m->filler_kg + m->paint_kg + (pl_given(m->brackets_kg) ? m->brackets_kg : 0)
                + (pl_given(m->plates_kg) ? m->plates_kg : 0);
}

static bool warn_mass(struct pl_resin_kit *out, const struct pl_part *part)
{
    const struct pl_race_mass *m = &out->race;
    double limit_kg = part->limits.mass_kg;
    if (pl_given(limit_kg) && m->sum_kg > limit_kg
        && !warn(out, "ready to race it weighs %.3f kg, over the limit of %g kg; the verdict counts core and laminate alone", m->sum_kg, limit_kg))
        return false;
    bool plates = false;
    for (size_t i = 0; i < part->n_elements; i++)
        plates = plates || part->elements[i].end_plates.given;
    if (!pl_given(m->brackets_kg) && !warn(out, "brackets are not weighed: give shed brackets_kg"))
        return false;
    return !plates || pl_given(m->plates_kg) || warn(out, "end plates are not weighed: give shed plates_kg");
}

/* ---- all of it ---- */

static bool is_used(const struct pl_part *part, size_t resin)
{
    for (size_t i = 0; i < part->n_elements; i++)
        if (part->elements[i].resin == resin)
            return true;
    return false;
}

enum pl_status pl_resin_build(struct pl_resin_kit *out, const struct pl_part *part, const struct pl_kit *kit, double structure_kg,
                              struct pl_problems *problems)
{
    struct pl_arena arena = out->arena;
    pl_arena_reset(&arena);
    *out = (struct pl_resin_kit){.arena = arena};
    struct planner p = {.out = out, .part = part, .kit = kit, .status = PL_NO_MEMORY, .problems = problems};
    out->plans = pl_arena_take(&out->arena, part->n_resins, sizeof *out->plans);
    out->warnings = pl_arena_take(&out->arena, KIT_WARNINGS, sizeof *out->warnings);
    p.steps = pl_arena_take_raw(&out->arena, kit->n_pieces + 1, sizeof *p.steps);
    p.runs = pl_arena_take_raw(&out->arena, kit->n_pieces + 1, sizeof *p.runs);
    if (!out->plans || !out->warnings || !p.steps || !p.runs)
        return PL_NO_MEMORY;
    for (size_t r = 0; r < part->n_resins; r++)
        if (is_used(part, r)) {
            p.plan = &out->plans[out->n_plans++];
            p.plan->resin = r;
            if (!plan_resin(&p))
                return p.status;
        }
    weigh(out, part, kit, structure_kg);
    return warn_mass(out, part) ? PL_OK : PL_NO_MEMORY;
}

void pl_resin_free(struct pl_resin_kit *kit)
{
    pl_arena_free(&kit->arena);
    *kit = (struct pl_resin_kit){0};
}
