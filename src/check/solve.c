#include "plyloft/check.h"

#include "model.h"

#include <math.h>
#include <stdlib.h>

/* A result set lives in an arena of its own, so that the one before stays while the next is made. */
struct result_set {
    struct pl_arena arena;
    struct pl_verdict verdict;
    bool good;
};

struct pl_solve {
    struct pl_arena work;       /* models of the run in hand */
    struct pl_arena place;      /* of pl_solve_place */
    struct result_set sets[2];
    int newest;
    struct air_source source;
    struct pl_wing_air *own_air;
    struct model place_model;
    double place_y_m;
};

struct pl_solve *pl_solve_new(void)
{
    struct pl_solve *solve = calloc(1, sizeof *solve);
    if (!solve || !(solve->own_air = pl_wing_air_new())) {
        free(solve);
        return NULL;
    }
    solve->source.air = solve->own_air;
    return solve;
}

void pl_solve_free(struct pl_solve *solve)
{
    if (!solve)
        return;
    pl_wing_air_free(solve->own_air);
    pl_arena_free(&solve->work);
    pl_arena_free(&solve->place);
    for (int i = 0; i < 2; i++)
        pl_arena_free(&solve->sets[i].arena);
    free(solve);
}

void pl_solve_use_air(struct pl_solve *solve, struct pl_wing_air *air, bool old_will_do)
{
    solve->source = (struct air_source){air ? air : solve->own_air, old_will_do};
}

const struct pl_verdict *pl_solve_verdict(const struct pl_solve *solve)
{
    const struct result_set *set = &solve->sets[solve->newest];
    return set->good ? &set->verdict : NULL;
}

/* There are strikes, and each says over what area it touches. */
static bool strikes_are_described(const struct pl_part *part)
{
    size_t strikes = 0;
    for (size_t i = 0; i < part->n_load_cases; i++) {
        if (part->load_cases[i].kind != PL_TIP_STRIKE)
            continue;
        strikes++;
        if (!pl_given(part->load_cases[i].contact_length_m))
            return false;
    }
    return strikes > 0;
}

const char *const *pl_check_not_checked(const struct pl_part *part)
{
    static const char *const words[] = {"brackets", "bonds", "end plates", "strike crushing", "fatigue", "divergence",
                                        "vibration", NULL};
    static const char *const but_strikes[] = {"brackets", "bonds", "end plates", "fatigue", "divergence", "vibration", NULL};
    return strikes_are_described(part) ? but_strikes : words;
}

static enum pl_status build_models(struct pl_solve *solve, const struct pl_part *part, struct model **models,
                                   struct pl_problems *problems)
{
    struct model *m = *models = pl_arena_take(&solve->work, part->n_elements, sizeof *m);
    enum pl_status first = m ? PL_OK : PL_NO_MEMORY;
    for (size_t i = 0; m && i < part->n_elements; i++) {
        enum pl_status status = pl_model_build(&m[i], part, i, &solve->work, problems);
        first = first == PL_OK ? status : first;
    }
    return first;
}

static bool set_elements(struct pl_verdict *v, const struct model *models, struct pl_arena *arena)
{
    v->elements = pl_arena_take(arena, v->n_elements, sizeof *v->elements);
    for (size_t i = 0; v->elements && i < v->n_elements; i++) {
        const struct model *m = &models[i];
        v->elements[i] = (struct pl_element_result){m->loft.element, 2 * m->loft.semispan_m, m->loft.plan_area_m2,
                                                    m->mass_kg, m->core_mass_kg};
        v->mass_kg += m->mass_kg;
    }
    return v->elements;
}

static bool set_cloths(struct pl_verdict *v, const struct model *models, struct pl_arena *arena,
                       struct pl_arena *scratch)
{
    v->cloths = pl_arena_take(arena, v->n_cloths, sizeof *v->cloths);
    for (size_t i = 0; v->cloths && i < v->n_elements; i++)
        if (!pl_model_add_cloth(&models[i], v->cloths, scratch))
            return false;
    return v->cloths;
}

static bool ready(const struct pl_load_case *c, const struct case_state *states)
{
    for (size_t i = 0; i < c->n_with; i++)
        if (!states[c->with[i]].done)
            return false;
    return true;
}

/* Cases that others load with come first; the part's rules have refused circles. */
static enum pl_status solve_cases(struct pl_verdict *v, struct model *models, const struct pl_part *part,
                                  struct pl_solve *solve, struct pl_arena *arena, struct pl_problems *problems)
{
    struct case_state *states = pl_arena_take(&solve->work, part->n_load_cases, sizeof *states);
    v->cases = pl_arena_take(arena, part->n_load_cases, sizeof *v->cases);
    if (!states || !v->cases)
        return PL_NO_MEMORY;
    for (size_t left = part->n_load_cases; left;) {
        size_t before = left;
        for (size_t i = 0; i < part->n_load_cases; i++) {
            const struct pl_load_case *c = &part->load_cases[i];
            if (states[i].done || !ready(c, states))
                continue;
            enum pl_status status = pl_case_solve(models, c, states, solve->source, &v->cases[i], arena, &solve->work, problems);
            if (status != PL_OK)
                return status;
            left--;
        }
        if (left == before)
            return PL_BAD_INPUT;
    }
    return PL_OK;
}

