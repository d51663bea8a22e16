/* States of a part.  Differences are in differences.c. */
#include "plyloft/compare.h"

#include "keep.h"

static void keep_cases(struct pl_state *s, const struct pl_part *part, const struct pl_verdict *verdict)
{
    s->lowest_case = verdict->worst_case;
    s->cases = pl_arena_take(&s->arena, verdict->n_cases, sizeof *s->cases);
    for (size_t i = 0; s->cases && i < verdict->n_cases; i++) {
        const struct pl_case_result *from = &verdict->cases[i];
        struct pl_state_case *to = &s->cases[s->n_cases++];
        *to = (struct pl_state_case){
            .name = pl_keep_text(&s->arena, from->load_case->name),
            .element = pl_keep_text(&s->arena, part->elements[from->load_case->element].name),
            .least = from->least,
            .tip_most_m = from->tip_most_m,
            .tip_limit_m = from->load_case->tip_limit_m,
            .holds = from->holds,
        };
        to->least.item = pl_keep_text(&s->arena, from->least.item);
    }
}

static size_t plies_of(const struct pl_part *part, size_t fabric)
{
    size_t plies = 0;
    for (size_t e = 0; e < part->n_elements; e++)
        for (size_t i = 0; i < part->elements[e].n_layup; i++) {
            const struct pl_layup_item *item = &part->elements[e].layup[i];
            plies += item->fabric == fabric ? (size_t)item->plies : 0;
        }
    return plies;
}

static void keep_cloths(struct pl_state *s, const struct pl_part *part, const struct pl_verdict *verdict)
{
    s->cloths = pl_arena_take(&s->arena, verdict->n_cloths, sizeof *s->cloths);
    for (size_t i = 0; s->cloths && i < verdict->n_cloths; i++) {
        const struct pl_cloth_result *from = &verdict->cloths[i];
        size_t plies = plies_of(part, i);
        if (!plies)
            continue;
        s->cloths[s->n_cloths++] = (struct pl_state_cloth){
            .name = pl_keep_text(&s->arena, part->fabrics[i].name),
            .area_m2 = from->area_m2,
            .mass_kg = from->mass_kg,
            .plies = plies,
        };
    }
}

enum pl_status pl_state_take(struct pl_state *out, const char *name, const char *bytes, size_t length,
                             const struct pl_part *part, const struct pl_verdict *verdict)
{
    *out = (struct pl_state){.length = length, .judged = verdict, .lowest_case = PL_NONE};
    out->name = pl_keep_safe(&out->arena, name);
    out->bytes = pl_keep_bytes(&out->arena, bytes, length);
    if (verdict) {
        out->mass_kg = verdict->mass_kg;
        out->holds = verdict->holds;
        out->mass_holds = verdict->mass_holds;
        keep_cases(out, part, verdict);
        keep_cloths(out, part, verdict);
    }
    if (!out->arena.failed)
        return PL_OK;
    pl_state_free(out);
    return PL_NO_MEMORY;
}

void pl_state_free(struct pl_state *state)
{
    pl_arena_free(&state->arena);
    *state = (struct pl_state){0};
}

const struct pl_lowest *pl_state_lowest(const struct pl_state *state)
{
    return state->judged && state->lowest_case != PL_NONE ? &state->cases[state->lowest_case].least : NULL;
}
