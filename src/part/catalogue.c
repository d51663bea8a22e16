#include "catalogue_inside.h"

#include "plyloft/places.h"

#include "build.h"
#include "file_calls.h"
#include "json.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

struct row {
    bool own;
    pl_node node;
};

struct pl_catalogue {
    struct pl_document *own, *typical; /* own may be NULL */
    char *file;
    struct row *rows[PL_CATALOGUE_GROUPS];
    size_t count[PL_CATALOGUE_GROUPS];
};

static enum pl_status no_memory(struct pl_problems *problems)
{
    pl_problem_add(problems, PL_ERROR, "", "there is not enough memory", NULL);
    return PL_NO_MEMORY;
}

const char *pl_catalogue_group_key(enum pl_catalogue_group group)
{
    static const char *const keys[] = {"fabrics", "resins", "cores", "metals"};
    return keys[group];
}

/* ---- loading ---- */

static pl_node list_of(const struct pl_document *doc, enum pl_catalogue_group group)
{
    return pl_node_member(doc, pl_document_root(doc), pl_catalogue_group_key(group));
}

static pl_node first_of(const struct pl_document *doc, enum pl_catalogue_group group)
{
    pl_node list = list_of(doc, group);
    return list == PL_NO_NODE ? PL_NO_NODE : pl_node_first(doc, list);
}

static const char *name_of(const struct pl_document *doc, pl_node row)
{
    pl_node name = pl_node_member(doc, row, "name");
    return name == PL_NO_NODE ? "" : pl_node_text(doc, name);
}

static const struct pl_document *document_of(const struct pl_catalogue *c, const struct row *row)
{
    return row->own ? c->own : c->typical;
}

static bool has_name(const struct pl_catalogue *c, enum pl_catalogue_group group, const char *name)
{
    for (size_t i = 0; i < c->count[group]; i++)
        if (!strcmp(pl_catalogue_name(c, group, i), name))
            return true;
    return false;
}

static bool add_row(struct pl_catalogue *c, enum pl_catalogue_group group, bool own, pl_node node)
{
    struct row *rows = pl_part_memory(c->rows[group], (c->count[group] + 1) * sizeof *rows);
    if (!rows)
        return false;
    c->rows[group] = rows;
    rows[c->count[group]++] = (struct row){own, node};
    return true;
}

static enum pl_status take_own_row(struct pl_catalogue *c, enum pl_catalogue_group group, pl_node node,
                                   const char *place, struct pl_problems *problems)
{
    char pointer[96];
    char *text = pl_document_copy(c->own, place);
    enum pl_status status = text ? pl_catalogue_check_row(group, text, place, problems) : no_memory(problems);
    free(text);
    if (status != PL_OK)
        return status;
    if (!has_name(c, group, name_of(c->own, node)))
        return add_row(c, group, true, node) ? PL_OK : no_memory(problems);
    snprintf(pointer, sizeof pointer, "%s/name", place);
    pl_part_tell(c->own, problems, PL_ERROR, pointer, "names must be unique in their list");
    return PL_BAD_INPUT;
}

/* All that are right; the worst status of any. */
static enum pl_status take_own_rows(struct pl_catalogue *c, struct pl_problems *problems)
{
    char place[64];
    enum pl_status worst = PL_OK;
    for (enum pl_catalogue_group g = 0; g < PL_CATALOGUE_GROUPS; g++) {
        size_t i = 0;
        for (pl_node n = first_of(c->own, g); n != PL_NO_NODE; n = pl_node_next(c->own, n)) {
            snprintf(place, sizeof place, "/%s/%zu", pl_catalogue_group_key(g), i++);
            enum pl_status status = take_own_row(c, g, n, place, problems);
            if (status == PL_NO_MEMORY)
                return status;
            worst = status == PL_OK ? worst : status;
        }
    }
    return worst;
}

static bool take_typical_rows(struct pl_catalogue *c)
{
    for (enum pl_catalogue_group g = 0; g < PL_CATALOGUE_GROUPS; g++)
        for (pl_node n = first_of(c->typical, g); n != PL_NO_NODE; n = pl_node_next(c->typical, n))
            if (!has_name(c, g, name_of(c->typical, n)) && !add_row(c, g, false, n))
                return false;
    return true;
}

/* NULL without a file, too. */
static enum pl_status read_own(const char *file, struct pl_document **doc, struct pl_problems *problems)
{
    char *bytes = NULL;
    size_t length;
    *doc = NULL;
    if (!file || access(file, F_OK))
        return PL_OK;
    enum pl_status status = pl_file_read(file, &bytes, &length, problems);
    if (status == PL_OK)
        status = pl_document_read(doc, bytes, length, problems);
    free(bytes);
    if (status == PL_OK && !pl_catalogue_check_head(*doc, problems)) {
        pl_document_free(*doc);
        *doc = NULL;
        status = PL_BAD_INPUT;
    }
    return status;
}

