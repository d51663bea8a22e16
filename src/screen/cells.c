/* cells.c - what a cell shows and says, whether the file has its value or it is worked out from others. */
#include "session.h"

#include "block.h"

#include "plyloft/gap_edit.h"
#include "plyloft/part_edit.h"

#include <stdio.h>
#include <string.h>

void pl_gaps_look(struct pl_session *s, bool whole)
{
    const struct pl_part *part = pl_session_built(s);
    pl_arena_reset(&s->gap_memory);
    s->gaps = NULL;
    if (whole && part->n_elements > 1)
        pl_gap_shape_make(&s->gaps, part, &s->gap_memory);
}

bool pl_element_is_behind(const struct pl_session *s)
{
    return pl_gap_is_behind(pl_session_part(s), s->element);
}

static bool is_derived(const char *pointer)
{
    enum pl_group_id group;
    const struct pl_field *field = pl_field_at(pointer, &group);
    return field && field->derived;
}

void pl_cell_words(const struct pl_session *s, const char *pointer, char *out, size_t size)
{
    if (is_derived(pointer))
        pl_gap_words(s->gaps, pointer, out, size);
    else
        pl_part_value_words(s->document, pointer, out, size);
}

bool pl_cell_there(const struct pl_session *s, const char *pointer)
{
    char words[64];
    if (!is_derived(pointer))
        return pl_document_find(s->document, pointer) != PL_NO_NODE;
    pl_gap_words(s->gaps, pointer, words, sizeof words);
    return strcmp(words, "-");
}

void pl_cell_more_words(const struct pl_session *s, const char *pointer, char *out, size_t size)
{
    out[0] = '\0';
    if (is_derived(pointer))
        pl_gap_more_words(s->gaps, pointer, out, size);
}

enum pl_status pl_cell_type(struct pl_session *s, const char *pointer, const char *typed, struct pl_problems *problems)
{
    return (is_derived(pointer) ? pl_gap_type : pl_part_type)(s->document, pointer, typed, problems);
}

enum pl_status pl_cell_step_value(struct pl_session *s, const char *pointer, int way, struct pl_problems *problems)
{
    return (is_derived(pointer) ? pl_gap_step : pl_part_step)(s->document, pointer, way, problems);
}
