/* Rows that go from the catalogue into a part, and from a part into the own file. */
#include "catalogue_inside.h"

#include "plyloft/buffer.h"
#include "plyloft/places.h"
#include "plyloft/text.h"

#include "file_calls.h"
#include "json.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static enum pl_status no_memory(struct pl_problems *problems)
{
    pl_problem_add(problems, PL_ERROR, "", "there is not enough memory", NULL);
    return PL_NO_MEMORY;
}

/* ---- alike or not ---- */

struct value {
    const struct pl_document *doc;
    pl_node node;
};

static bool same_value(struct value a, struct value b);

static bool same_items(struct value a, struct value b)
{
    a.node = pl_node_first(a.doc, a.node);
    b.node = pl_node_first(b.doc, b.node);
    for (; a.node != PL_NO_NODE && same_value(a, b); a.node = pl_node_next(a.doc, a.node))
        b.node = pl_node_next(b.doc, b.node);
    return a.node == PL_NO_NODE;
}

/* except may be NULL: a key whose value does not count. */
static bool same_members(struct value a, struct value b, const char *except)
{
    struct value x = {a.doc, pl_node_first(a.doc, a.node)}, y = {b.doc, PL_NO_NODE};
    for (; x.node != PL_NO_NODE; x.node = pl_node_next(x.doc, x.node)) {
        const char *key = pl_node_key(x.doc, x.node);
        y.node = pl_node_member(b.doc, b.node, key);
        if (y.node == PL_NO_NODE || (!(except && !strcmp(key, except)) && !same_value(x, y)))
            return false;
    }
    return true;
}

/* What they say, whatever the spelling, the spacing and the order of the keys. */
static bool same_value(struct value a, struct value b)
{
    enum pl_node_kind kind = pl_node_kind(a.doc, a.node);
    if (kind != pl_node_kind(b.doc, b.node) || pl_node_count(a.doc, a.node) != pl_node_count(b.doc, b.node))
        return false;
    switch (kind) {
    case PL_NODE_NUMBER:
        return pl_node_number(a.doc, a.node) == pl_node_number(b.doc, b.node);
    case PL_NODE_TEXT:
        return !strcmp(pl_node_text(a.doc, a.node), pl_node_text(b.doc, b.node));
    case PL_NODE_LIST:
        return same_items(a, b);
    case PL_NODE_OBJECT:
        return same_members(a, b, NULL);
    default:
        return true;
    }
}

static bool same_but_name(struct value a, struct value b)
{
    return pl_node_kind(b.doc, b.node) == PL_NODE_OBJECT &&
           pl_node_count(a.doc, a.node) == pl_node_count(b.doc, b.node) && same_members(a, b, "name");
}

/* The row of that name in a list; PL_NO_NODE.  Its place in *index, otherwise the list's length. */
static pl_node named_row(const struct pl_document *doc, pl_node list, const char *name, size_t *index)
{
    *index = 0;
    for (pl_node n = list == PL_NO_NODE ? list : pl_node_first(doc, list); n != PL_NO_NODE;
         n = pl_node_next(doc, n), ++*index) {
        pl_node text = pl_node_member(doc, n, "name");
        if (text != PL_NO_NODE && !strcmp(pl_node_text(doc, text), name))
            return n;
    }
    return PL_NO_NODE;
}

static pl_node list_of(const struct pl_document *doc, enum pl_catalogue_group group)
{
    return pl_node_member(doc, pl_document_root(doc), pl_catalogue_group_key(group));
}

/* At the end of a list, which is made when there is none. */
static enum pl_status append(struct pl_document *doc, enum pl_catalogue_group group, const char *row,
                             struct pl_problems *problems)
{
    char pointer[64];
    snprintf(pointer, sizeof pointer, "/%s", pl_catalogue_group_key(group));
    enum pl_status status = list_of(doc, group) == PL_NO_NODE ? pl_edit_set(doc, pointer, "[]", problems) : PL_OK;
    snprintf(pointer, sizeof pointer, "/%s/-", pl_catalogue_group_key(group));
    return status == PL_OK ? pl_edit_insert(doc, pointer, row, problems) : status;
}

/* ---- into a part ---- */

struct copying {
    struct pl_document *doc; /* the part */
    enum pl_catalogue_group group;
    struct pl_document *row; /* a document of its own */
    struct pl_problems *problems;
};

static bool write_name(struct pl_buffer *out, const char *name, size_t number)
{
    pl_buffer_clear(out);
    pl_buffer_text(out, name);
    if (number > 1)
        pl_buffer_printf(out, " %zu", number);
    return !out->failed;
}

/* The first name that is free, or taken by the same row: then *there.  Where it stands, or will, in *index. */
static enum pl_status settle_name(const struct copying *c, const char *name, struct pl_buffer *settled, size_t *index,
                                  bool *there)
{
    struct value row = {c->row, pl_document_root(c->row)}, taken = {c->doc, PL_NO_NODE};
    for (size_t number = 1;; number++) {
        if (!write_name(settled, name, number))
            return no_memory(c->problems);
        taken.node = named_row(c->doc, list_of(c->doc, c->group), settled->text, index);
        *there = taken.node != PL_NO_NODE && same_but_name(row, taken);
        if (*there || taken.node == PL_NO_NODE)
            return PL_OK;
    }
}

static enum pl_status insert_named(const struct copying *c, const char *name)
{
    char step[192], safe[128];
    char *quoted = pl_json_quote(name);
    enum pl_status status = quoted ? pl_edit_set(c->row, "/name", quoted, c->problems) : no_memory(c->problems);
    free(quoted);
    if (status != PL_OK)
        return status;
    pl_text_safe(safe, sizeof safe, name);
    snprintf(step, sizeof step, "%s: from the catalogue", safe);
    if (pl_edit_begin(c->doc, step, NULL) != PL_OK)
        return no_memory(c->problems);
    status = append(c->doc, c->group, pl_document_bytes(c->row, NULL), c->problems);
    if (status == PL_OK)
        return pl_edit_end(c->doc);
    pl_edit_abandon(c->doc);
    return status;
}

