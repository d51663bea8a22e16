#include "plyloft/forgotten.h"

#include <stdlib.h>
#include <string.h>

struct pl_forgotten {
    const struct pl_part *part;
    struct pl_solve *solve;
    struct pl_arena arena;
    struct pl_problems problems;
    struct pl_forgotten_ply **plies;  /* by element and item */
    size_t element, item;             /* next to work out */
};

struct pl_forgotten *pl_forgotten_new(void)
{
    struct pl_forgotten *f = calloc(1, sizeof *f);
    if (f && !(f->solve = pl_solve_new())) {
        free(f);
        return NULL;
    }
    return f;
}

void pl_forgotten_free(struct pl_forgotten *f)
{
    if (!f)
        return;
    pl_solve_free(f->solve);
    pl_arena_free(&f->arena);
    pl_problems_free(&f->problems);
    free(f);
}

void pl_forgotten_use_air(struct pl_forgotten *f, struct pl_wing_air *air)
{
    pl_solve_use_air(f->solve, air, true);
}

void pl_forgotten_start(struct pl_forgotten *f, const struct pl_part *part)
{
    pl_arena_reset(&f->arena);
    f->part = part;
    f->element = f->item = 0;
    f->plies = pl_arena_take(&f->arena, part->n_elements, sizeof *f->plies);
    for (size_t i = 0; f->plies && i < part->n_elements; i++) {
        f->plies[i] = pl_arena_take(&f->arena, part->elements[i].n_layup, sizeof **f->plies);
        if (!f->plies[i])
            f->plies = NULL;
    }
}

/* The longest ply is the one whose absence weakens every place: the next begins and ends drop_m nearer. */
static bool take_longest(struct pl_layup_item *list, size_t *count, size_t item, double semispan_m)
{
    struct pl_layup_item *it = &list[item];
    if (it->plies > 1) {
        double half_m = pl_given(it->half_length_m) ? it->half_length_m : semispan_m;
        it->plies--;
        it->half_length_m = half_m - it->drop_m;
        it->from_m += it->from_m > 0 ? it->drop_m : 0;
        return true;
    }
    memmove(it, it + 1, (*count - item - 1) * sizeof *it);
    return --*count > 0;
}

static void work_out(struct pl_forgotten *f, size_t element, size_t item, struct pl_forgotten_ply *out)
{
    const struct pl_element *e = &f->part->elements[element];
    struct pl_element *elements = malloc(f->part->n_elements * sizeof *elements);
    struct pl_layup_item *layup = malloc(e->n_layup * sizeof *layup);
    *out = (struct pl_forgotten_ply){.done = true, .bare = true, .reserve = PL_NOT_GIVEN, .load_case = PL_NONE};
    if (elements && layup) {
        struct pl_part part = *f->part;
        memcpy(elements, part.elements, part.n_elements * sizeof *elements);
        memcpy(layup, e->layup, e->n_layup * sizeof *layup);
        part.elements = elements;
        elements[element].layup = layup;
        pl_problems_clear(&f->problems);
        bool some = take_longest(layup, &elements[element].n_layup, item, pl_element_semispan_m(e));
        if (some && pl_solve_run(f->solve, &part, &f->problems) == PL_OK) {
            const struct pl_verdict *v = pl_solve_verdict(f->solve);
            out->bare = false;
            out->load_case = v->worst_case;
            out->reserve = v->worst_case == PL_NONE ? PL_NOT_GIVEN : v->cases[v->worst_case].least.reserve;
        }
    }
    free(elements);
    free(layup);
}

bool pl_forgotten_step(struct pl_forgotten *f)
{
    if (!f->part || !f->plies)
        return false;
    while (f->element < f->part->n_elements && f->item >= f->part->elements[f->element].n_layup) {
        f->element++;
        f->item = 0;
    }
    if (f->element >= f->part->n_elements)
        return false;
    work_out(f, f->element, f->item, &f->plies[f->element][f->item]);
    f->item++;
    return true;
}

const struct pl_forgotten_ply *pl_forgotten_of(const struct pl_forgotten *f, size_t element, size_t item)
{
    if (!f->part || !f->plies || element >= f->part->n_elements || item >= f->part->elements[element].n_layup)
        return NULL;
    return f->plies[element][item].done ? &f->plies[element][item] : NULL;
}

/* A group whose absence leaves the wall bare is missed at once; the other ones are the danger. */
static bool worse(const struct pl_forgotten_ply *a, const struct pl_forgotten_ply *b)
{
    return !a->bare && (!b || a->reserve < b->reserve);
}

const struct pl_forgotten_ply *pl_forgotten_worst(const struct pl_forgotten *f, size_t *element, size_t *item)
{
    const struct pl_forgotten_ply *worst = NULL;
    for (size_t e = 0; f->part && e < f->part->n_elements; e++)
        for (size_t i = 0; i < f->part->elements[e].n_layup; i++) {
            const struct pl_forgotten_ply *p = pl_forgotten_of(f, e, i);
            if (p && worse(p, worst)) {
                worst = p;
                *element = e;
                *item = i;
            }
        }
    return worst;
}
