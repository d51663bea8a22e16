#include "plyloft/field.h"

#include "plyloft/buffer.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void pl_field_range_words(const struct pl_field *f, char *out, size_t size)
{
    char least[32], most[32];
    pl_number_digits(least, sizeof least, f->least, 10);
    pl_number_digits(most, sizeof most, f->most, 10);
    if (f->above)
        snprintf(out, size, "must be above %s%s%s", least, f->below ? " and below " : ", at most ", most);
    else
        snprintf(out, size, "must be from %s to %s", least, most);
}

/* Next token of a pointer into token; the rest, or NULL at the end. */
static const char *next_token(const char *pointer, char *token, size_t size)
{
    if (*pointer != '/')
        return NULL;
    size_t n = strcspn(pointer + 1, "/");
    snprintf(token, size, "%.*s", (int)n, pointer + 1);
    return pointer + 1 + n;
}

static bool is_index(const char *token)
{
    return token[0] && strspn(token, "0123456789") == strlen(token);
}

static enum pl_group_id child_group(enum pl_group_id parent, const char *key)
{
    for (size_t i = 1; i < PL_GROUPS; i++)
        if (pl_groups[i].parent == parent && !strcmp(pl_groups[i].key, key))
            return (enum pl_group_id)i;
    return PL_GROUPS;
}

const struct pl_field *pl_field_named(enum pl_group_id group, const char *key)
{
    for (size_t i = 0; i < pl_groups[group].n_fields; i++)
        if (!strcmp(pl_groups[group].fields[i].key, key))
            return &pl_groups[group].fields[i];
    for (size_t i = 0; i < pl_groups[group].n_derived; i++)
        if (!strcmp(pl_groups[group].derived[i].key, key))
            return &pl_groups[group].derived[i];
    return NULL;
}

/* Places inside a field: a point, a name of a list, one of a pair, a limit by name. */
static bool holds_more(const struct pl_field *f)
{
    return f && (f->kind == PL_FIELD_POINTS || f->kind == PL_FIELD_REFERENCES || f->kind == PL_FIELD_PAIR || f->kind == PL_FIELD_MAP);
}

/* Where a walk along a pointer has come to. */
struct walk {
    const char *row;              /* starts at the part, or is NULL when only the table matters */
    enum pl_group_id group;
    const char *row_end;          /* of what names a row, in the pointer */
    enum pl_group_id named_group; /* that row's */
};

/* One row of a list, or one object, further; what is left of the pointer. */
static const char *enter(struct walk *w, enum pl_group_id child, const char *pointer)
{
    char token[128];
    const struct pl_group *g = &pl_groups[child];
    const char *rest = g->list ? next_token(pointer, token, sizeof token) : pointer;
    size_t index = g->list && rest && is_index(token) ? (size_t)strtoul(token, NULL, 10) : PL_NONE;
    if (!g->list)
        w->row = w->row ? w->row + g->at : NULL;
    else if (w->row && index < *(const size_t *)(w->row + g->count_at))
        w->row = *(const char *const *)(w->row + g->at) + index * g->stride;
    else
        w->row = NULL;
    w->group = child;
    if (!g->list || index != PL_NONE) {
        w->row_end = rest;
        w->named_group = child;
    }
    return rest ? rest : "";
}

static const struct pl_field *walk(const char *pointer, struct walk *w)
{
    char token[128];
    const char *rest;
    w->group = w->named_group = PL_GROUP_PART;
    w->row_end = pointer;
    while ((rest = next_token(pointer, token, sizeof token))) {
        enum pl_group_id child = child_group(w->group, token);
        if (child == PL_GROUPS)
            return *rest && !holds_more(pl_field_named(w->group, token)) ? NULL : pl_field_named(w->group, token);
        pointer = enter(w, child, rest);
    }
    return NULL;
}

const struct pl_field *pl_field_at(const char *pointer, enum pl_group_id *group)
{
    struct walk w = {0};
    const struct pl_field *field = walk(pointer, &w);
    *group = w.group;
    return field;
}

size_t pl_field_row(const char *pointer, enum pl_group_id *group)
{
    struct walk w = {0};
    walk(pointer, &w);
    *group = w.named_group;
    return (size_t)(w.row_end - pointer);
}

const void *pl_part_row(const struct pl_part *part, const char *pointer, enum pl_group_id *group)
{
    struct walk w = {.row = (const char *)part};
    walk(pointer, &w);
    *group = w.group;
    return w.row;
}
