/* Differences between documents: all are walked at once, from their roots down. */
#include "plyloft/compare.h"

#include "plyloft/place_words.h"

#include "keep.h"

#include <stdlib.h>
#include <string.h>

enum { POINTER_MOST = 1000, SPELLING_MOST = 128 };

/* One place of the walk in every document; a place that a document does not have is PL_NO_NODE there. */
struct level {
    pl_node *nodes;
    const char *key;  /* in its object; NULL in a list: then */
    size_t *indices;
};

/* The rows of a list in one document, by name. */
struct row {
    const char *name;
    pl_node node;
    size_t index;
};

struct rows {
    struct row *list;
    size_t count;
};

struct walk {
    struct pl_document *const *documents;
    size_t n;
    bool later;  /* looking for what the first document does not have */
    struct level levels[PL_DOCUMENT_MOST_DEPTH + 1];
    size_t depth;
    struct pl_arena scratch;
    struct pl_differences *out;
};

/* ---- one difference ---- */

static const char *pointer_in(struct walk *w, size_t document)
{
    char pointer[POINTER_MOST] = "";
    for (size_t i = 1; i <= w->depth; i++)
        if (w->levels[i].key)
            pl_pointer_append(pointer, sizeof pointer, w->levels[i].key);
        else
            pl_pointer_append_index(pointer, sizeof pointer, w->levels[i].indices[document]);
    return pl_keep_safe(&w->out->arena, pointer);
}

static const char *value_in(struct walk *w, size_t document)
{
    const struct pl_document *doc = w->documents[document];
    pl_node node = w->levels[w->depth].nodes[document];
    char spelling[SPELLING_MOST];
    if (node == PL_NO_NODE)
        return "-";
    if (pl_node_kind(doc, node) == PL_NODE_TEXT)
        return pl_keep_safe(&w->out->arena, pl_node_text(doc, node));
    pl_node_spelling(doc, node, spelling, sizeof spelling);
    return pl_keep_text(&w->out->arena, spelling);
}

static const char *name_of(const struct pl_document *doc, pl_node row)
{
    pl_node name = pl_node_member(doc, row, "name");
    return name != PL_NO_NODE && pl_node_kind(doc, name) == PL_NODE_TEXT ? pl_node_text(doc, name) : NULL;
}

/* The names of the list in its own order. */
static const char *names_in(struct walk *w, size_t document)
{
    const struct pl_document *doc = w->documents[document];
    pl_node list = w->levels[w->depth].nodes[document];
    size_t length = 0;
    if (list == PL_NO_NODE)
        return "-";
    for (pl_node row = pl_node_first(doc, list); row != PL_NO_NODE; row = pl_node_next(doc, row))
        length += strlen(name_of(doc, row)) + 2;
    char *names = pl_arena_take(&w->scratch, length + 1, 1), *end = names;
    for (pl_node row = pl_node_first(doc, list); names && row != PL_NO_NODE; row = pl_node_next(doc, row)) {
        end = stpcpy(end, end == names ? "" : ", ");
        end = stpcpy(end, name_of(doc, row));
    }
    return names ? pl_keep_safe(&w->out->arena, names) : NULL;
}

/* The first document that has something here. */
static size_t first_with(const struct walk *w, const struct level *here)
{
    size_t d = 0;
    while (d + 1 < w->n && here->nodes[d] == PL_NO_NODE)
        d++;
    return d;
}

/* Told the first time round or the second. */
static bool is_due(const struct walk *w)
{
    return w->later == (w->levels[w->depth].nodes[0] == PL_NO_NODE);
}

static void add(struct walk *w, bool order)
{
    struct pl_differences *out = w->out;
    if (out->count == PL_DIFFERENCES_MOST) {
        out->left_out++;
        return;
    }
    const char **values = pl_arena_take_raw(&out->arena, w->n, sizeof *values);
    if (!values)
        return;
    for (size_t d = 0; d < w->n; d++)
        values[d] = order ? names_in(w, d) : value_in(w, d);
    size_t document = first_with(w, &w->levels[w->depth]);
    out->list[out->count++] = (struct pl_difference){pointer_in(w, document), document, order, values};
}

/* ---- values ---- */

