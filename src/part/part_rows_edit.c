#include "part_rows_edit.h"

#include "document_inside.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define POINTER_FROM(format, out)                                                                                      \
    do {                                                                                                               \
        va_list args_;                                                                                                 \
        va_start(args_, format);                                                                                       \
        vsnprintf(out, sizeof out, format, args_);                                                                     \
        va_end(args_);                                                                                                 \
    } while (0)

/* ---- values ---- */

pl_node pl_row_find(const struct pl_document *doc, const char *format, ...)
{
    char pointer[PL_POINTER_MOST];
    POINTER_FROM(format, pointer);
    return pl_document_find(doc, pointer);
}

bool pl_row_has(const struct pl_document *doc, const char *format, ...)
{
    char pointer[PL_POINTER_MOST];
    POINTER_FROM(format, pointer);
    return pl_document_find(doc, pointer) != PL_NO_NODE;
}

double pl_row_number(const struct pl_document *doc, const char *format, ...)
{
    char pointer[PL_POINTER_MOST];
    POINTER_FROM(format, pointer);
    pl_node node = pl_document_find(doc, pointer);
    bool there = node != PL_NO_NODE && pl_node_kind(doc, node) == PL_NODE_NUMBER;
    return there ? pl_node_number(doc, node) : PL_NOT_GIVEN;
}

const char *pl_row_text(const struct pl_document *doc, const char *format, ...)
{
    char pointer[PL_POINTER_MOST];
    POINTER_FROM(format, pointer);
    pl_node node = pl_document_find(doc, pointer);
    return node == PL_NO_NODE ? "" : pl_node_text(doc, node);
}

size_t pl_row_count(const struct pl_document *doc, const char *format, ...)
{
    char pointer[PL_POINTER_MOST];
    POINTER_FROM(format, pointer);
    pl_node node = pl_document_find(doc, pointer);
    return node != PL_NO_NODE && pl_node_kind(doc, node) == PL_NODE_LIST ? pl_node_count(doc, node) : 0;
}

void pl_row_parent(const char *pointer, char *out, size_t size)
{
    const char *slash = strrchr(pointer, '/');
    snprintf(out, size, "%.*s", slash ? (int)(slash - pointer) : 0, pointer);
}

/* ---- the step ---- */

enum pl_status pl_row_refuse(struct pl_problems *problems, const char *pointer, const char *rule, const char *found)
{
    pl_problem_add(problems, PL_ERROR, pointer, rule, found);
    return PL_BAD_INPUT;
}

enum pl_status pl_row_no_memory(struct pl_problems *problems, const char *pointer)
{
    pl_problem_add(problems, PL_ERROR, pointer, "there is not enough memory", NULL);
    return PL_NO_MEMORY;
}

void pl_row_begin(struct pl_row_edit *e, struct pl_document *doc, struct pl_problems *problems, const char *merge_key,
                  const char *format, ...)
{
    char name[PL_POINTER_MOST];
    POINTER_FROM(format, name);
    *e = (struct pl_row_edit){.doc = doc, .problems = problems, .status = pl_edit_begin(doc, name, merge_key)};
    e->open = e->status == PL_OK;
    if (e->status == PL_NO_MEMORY)
        pl_row_no_memory(problems, "");
    else if (!e->open)
        pl_row_refuse(problems, "", "too many edits are open", NULL);
}

void pl_row_begin_change(struct pl_row_edit *e, struct pl_document *doc, struct pl_problems *problems,
                         const char *pointer, const char *what, const char *from, const char *to)
{
    static const char arrow[] = " \u2192 ";
    const char *joins = pl_edit_joins(doc, pointer), *at = joins ? strstr(joins, arrow) : NULL;
    if (at)
        pl_row_begin(e, doc, problems, pointer, "%.*s%s%s", (int)(at - joins), joins, arrow, to);
    else
        pl_row_begin(e, doc, problems, pointer, "%s %s%s%s", what, from, arrow, to);
}

enum pl_status pl_row_end(struct pl_row_edit *e)
{
    if (!e->open)
        return e->status;
    e->open = false;
    if (e->status == PL_OK)
        return pl_edit_end(e->doc);
    pl_edit_abandon(e->doc);
    return e->status;
}

