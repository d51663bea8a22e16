/* Rows of any list: where they stand, added, copied, moved and taken away. */
#include "part_rows_inside.h"

#include "plyloft/json_writer.h"
#include "plyloft/part_edit.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* ---- places ---- */

/* The row's index, PL_NONE when the last token of pointer is none. */
static size_t last_index(const char *pointer)
{
    const char *token = strrchr(pointer, '/') + 1;
    size_t n = strspn(token, "0123456789");
    bool right = n && n < 9 && !token[n] && (n == 1 || *token != '0');
    return right ? (size_t)strtoul(token, NULL, 10) : PL_NONE;
}

static bool ends_in(const char *pointer, const char *key)
{
    const char *slash = strrchr(pointer, '/');
    return slash && !strcmp(slash + 1, key);
}

static bool is_kind(const struct pl_document *doc, pl_node node, enum pl_node_kind kind)
{
    return node != PL_NO_NODE && pl_node_kind(doc, node) == kind;
}

bool pl_row_place(const struct pl_document *doc, const char *pointer, struct pl_row_place *p)
{
    *p = (struct pl_row_place){.index = PL_NONE};
    if (*pointer != '/' || strlen(pointer) >= sizeof p->list || pl_field_at(pointer, &p->group) ||
        !pl_groups[p->group].list)
        return false;
    bool is_list = ends_in(pointer, pl_groups[p->group].key);
    if (is_list)
        snprintf(p->list, sizeof p->list, "%s", pointer);
    else
        pl_row_parent(pointer, p->list, sizeof p->list);
    if (!ends_in(p->list, pl_groups[p->group].key))
        return false;
    pl_row_parent(p->list, p->parent, sizeof p->parent);
    pl_node parent = pl_document_find(doc, p->parent), list = pl_document_find(doc, p->list);
    p->made = list != PL_NO_NODE;
    if (!is_kind(doc, parent, PL_NODE_OBJECT) || (p->made && !is_kind(doc, list, PL_NODE_LIST)))
        return false;
    p->count = p->made ? pl_node_count(doc, list) : 0;
    p->index = is_list ? p->count : last_index(pointer);
    return is_list || p->index < p->count;
}

static bool is_row(const struct pl_document *doc, const char *pointer, struct pl_row_place *p)
{
    return pl_row_place(doc, pointer, p) && p->index < p->count;
}

static enum pl_status refuse_row(struct pl_problems *problems, const char *pointer)
{
    return pl_row_refuse(problems, pointer, "is no row of a list of the part", NULL);
}

static bool has_names(enum pl_group_id group)
{
    return !strcmp(pl_groups[group].fields[0].key, "name");
}

static bool has_places(enum pl_group_id group)
{
    return group == PL_GROUP_STATION || group == PL_GROUP_MOUNT || group == PL_GROUP_PAD;
}

static bool is_full(const struct pl_row_place *p)
{
    return p->count >= pl_groups[p->group].most;
}

static enum pl_status refuse_more(struct pl_problems *problems, const struct pl_row_place *p)
{
    char rule[96];
    snprintf(rule, sizeof rule, "has %zu %ss, the most there can be", p->count, pl_groups[p->group].noun);
    return pl_row_refuse(problems, p->list, rule, NULL);
}

/* "add ply group: cap 2", "add station 3" */
static void begin_named(struct pl_row_edit *e, struct pl_document *doc, struct pl_problems *problems, const char *verb,
                        const struct pl_row_place *p, const char *name, size_t index)
{
    const char *noun = pl_groups[p->group].noun;
    if (has_names(p->group) && *name)
        pl_row_begin(e, doc, problems, NULL, "%s %s: %s", verb, noun, name);
    else
        pl_row_begin(e, doc, problems, NULL, "%s %s %zu", verb, noun, index + 1);
}

static void insert_row(struct pl_row_edit *e, const struct pl_row_place *p, size_t index, const struct pl_buffer *row)
{
    struct pl_buffer list = {0};
    if (!p->made)
        pl_buffer_printf(&list, "[%s]", row->failed ? "" : row->text);
    if (e->status == PL_OK && (row->failed || list.failed))
        e->status = pl_row_no_memory(e->problems, p->list);
    else if (p->made)
        pl_row_insert(e, row->text, "%s/%zu", p->list, index);
    else
        pl_row_set(e, list.text, "%s", p->list);
    pl_buffer_free(&list);
}

/* ---- a row like another ---- */

