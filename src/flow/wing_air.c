#include "plyloft/wing_air.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { KEPT = 12 };

struct kept {
    bool there;
    uint64_t key;
    unsigned long used;
    enum pl_status status;
    char why[256];
    struct pl_wing_strip *strips;
    size_t n_strips, most_strips, n_elements;
    struct pl_wing_figures figures;
    double semispan_m;
};

struct pl_wing_air {
    struct pl_wing_flow *flow;
    bool working;
    uint64_t key;          /* of what is being worked out */
    double semispan_m;
    size_t n_elements;
    struct pl_problems problems;
    unsigned long clock;
    struct kept kept[KEPT];
};

struct pl_wing_air *pl_wing_air_new(void)
{
    struct pl_wing_air *a = calloc(1, sizeof *a);
    if (a)
        a->flow = pl_wing_flow_new();
    if (a && !a->flow) {
        free(a);
        a = NULL;
    }
    return a;
}

void pl_wing_air_free(struct pl_wing_air *a)
{
    if (!a)
        return;
    for (size_t i = 0; i < KEPT; i++)
        free(a->kept[i].strips);
    pl_problems_free(&a->problems);
    pl_wing_flow_free(a->flow);
    free(a);
}

/* ---- finding ---- */

static struct kept *find_key(struct pl_wing_air *a, uint64_t key)
{
    for (size_t i = 0; i < KEPT; i++)
        if (a->kept[i].there && a->kept[i].key == key)
            return &a->kept[i];
    return NULL;
}

/* The one used last that has an answer for as many elements. */
static struct kept *find_newest(struct pl_wing_air *a, size_t n_elements)
{
    struct kept *best = NULL;
    for (size_t i = 0; i < KEPT; i++) {
        struct kept *k = &a->kept[i];
        if (k->there && k->status == PL_OK && k->n_elements == n_elements && (!best || k->used > best->used))
            best = k;
    }
    return best;
}

enum pl_status pl_wing_air_find(struct pl_wing_air *a, const struct pl_part *part, const struct pl_load_case *c, struct pl_wing_air_view *out,
                                struct pl_problems *problems)
{
    struct kept *k = find_key(a, pl_wing_flow_key(part, c));
    bool old = !k;
    if (old)
        k = find_newest(a, part->n_elements);
    if (!k)
        return PL_BAD_INPUT;
    if (k->status != PL_OK) {
        pl_problem_add(problems, PL_ERROR, "", k->why, NULL);
        return k->status;
    }
    if (!old)
        k->used = ++a->clock;
    *out = (struct pl_wing_air_view){k->strips, k->n_strips, k->figures, k->semispan_m, old};
    return PL_OK;
}

/* ---- working out ---- */

static struct kept *place_for(struct pl_wing_air *a)
{
    struct kept *oldest = &a->kept[0];
    for (size_t i = 0; i < KEPT; i++) {
        if (!a->kept[i].there)
            return &a->kept[i];
        if (a->kept[i].used < oldest->used)
            oldest = &a->kept[i];
    }
    return oldest;
}

static void keep(struct pl_wing_air *a)
{
    struct kept *k = place_for(a);
    enum pl_status status = pl_wing_flow_status(a->flow);
    size_t n = 0;
    const struct pl_wing_strip *strips = pl_wing_flow_strips(a->flow, &n);
    if (status == PL_OK && n > k->most_strips) {
        struct pl_wing_strip *more = realloc(k->strips, n * sizeof *more);
        if (more) {
            k->strips = more;
            k->most_strips = n;
        } else {
            status = PL_NO_MEMORY;
        }
    }
    k->there = true;
    k->key = a->key;
    k->used = ++a->clock;
    k->status = status;
    k->n_strips = status == PL_OK ? n : 0;
    k->n_elements = a->n_elements;
    k->semispan_m = a->semispan_m;
    k->figures = pl_wing_flow_figures(a->flow);
    snprintf(k->why, sizeof k->why, "%s", a->problems.count ? a->problems.list[0].rule
             : status == PL_NO_MEMORY ? "not enough memory for the flow over the wing" 
             : k->figures.induced_drag < 0 ? "end plates are so large beside the wing that the flow has no answer for its drag"
                                           : "the flow over this wing did not converge");
    if (k->n_strips)
        memcpy(k->strips, strips, n * sizeof *strips);
    pl_problems_clear(&a->problems);
    a->working = false;
}

bool pl_wing_air_step(struct pl_wing_air *a, const struct pl_part *part, const struct pl_load_case *c)
{
    uint64_t key = pl_wing_flow_key(part, c);
    if (find_key(a, key))
        return false;
    if (!a->working || a->key != key) {
        a->working = true;
        a->key = key;
        a->semispan_m = pl_element_semispan_m(&part->elements[c->element]);
        a->n_elements = part->n_elements;
        pl_problems_clear(&a->problems);
        if (pl_wing_flow_aim(a->flow, part, c, &a->problems) == PL_OK)
            return true;
    } else if (pl_wing_flow_step(a->flow)) {
        return true;
    }
    keep(a);
    return false;
}