enum pl_status pl_check_shape(struct pl_solve *solve, const struct pl_part *part, struct pl_problems *problems)
{
    struct model *models;
    size_t errors = problems->errors;
    pl_arena_reset(&solve->work);
    pl_check_profiles(part, problems);
    if (problems->errors > errors)
        return PL_BAD_INPUT;
    enum pl_status status = build_models(solve, part, &models, problems);
    if (status == PL_OK)
        status = pl_check_shape_rules(models, part, &solve->work, problems);
    return status == PL_OK && problems->errors > errors ? PL_BAD_INPUT : status;
}

static void judge(struct pl_verdict *v, const struct pl_part *part)
{
    v->worst_case = PL_NONE;
    v->mass_holds = !pl_given(part->limits.mass_kg) || v->mass_kg <= part->limits.mass_kg;
    v->holds = v->mass_holds;
    for (size_t i = 0; i < v->n_cases; i++) {
        v->holds = v->holds && v->cases[i].holds;
        if (v->worst_case == PL_NONE || v->cases[i].least.reserve < v->cases[v->worst_case].least.reserve * (1 - 1e-6))
            v->worst_case = i;
    }
}

static bool all_finite(const struct pl_verdict *v)
{
    bool finite = isfinite(v->mass_kg);
    for (size_t i = 0; i < v->n_cases; i++)
        finite = finite && isfinite(v->cases[i].least.reserve) && isfinite(v->cases[i].tip_most_m);
    return finite;
}

enum pl_status pl_solve_run(struct pl_solve *solve, const struct pl_part *part, struct pl_problems *problems)
{
    struct result_set *set = &solve->sets[!solve->newest];
    struct model *models;
    pl_arena_reset(&solve->work);
    pl_arena_reset(&set->arena);
    set->good = false;
    set->verdict = (struct pl_verdict){
        .n_elements = part->n_elements, .n_cases = part->n_load_cases, .n_cloths = part->n_fabrics};
    size_t errors = problems->errors;
    pl_check_profiles(part, problems);
    if (problems->errors > errors)
        return PL_BAD_INPUT;
    enum pl_status status = build_models(solve, part, &models, problems);
    if (status == PL_OK)
        status = pl_check_shape_rules(models, part, &solve->work, problems);
    if (status != PL_OK)
        return status;
    if (problems->errors > errors)
        return PL_BAD_INPUT;
    if (!set_elements(&set->verdict, models, &set->arena)
        || !set_cloths(&set->verdict, models, &set->arena, &solve->work))
        return PL_NO_MEMORY;
    status = solve_cases(&set->verdict, models, part, solve, &set->arena, problems);
    if (status != PL_OK)
        return status;
    if (!all_finite(&set->verdict)) {
        pl_problem_add(problems, PL_ERROR, "", "the figures of this part are out of any range that can be computed", NULL);
        return PL_NOT_CONVERGED;
    }
    judge(&set->verdict, part);
    set->good = true;
    solve->newest = !solve->newest;
    return PL_OK;
}

/* ---- single places ---- */

static bool start_place_model(struct pl_solve *solve, const struct pl_part *part, size_t element,
                              struct pl_problems *problems)
{
    struct model *m = &solve->place_model;
    struct pl_arena *arena = &solve->place;
    const struct pl_element *e = &part->elements[element];
    pl_arena_reset(arena);
    *m = (struct model){.part = part, .element = element};
    return pl_loft_build(&m->loft, part, e, arena) && pl_cloth_build(&m->cloth, e, arena)
           && pl_stack_set_start(&m->stacks, part, e, arena)
           && pl_section_builder_start(&m->builder, part, &m->loft, &m->cloth, &m->stacks, arena, problems, "/elements");
}

static bool copy_outline(struct model *m, struct pl_place_view *out, struct pl_arena *arena)
{
    size_t n = out->n_core = m->loft.count;
    double *slab = pl_arena_take_raw(arena, 4 * n, sizeof *slab);
    if (!slab)
        return false;
    out->core_x_m = slab;
    out->core_top_m = slab + n;
    out->core_bottom_x_m = slab + 2 * n;
    out->core_bottom_m = slab + 3 * n;
    for (size_t i = 0; i < n; i++) {
        double c = out->place.chord_m;
        out->core_x_m[i] = c * out->place.top.x[i];
        out->core_top_m[i] = c * out->place.top.z[i];
        out->core_bottom_x_m[i] = c * out->place.bottom.x[i];
        out->core_bottom_m[i] = c * out->place.bottom.z[i];
    }
    return true;
}