/* The row's bytes once more at index `at`. */
static void insert_copy(struct pl_row_edit *e, const struct pl_row_place *p, size_t like, size_t at)
{
    struct pl_buffer json = {0};
    size_t length;
    const char *bytes = pl_document_bytes(e->doc, &length);
    struct pl_row_span span = pl_row_value_span(e->doc, pl_row_find(e->doc, "%s/%zu", p->list, like));
    pl_buffer_add(&json, bytes + span.start, span.end - span.start);
    insert_row(e, p, at, &json);
    pl_buffer_free(&json);
}

/* between: a station has the mean of its neighbours in everything, not in its place alone. */
static enum pl_status add_like(struct pl_document *doc, const struct pl_row_place *p, size_t like, const char *verb,
                               const char *name, bool between, size_t *index, struct pl_problems *problems)
{
    struct pl_row_edit e;
    size_t inner = p->group == PL_GROUP_STATION ? pl_row_inner_station(doc, p) : like, at = inner + 1;
    double y_mm = pl_row_free_place_mm(doc, p, like);
    begin_named(&e, doc, problems, verb, p, name, at);
    insert_copy(&e, p, between && p->group == PL_GROUP_STATION ? inner : like, at);
    if (has_names(p->group) && *name)
        pl_row_set_text(&e, name, "%s/%zu/name", p->list, at);
    if (p->group == PL_GROUP_STATION)
        pl_row_place_station(&e, p, inner, between);
    else if (has_places(p->group))
        pl_row_set_number(&e, y_mm, "%s/%zu/y_mm", p->list, at);
    if (index)
        *index = at;
    return pl_row_end(&e);
}

enum pl_status pl_row_copy(struct pl_document *doc, const char *row, size_t *index, struct pl_problems *problems)
{
    struct pl_row_place p;
    char name[PL_ROW_NAME_MOST] = "";
    if (!is_row(doc, row, &p))
        return refuse_row(problems, row);
    if (is_full(&p))
        return refuse_more(problems, &p);
    if (has_names(p.group) && pl_row_has(doc, "%s/name", row))
        pl_names_copy(doc, p.list, pl_row_text(doc, "%s/name", row), name, sizeof name);
    return add_like(doc, &p, p.index, "copy", name, false, index, problems);
}

/* ---- a new row ---- */

/* What every load case has, on the element of the case at the place, or on the first one. */
static void write_case(const struct pl_document *doc, const struct pl_row_place *p, const char *name, int kind,
                       struct pl_buffer *out)
{
    struct pl_json_writer w;
    const char *element = pl_row_text(doc, "%s/%zu/element", p->list, p->index);
    pl_json_start(&w, out, true);
    pl_json_object(&w, NULL);
    pl_json_text(&w, "name", name);
    pl_json_text(&w, "kind", pl_row_kind_word(kind));
    pl_json_text(&w, "element", *element ? element : pl_row_text(doc, "/elements/0/name"));
    pl_json_end(&w);
}

/* kind is that of a load case. */
static enum pl_status add_new(struct pl_document *doc, const struct pl_row_place *p, const char *name, int kind,
                              size_t *index, struct pl_problems *problems)
{
    struct pl_row_edit e;
    struct pl_buffer json = {0};
    char row[PL_POINTER_MOST];
    size_t at = p->index < p->count ? p->index + 1 : p->count;
    if (p->group == PL_GROUP_CASE)
        write_case(doc, p, name, kind, &json);
    else
        pl_row_typical(doc, p, name, &json);
    begin_named(&e, doc, problems, "add", p, name, at);
    insert_row(&e, p, at, &json);
    pl_buffer_free(&json);
    snprintf(row, sizeof row, "%s/%zu", p->list, at);
    if (p->group == PL_GROUP_CASE)
        pl_row_fit_kind(&e, row, kind);
    if (index)
        *index = at;
    return pl_row_end(&e);
}

enum pl_status pl_row_add(struct pl_document *doc, const char *pointer, size_t *index, struct pl_problems *problems)
{
    struct pl_row_place p;
    char name[PL_ROW_NAME_MOST] = "", kind[32];
    if (!pl_row_place(doc, pointer, &p))
        return refuse_row(problems, pointer);
    if (is_full(&p))
        return refuse_more(problems, &p);
    if (p.group == PL_GROUP_CASE) {
        snprintf(kind, sizeof kind, "%s", pl_row_text(doc, "%s/%zu/kind", p.list, p.index));
        return pl_row_add_case(doc, pointer, pl_row_kind_of(kind) < 0 ? "downforce" : kind, index, problems);
    }
    if (has_names(p.group))
        pl_names_unused(doc, p.list, pl_row_typical_name(p.group), name, sizeof name);
    if (has_places(p.group) && p.count)
        return add_like(doc, &p, p.index < p.count ? p.index : p.count - 1, "add", name, true, index, problems);
    return add_new(doc, &p, name, 0, index, problems);
}