enum pl_status pl_catalogue_copy(const struct pl_catalogue *catalogue, struct pl_document *doc,
                                 enum pl_catalogue_group group, size_t index, size_t *row, struct pl_problems *problems)
{
    struct copying c = {.doc = doc, .group = group, .problems = problems};
    struct pl_buffer name = {0};
    size_t place = 0;
    bool there = false;
    if (group == PL_CATALOGUE_METALS) {
        pl_problem_add(problems, PL_ERROR, "", "a part has no list of metals", NULL);
        return PL_BAD_INPUT;
    }
    char *text = pl_catalogue_row(catalogue, group, index);
    enum pl_status status = text ? pl_document_read(&c.row, text, strlen(text), problems) : no_memory(problems);
    free(text);
    if (status == PL_OK)
        status = settle_name(&c, pl_catalogue_name(catalogue, group, index), &name, &place, &there);
    if (status == PL_OK && !there)
        status = insert_named(&c, name.text);
    if (status == PL_OK && row)
        *row = place;
    pl_buffer_free(&name);
    pl_document_free(c.row);
    return status;
}

/* ---- into the own file ---- */

static const char empty_file[] = "{\n  \"format\": \"plyloft-catalogue\",\n  \"version\": 1,\n  \"fabrics\": [],\n"
                                 "  \"resins\": [],\n  \"cores\": [],\n  \"metals\": []\n}\n";

static enum pl_status read_or_begin(const char *file, struct pl_document **doc, struct pl_problems *problems)
{
    char *bytes = NULL;
    size_t length = 0;
    *doc = NULL;
    if (access(file, F_OK))
        return pl_document_read(doc, empty_file, strlen(empty_file), problems);
    enum pl_status status = pl_file_read(file, &bytes, &length, problems);
    if (status == PL_OK)
        status = pl_document_read(doc, bytes, length, problems);
    free(bytes);
    return status == PL_OK && !pl_catalogue_check_head(*doc, problems) ? PL_BAD_INPUT : status;
}

static enum pl_status put_row(struct pl_document *own, enum pl_catalogue_group group, const char *row, const char *name,
                              struct pl_problems *problems)
{
    char pointer[64];
    size_t index;
    if (named_row(own, list_of(own, group), name, &index) == PL_NO_NODE)
        return append(own, group, row, problems);
    snprintf(pointer, sizeof pointer, "/%s/%zu", pl_catalogue_group_key(group), index);
    return pl_edit_set(own, pointer, row, problems);
}

static enum pl_status save_own(const char *file, enum pl_catalogue_group group, const char *row, const char *name,
                               struct pl_problems *problems)
{
    struct pl_problems own = {0};
    struct pl_document *doc;
    enum pl_status status = read_or_begin(file, &doc, &own);
    if (status == PL_OK)
        status = put_row(doc, group, row, name, &own);
    if (status == PL_OK && pl_document_changed(doc)) {
        size_t length;
        const char *bytes = pl_document_bytes(doc, &length);
        status = pl_place_make_folders(file, &own);
        if (status == PL_OK)
            status = pl_file_save(file, bytes, length, &own);
    }
    pl_document_free(doc);
    if (status != PL_OK)
        pl_file_tell(problems, PL_ERROR, file, "the row cannot be kept here", &own);
    pl_problems_free(&own);
    return status;
}

/* Which list a pointer to a row is about; PL_CATALOGUE_GROUPS when it is to no row that could be kept. */
static enum pl_catalogue_group group_at(const struct pl_document *doc, const char *pointer)
{
    for (enum pl_catalogue_group g = 0; g < PL_CATALOGUE_METALS; g++) {
        const char *key = pl_catalogue_group_key(g);
        size_t length = strlen(key);
        const char *rest = *pointer == '/' && !strncmp(pointer + 1, key, length) ? pointer + 1 + length : "";
        if (*rest == '/' && !strchr(rest + 1, '/') && pl_document_find(doc, pointer) != PL_NO_NODE)
            return g;
    }
    return PL_CATALOGUE_GROUPS;
}

static enum pl_status keep_row(const char *file, enum pl_catalogue_group group, const struct pl_document *doc,
                               const char *pointer, struct pl_problems *problems)
{
    pl_node row = pl_document_find(doc, pointer), name = pl_node_member(doc, row, "name");
    char *text = pl_document_copy(doc, pointer);
    enum pl_status status = text ? pl_catalogue_check_row(group, text, pointer, problems) : no_memory(problems);
    if (status == PL_OK)
        status = save_own(file, group, text, pl_node_text(doc, name), problems);
    free(text);
    return status;
}

enum pl_status pl_catalogue_keep(struct pl_catalogue *catalogue, const struct pl_document *doc, const char *pointer,
                                 struct pl_problems *problems)
{
    enum pl_catalogue_group group = group_at(doc, pointer);
    if (group == PL_CATALOGUE_GROUPS) {
        pl_problem_add(problems, PL_ERROR, pointer, "is no cloth, resin or core", NULL);
        return PL_BAD_INPUT;
    }
    const char *file = pl_catalogue_file(catalogue);
    if (!file) {
        free(pl_place_path(PL_PLACE_DATA, NULL, problems)); /* for the sentence why */
        return PL_CANNOT_WRITE;
    }
    enum pl_status status = keep_row(file, group, doc, pointer, problems);
    return status == PL_OK ? pl_catalogue_reload(catalogue, problems) : status;
}