enum pl_status pl_solve_place(struct pl_solve *solve, const struct pl_part *part, size_t element, double y_m,
                              struct pl_place_view *out, struct pl_problems *problems)
{
    struct model *m = &solve->place_model;
    size_t errors = problems->errors;
    pl_check_profiles(part, problems);
    if (problems->errors > errors)
        return PL_BAD_INPUT;
    if (!start_place_model(solve, part, element, problems))
        return PL_NO_MEMORY;
    enum pl_status status = pl_section_build(&m->builder, y_m, PL_HERE, &out->section);
    if (status != PL_OK)
        return status;
    solve->place_y_m = y_m;
    out->stacks = &m->stacks;
    double *scratch = pl_arena_take_raw(&solve->place, 4 * m->loft.count, sizeof *scratch);
    if (!scratch)
        return PL_NO_MEMORY;
    pl_loft_at(&m->loft, y_m, scratch, &out->place);
    return copy_outline(m, out, &solve->place) ? PL_OK : PL_NO_MEMORY;
}

const struct pl_stack *pl_solve_stack(struct pl_solve *solve, enum pl_side side, double fraction)
{
    struct model *m = &solve->place_model;
    size_t stack = pl_section_stack_at(&m->builder, solve->place_y_m, PL_HERE, side, fraction);
    return stack == PL_NONE ? NULL : &m->stacks.stacks[stack];
}

void pl_solve_plies(struct pl_solve *solve, const struct pl_stack *stack, struct pl_ply *out)
{
    pl_stack_plies(&solve->place_model.stacks, stack, solve->place_y_m < 0, out);
}

size_t pl_solve_item_plies(struct pl_solve *solve, double y_m, size_t item)
{
    return pl_cloth_plies_at(&solve->place_model.cloth, item, fabs(y_m), PL_HERE);
}

size_t pl_solve_plies_over(struct pl_solve *solve, double y_m, enum pl_side side, double fraction)
{
    const struct pl_element *e = solve->place_model.loft.element;
    double x_le_m, chord_m, from, to;
    size_t n = 0;
    pl_solve_chord(solve, y_m, &x_le_m, &chord_m);
    for (size_t i = 0; i < e->n_layup; i++) {
        pl_item_edges(&e->layup[i], chord_m, &from, &to, NULL);
        if (pl_item_on_side(&e->layup[i], side) && fraction >= from && fraction <= to)
            n += pl_solve_item_plies(solve, y_m, i);
    }
    return n;
}

static double thickness_over(struct pl_solve *solve, double y_m, double chord_m, enum pl_side side, double fraction)
{
    const struct pl_element *e = solve->place_model.loft.element;
    double from, to, thickness_m = 0;
    for (size_t i = 0; i < e->n_layup; i++) {
        pl_item_edges(&e->layup[i], chord_m, &from, &to, NULL);
        if (pl_item_on_side(&e->layup[i], side) && fraction >= from && fraction <= to)
            thickness_m += (double)pl_solve_item_plies(solve, y_m, i) * pl_fabric_ply_m(&solve->place_model.part->fabrics[e->layup[i].fabric]);
    }
    return thickness_m;
}

double pl_solve_wall_m(struct pl_solve *solve, double y_m, enum pl_side side)
{
    const struct pl_element *e = solve->place_model.loft.element;
    double x_le_m, chord_m, from, to, most_m = 0;
    pl_solve_chord(solve, y_m, &x_le_m, &chord_m);
    /* Wherever the stack is thickest, it is so at the forward edge of one of its strips. */
    for (size_t i = 0; i < e->n_layup; i++) {
        pl_item_edges(&e->layup[i], chord_m, &from, &to, NULL);
        if (pl_item_on_side(&e->layup[i], side))
            most_m = fmax(most_m, thickness_over(solve, y_m, chord_m, side, from));
    }
    return most_m;
}

void pl_solve_chord(struct pl_solve *solve, double y_m, double *x_le_m, double *chord_m)
{
    struct pl_loft_place place;
    pl_loft_at(&solve->place_model.loft, y_m, solve->place_model.builder.loft_scratch, &place);
    *x_le_m = place.x_le_m;
    *chord_m = place.chord_m;
}

const struct pl_check_row *pl_case_row_at(const struct pl_case_result *result, double y_m)
{
    size_t low = 0, high = result->n_rows - 1;
    while (low < high) {
        size_t mid = (low + high) / 2;
        if (result->rows[mid].y_m < y_m)
            low = mid + 1;
        else
            high = mid;
    }
    if (low && y_m - result->rows[low - 1].y_m < result->rows[low].y_m - y_m)
        low--;
    return &result->rows[low];
}