void pl_row_set(struct pl_row_edit *e, const char *json, const char *format, ...)
{
    char pointer[PL_POINTER_MOST];
    POINTER_FROM(format, pointer);
    if (e->status == PL_OK)
        e->status = pl_edit_set(e->doc, pointer, json, e->problems);
}

void pl_row_set_number(struct pl_row_edit *e, double value, const char *format, ...)
{
    char pointer[PL_POINTER_MOST], json[40];
    POINTER_FROM(format, pointer);
    pl_number_digits(json, sizeof json, value, 10);
    pl_row_set(e, json, "%s", pointer);
}

void pl_row_set_text(struct pl_row_edit *e, const char *text, const char *format, ...)
{
    char pointer[PL_POINTER_MOST];
    POINTER_FROM(format, pointer);
    if (e->status != PL_OK)
        return;
    char *json = pl_json_quote(text);
    if (json)
        pl_row_set(e, json, "%s", pointer);
    else
        e->status = pl_row_no_memory(e->problems, pointer);
    free(json);
}

void pl_row_insert(struct pl_row_edit *e, const char *json, const char *format, ...)
{
    char pointer[PL_POINTER_MOST];
    POINTER_FROM(format, pointer);
    if (e->status == PL_OK)
        e->status = pl_edit_insert(e->doc, pointer, json, e->problems);
}

void pl_row_unset(struct pl_row_edit *e, const char *format, ...)
{
    char pointer[PL_POINTER_MOST];
    POINTER_FROM(format, pointer);
    if (e->status == PL_OK && pl_document_find(e->doc, pointer) != PL_NO_NODE)
        e->status = pl_edit_remove(e->doc, pointer, e->problems);
}

/* ---- bytes ---- */

struct pl_row_span pl_row_value_span(const struct pl_document *doc, pl_node node)
{
    const struct pl_json_node *inside = pl_inside(doc, node);
    return (struct pl_row_span){inside->start, inside->end};
}

struct pl_row_span pl_row_key_span(const struct pl_document *doc, pl_node node)
{
    const struct pl_json_node *inside = pl_inside(doc, node);
    return (struct pl_row_span){inside->key_start, inside->key_end};
}

static void splice(struct pl_row_edit *e, const char *place, size_t start, size_t end, const struct pl_buffer *with)
{
    struct pl_json_error error = {0};
    if (e->status != PL_OK)
        return;
    e->status =
        with->failed ? PL_NO_MEMORY : pl_document_splice(e->doc, start, end - start, with->text, with->length, &error);
    if (e->status == PL_NO_MEMORY)
        pl_row_no_memory(e->problems, place);
    else if (e->status != PL_OK)
        pl_row_refuse(e->problems, place, error.rule, error.found);
}

static int by_start(const void *a, const void *b)
{
    const struct pl_row_span *x = a, *y = b;
    return (x->start > y->start) - (x->start < y->start);
}

void pl_row_rewrite(struct pl_row_edit *e, const char *place, struct pl_row_span *spans, size_t count, const char *text)
{
    struct pl_buffer with = {0};
    const char *bytes = e->doc->now.text->bytes;
    qsort(spans, count, sizeof *spans, by_start);
    for (size_t i = 0; i < count; i++) {
        pl_buffer_text(&with, text);
        if (i + 1 < count)
            pl_buffer_add(&with, bytes + spans[i].end, spans[i + 1].start - spans[i].end);
    }
    splice(e, place, spans[0].start, spans[count - 1].end, &with);
    pl_buffer_free(&with);
}

void pl_row_replace(struct pl_row_edit *e, const char *row, const char *key, const char *new_key, const char *json)
{
    pl_node node = pl_row_find(e->doc, "%s/%s", row, key);
    if (e->status != PL_OK)
        return;
    if (node == PL_NO_NODE || pl_row_has(e->doc, "%s/%s", row, new_key)) {
        pl_row_set(e, json, "%s/%s", row, new_key);
        pl_row_unset(e, "%s/%s", row, key);
        return;
    }
    struct pl_row_span old_key = pl_row_key_span(e->doc, node), old = pl_row_value_span(e->doc, node);
    struct pl_buffer with = {0};
    pl_buffer_printf(&with, "\"%s\"", new_key);
    pl_buffer_add(&with, e->doc->now.text->bytes + old_key.end, old.start - old_key.end);
    pl_buffer_text(&with, json);
    splice(e, row, old_key.start, old.end, &with);
    pl_buffer_free(&with);
}