static bool same(const struct pl_document *a, pl_node x, const struct pl_document *b, pl_node y)
{
    if (x == PL_NO_NODE || y == PL_NO_NODE || pl_node_kind(a, x) != pl_node_kind(b, y))
        return x == y && x == PL_NO_NODE;
    if (pl_node_kind(a, x) == PL_NODE_NUMBER)
        return pl_node_number(a, x) == pl_node_number(b, y);
    return pl_node_kind(a, x) != PL_NODE_TEXT || !strcmp(pl_node_text(a, x), pl_node_text(b, y));
}

static void visit_value(struct walk *w)
{
    const pl_node *nodes = w->levels[w->depth].nodes;
    bool all_same = true;
    for (size_t d = 1; d < w->n; d++)
        all_same = all_same && same(w->documents[0], nodes[0], w->documents[d], nodes[d]);
    if (!all_same)
        add(w, false);
}

/* ---- what values stand in ---- */

static void visit(struct walk *w);

static void visit_below(struct walk *w, const char *key)
{
    w->levels[++w->depth].key = key;
    visit(w);
    w->depth--;
}

static bool has_key(const struct walk *w, const struct level *here, size_t document, const char *key)
{
    return pl_node_member(w->documents[document], here->nodes[document], key) != PL_NO_NODE;
}

static void visit_members(struct walk *w)
{
    const struct level *here = &w->levels[w->depth];
    struct level *below = &w->levels[w->depth + 1];
    for (size_t d = 0; d < w->n; d++) {
        const struct pl_document *doc = w->documents[d];
        for (pl_node node = pl_node_first(doc, here->nodes[d]); node != PL_NO_NODE; node = pl_node_next(doc, node)) {
            const char *key = pl_node_key(doc, node);
            bool seen = false;
            for (size_t e = 0; e < d && !seen; e++)
                seen = has_key(w, here, e, key);
            for (size_t e = 0; e < w->n && !seen; e++)
                below->nodes[e] = e == d ? node : pl_node_member(w->documents[e], here->nodes[e], key);
            if (!seen)
                visit_below(w, key);
        }
    }
}

static void visit_by_index(struct walk *w)
{
    const struct level *here = &w->levels[w->depth];
    struct level *below = &w->levels[w->depth + 1];
    size_t longest = 0;
    for (size_t d = 0; d < w->n; d++) {
        size_t count = pl_node_count(w->documents[d], here->nodes[d]);
        longest = count > longest ? count : longest;
        below->nodes[d] = pl_node_first(w->documents[d], here->nodes[d]);
    }
    for (size_t i = 0; i < longest; i++) {
        for (size_t d = 0; d < w->n; d++)
            below->indices[d] = i;
        visit_below(w, NULL);
        for (size_t d = 0; d < w->n; d++)
            below->nodes[d] = pl_node_next(w->documents[d], below->nodes[d]);
    }
}

/* ---- lists of named rows ---- */

static int by_name(const void *a, const void *b)
{
    return strcmp(((const struct row *)a)->name, ((const struct row *)b)->name);
}

/* False when some row has no name of its own, or without memory. */
static bool sort_rows(struct walk *w, const struct pl_document *doc, pl_node list, struct rows *out)
{
    size_t count = pl_node_count(doc, list);
    *out = (struct rows){pl_arena_take_raw(&w->scratch, count, sizeof *out->list), 0};
    for (pl_node row = pl_node_first(doc, list); out->list && row != PL_NO_NODE; row = pl_node_next(doc, row)) {
        const char *name = name_of(doc, row);
        if (!name)
            return false;
        out->list[out->count] = (struct row){name, row, out->count};
        out->count++;
    }
    if (!out->list)
        return false;
    qsort(out->list, out->count, sizeof *out->list, by_name);
    for (size_t i = 1; i < out->count; i++)
        if (!by_name(&out->list[i - 1], &out->list[i]))
            return false;
    return true;
}

static const struct row *row_named(const struct rows *rows, const char *name)
{
    struct row wanted = {.name = name};
    return bsearch(&wanted, rows->list, rows->count, sizeof wanted, by_name);
}

/* Whether rows that the first list and another one both have follow each other otherwise there. */
static bool other_order(const struct walk *w, const struct level *here, const struct rows *rows)
{
    size_t first = first_with(w, here);
    const struct pl_document *doc = w->documents[first];
    for (size_t d = first + 1; d < w->n; d++) {
        size_t next = 0;
        for (pl_node row = pl_node_first(doc, here->nodes[first]); row != PL_NO_NODE; row = pl_node_next(doc, row)) {
            const struct row *there = row_named(&rows[d], name_of(doc, row));
            if (there && there->index < next)
                return true;
            next = there ? there->index + 1 : next;
        }
    }
    return false;
}