static enum pl_status fill(struct pl_catalogue *c, struct pl_problems *problems)
{
    enum pl_status status = pl_document_read(&c->typical, pl_catalogue_typical, strlen(pl_catalogue_typical), problems);
    if (status != PL_OK)
        return status;
    c->file = pl_place_path(PL_PLACE_DATA, "catalogue.json", problems);
    status = c->file ? read_own(c->file, &c->own, problems) : PL_CANNOT_READ;
    if (c->own)
        status = take_own_rows(c, problems);
    if (status != PL_NO_MEMORY && !take_typical_rows(c))
        status = no_memory(problems);
    return status;
}

enum pl_status pl_catalogue_load(struct pl_catalogue **out, struct pl_problems *problems)
{
    *out = pl_part_memory(NULL, sizeof **out);
    if (!*out)
        return no_memory(problems);
    **out = (struct pl_catalogue){0};
    enum pl_status status = fill(*out, problems);
    if (status == PL_NO_MEMORY) {
        pl_catalogue_free(*out);
        *out = NULL;
    }
    return status;
}

static void empty(struct pl_catalogue *c)
{
    for (int g = 0; g < PL_CATALOGUE_GROUPS; g++)
        free(c->rows[g]);
    pl_document_free(c->own);
    pl_document_free(c->typical);
    free(c->file);
}

void pl_catalogue_free(struct pl_catalogue *catalogue)
{
    if (catalogue)
        empty(catalogue);
    free(catalogue);
}

enum pl_status pl_catalogue_reload(struct pl_catalogue *catalogue, struct pl_problems *problems)
{
    struct pl_problems told = {0};
    struct pl_catalogue *fresh;
    pl_catalogue_load(&fresh, &told);
    pl_problems_free(&told);
    if (!fresh || !fresh->file) { /* there was a place for it before */
        pl_catalogue_free(fresh);
        return no_memory(problems);
    }
    empty(catalogue);
    *catalogue = *fresh;
    free(fresh);
    return PL_OK;
}

/* ---- rows ---- */

const char *pl_catalogue_file(const struct pl_catalogue *catalogue)
{
    return catalogue->file;
}

size_t pl_catalogue_count(const struct pl_catalogue *catalogue, enum pl_catalogue_group group)
{
    return catalogue->count[group];
}

bool pl_catalogue_is_own(const struct pl_catalogue *catalogue, enum pl_catalogue_group group, size_t index)
{
    return catalogue->rows[group][index].own;
}

const char *pl_catalogue_text(const struct pl_catalogue *catalogue, enum pl_catalogue_group group, size_t index,
                              const char *key)
{
    const struct row *row = &catalogue->rows[group][index];
    const struct pl_document *doc = document_of(catalogue, row);
    pl_node value = pl_node_member(doc, row->node, key);
    return value == PL_NO_NODE ? "" : pl_node_text(doc, value);
}

double pl_catalogue_number(const struct pl_catalogue *catalogue, enum pl_catalogue_group group, size_t index,
                           const char *key)
{
    const struct row *row = &catalogue->rows[group][index];
    const struct pl_document *doc = document_of(catalogue, row);
    pl_node value = pl_node_member(doc, row->node, key);
    return value != PL_NO_NODE && pl_node_kind(doc, value) == PL_NODE_NUMBER ? pl_node_number(doc, value)
                                                                             : PL_NOT_GIVEN;
}

const char *pl_catalogue_name(const struct pl_catalogue *catalogue, enum pl_catalogue_group group, size_t index)
{
    return pl_catalogue_text(catalogue, group, index, "name");
}

const char *pl_catalogue_kind(const struct pl_catalogue *catalogue, enum pl_catalogue_group group, size_t index)
{
    if (group == PL_CATALOGUE_METALS)
        return "metal";
    const char *kind = pl_catalogue_text(catalogue, group, index, group == PL_CATALOGUE_FABRICS ? "fibre" : "kind");
    return *kind ? kind : "other"; /* the fibre that was left out */
}

char *pl_catalogue_row(const struct pl_catalogue *catalogue, enum pl_catalogue_group group, size_t index)
{
    char pointer[64];
    const struct row *row = &catalogue->rows[group][index];
    const struct pl_document *doc = document_of(catalogue, row);
    size_t i = 0;
    for (pl_node n = first_of(doc, group); n != row->node; n = pl_node_next(doc, n))
        i++;
    snprintf(pointer, sizeof pointer, "/%s/%zu", pl_catalogue_group_key(group), i);
    return pl_document_copy(doc, pointer);
}