enum pl_status pl_row_add_case(struct pl_document *doc, const char *pointer, const char *kind, size_t *index,
                               struct pl_problems *problems)
{
    struct pl_row_place p;
    char name[PL_ROW_NAME_MOST];
    if (!pl_row_place(doc, pointer, &p) || p.group != PL_GROUP_CASE)
        return pl_row_refuse(problems, pointer, "is neither a load case nor the list of them", NULL);
    int known = pl_row_kind_of(kind);
    if (known < 0)
        return pl_row_refuse(problems, pointer, "is no kind of load case", kind);
    if (is_full(&p))
        return refuse_more(problems, &p);
    pl_names_unused(doc, p.list, pl_row_kind_name(known), name, sizeof name);
    return add_new(doc, &p, name, known, index, problems);
}

/* ---- away and along ---- */

size_t pl_row_needed(const struct pl_document *doc, const char *row, char *sentence, size_t size)
{
    struct pl_row_place p;
    snprintf(sentence, size, "%s", "");
    if (!is_row(doc, row, &p) || p.count > pl_groups[p.group].least)
        return 0;
    const struct pl_group *g = &pl_groups[p.group];
    const char *whole = pl_groups[g->parent].noun;
    snprintf(sentence, size, "%s %s needs at least %zu %s%s", strchr("aeio", whole[0]) ? "an" : "a", whole, g->least,
             g->noun, g->least == 1 ? "" : "s");
    return g->least + 1 - p.count;
}

/* A load case's own tip limit goes with it: it would name nothing. */
static void unset_tip_limit(struct pl_row_edit *e, const struct pl_row_place *p, const char *row)
{
    char pointer[PL_POINTER_MOST] = "/limits/tip_deflection_mm";
    const char *name = pl_row_text(e->doc, "%s/name", row);
    if (p->group != PL_GROUP_CASE || !name)
        return;
    pl_pointer_append(pointer, sizeof pointer, name);
    if (pl_row_has(e->doc, "%s", pointer))
        pl_row_unset(e, "%s", pointer);
}

enum pl_status pl_row_remove(struct pl_document *doc, const char *row, struct pl_problems *problems)
{
    struct pl_row_place p;
    struct pl_row_edit e;
    char used[256], needed[96], name[96];
    if (!is_row(doc, row, &p))
        return refuse_row(problems, row);
    size_t users = pl_row_users(doc, row, used, sizeof used), missing = pl_row_needed(doc, row, needed, sizeof needed);
    pl_part_row_words(doc, row, name, sizeof name);
    begin_named(&e, doc, problems, "remove", &p, name, p.index);
    unset_tip_limit(&e, &p, row);
    pl_row_unset(&e, "%s", row);
    enum pl_status status = pl_row_end(&e);
    if (status == PL_OK && users)
        pl_problem_add(problems, PL_WARNING, row, used, name);
    if (status == PL_OK && missing)
        pl_problem_add(problems, PL_WARNING, p.list, needed, NULL);
    return status;
}

/* Gives the rows at two places each other's y, or none where there is none. */
static void exchange_y(struct pl_row_edit *e, const char *list, size_t a, size_t b)
{
    char first[PL_POINTER_MOST], second[PL_POINTER_MOST];
    snprintf(first, sizeof first, "%s/%zu/y_mm", list, a);
    snprintf(second, sizeof second, "%s/%zu/y_mm", list, b);
    char *y_first = pl_document_copy(e->doc, first), *y_second = pl_document_copy(e->doc, second);
    if (y_first && y_second) {
        pl_row_set(e, y_second, "%s", first);
        pl_row_set(e, y_first, "%s", second);
    } else if (pl_row_has(e->doc, "%s", first) && pl_row_has(e->doc, "%s", second)) {
        e->status = pl_row_no_memory(e->problems, list);
    }
    free(y_first);
    free(y_second);
}

enum pl_status pl_row_move(struct pl_document *doc, const char *row, int way, size_t *index,
                           struct pl_problems *problems)
{
    struct pl_row_place p;
    struct pl_row_edit e;
    char name[96];
    if (!is_row(doc, row, &p))
        return refuse_row(problems, row);
    size_t to = way < 0 ? p.index - (p.index > 0) : p.index + (way > 0 && p.index + 1 < p.count);
    if (index)
        *index = to;
    if (to == p.index)
        return PL_OK;
    pl_part_row_words(doc, row, name, sizeof name);
    pl_row_begin(&e, doc, problems, NULL, "move %s %s", name, way < 0 ? "up" : "down");
    if (p.group == PL_GROUP_STATION)
        exchange_y(&e, p.list, p.index, to);
    if (e.status == PL_OK)
        e.status = pl_edit_move(doc, row, to, problems);
    return pl_row_end(&e);
}