static void visit_row(struct walk *w, const struct rows *rows, size_t document, const char *name)
{
    struct level *below = &w->levels[w->depth + 1];
    for (size_t d = 0; d < w->n; d++) {
        const struct row *row = row_named(&rows[d], name);
        if (row && d < document)
            return;  /* came with that document */
        below->nodes[d] = row ? row->node : PL_NO_NODE;
        below->indices[d] = row ? row->index : 0;
    }
    visit_below(w, NULL);
}

static void visit_by_name(struct walk *w, const struct rows *rows)
{
    const struct level *here = &w->levels[w->depth];
    if (is_due(w) && other_order(w, here, rows))
        add(w, true);
    for (size_t d = 0; d < w->n; d++) {
        const struct pl_document *doc = w->documents[d];
        for (pl_node row = pl_node_first(doc, here->nodes[d]); row != PL_NO_NODE; row = pl_node_next(doc, row))
            visit_row(w, rows, d, name_of(doc, row));
    }
}

static void visit_list(struct walk *w)
{
    const struct level *here = &w->levels[w->depth];
    struct rows *rows = pl_arena_take_raw(&w->scratch, w->n, sizeof *rows);
    bool named = rows;
    for (size_t d = 0; d < w->n && named; d++)
        named = sort_rows(w, w->documents[d], here->nodes[d], &rows[d]);
    if (named)
        visit_by_name(w, rows);
    else
        visit_by_index(w);
}

/* ---- the walk ---- */

/* The kind that all who have something here have it of, when some hold more; PL_NODE_NULL otherwise. */
static enum pl_node_kind kind_holding_more(const struct walk *w, const struct level *here)
{
    enum pl_node_kind kind = pl_node_kind(w->documents[first_with(w, here)], here->nodes[first_with(w, here)]);
    bool holds = false;
    for (size_t d = 0; d < w->n; d++) {
        if (here->nodes[d] != PL_NO_NODE && pl_node_kind(w->documents[d], here->nodes[d]) != kind)
            return PL_NODE_NULL;
        holds = holds || pl_node_count(w->documents[d], here->nodes[d]);
    }
    return holds ? kind : PL_NODE_NULL;
}

static void visit(struct walk *w)
{
    const struct level *here = &w->levels[w->depth];
    enum pl_node_kind kind = kind_holding_more(w, here);
    if (kind == PL_NODE_OBJECT)
        visit_members(w);
    else if (kind == PL_NODE_LIST)
        visit_list(w);
    else if (is_due(w))
        visit_value(w);
}

static bool start(struct walk *w)
{
    size_t levels = sizeof w->levels / sizeof *w->levels;
    pl_node *nodes = pl_arena_take_raw(&w->scratch, levels * w->n, sizeof *nodes);
    size_t *indices = pl_arena_take_raw(&w->scratch, levels * w->n, sizeof *indices);
    w->out->list = pl_arena_take_raw(&w->out->arena, PL_DIFFERENCES_MOST, sizeof *w->out->list);
    if (!nodes || !indices || !w->out->list)
        return false;
    for (size_t i = 0; i < levels; i++)
        w->levels[i] = (struct level){.nodes = nodes + i * w->n, .indices = indices + i * w->n};
    for (size_t d = 0; d < w->n; d++)
        w->levels[0].nodes[d] = pl_document_root(w->documents[d]);
    return true;
}

enum pl_status pl_differences_find(struct pl_differences *out, struct pl_document *const documents[], size_t n)
{
    struct walk w = {.documents = documents, .n = n, .out = out};
    *out = (struct pl_differences){0};
    if (!n)
        return PL_OK;
    bool started = start(&w);
    for (int round = 0; round < 2 && started; round++) {
        w.later = round;
        visit(&w);
    }
    bool failed = w.scratch.failed || out->arena.failed;
    pl_arena_free(&w.scratch);
    if (!failed)
        return PL_OK;
    pl_differences_free(out);
    return PL_NO_MEMORY;
}

void pl_differences_free(struct pl_differences *differences)
{
    pl_arena_free(&differences->arena);
    *differences = (struct pl_differences){0};
}

/* ---- in words ---- */

void pl_difference_words(const struct pl_difference *d, struct pl_document *const documents[], char *out, size_t size)
{
    (d->order ? pl_part_order_words : pl_part_place_words)(documents[d->document], d->pointer, out, size);
}
