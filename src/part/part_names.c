/* Names of rows: kept apart, found in what refers to them, and changed there too. */
#include "part_rows_inside.h"

#include "json.h"

#include "plyloft/part_edit.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* ---- alike or not ---- */

/* The next character as pl_text_safe shows it; 0 at the end. */
static uint32_t next_safe(const char **text)
{
    uint32_t code = 0;
    size_t length = **text ? pl_utf8_decode(*text, strnlen(*text, 4), &code) : 0;
    if (!**text)
        return 0;
    *text += length ? length : 1;
    if (code == '\t' || code == '\n' || code == '\r')
        return ' ';
    return !length || pl_code_unsafe(code) ? 0xfffd : code;
}

bool pl_names_same(const char *a, const char *b)
{
    uint32_t x, y;
    do {
        x = next_safe(&a);
        y = next_safe(&b);
    } while (x && x == y);
    return x == y;
}

static const char *name_of(const struct pl_document *doc, pl_node row)
{
    pl_node name = pl_node_kind(doc, row) == PL_NODE_OBJECT ? pl_node_member(doc, row, "name") : PL_NO_NODE;
    return name == PL_NO_NODE ? "" : pl_node_text(doc, name);
}

size_t pl_names_find(const struct pl_document *doc, const char *list, const char *name, size_t except)
{
    pl_node rows = pl_document_find(doc, list);
    size_t index = 0;
    if (rows == PL_NO_NODE || !*name)
        return PL_NONE;
    for (pl_node row = pl_node_first(doc, rows); row != PL_NO_NODE; row = pl_node_next(doc, row), index++)
        if (index != except && pl_names_same(name_of(doc, row), name))
            return index;
    return PL_NONE;
}

void pl_names_unused(const struct pl_document *doc, const char *list, const char *base, char *out, size_t size)
{
    char safe[PL_ROW_NAME_MOST - 24];
    size_t rows = pl_row_count(doc, "%s", list);
    pl_text_safe(safe, sizeof safe, base);
    snprintf(out, size, "%s", safe);
    for (size_t n = 2; n < rows + 3 && pl_names_find(doc, list, out, PL_NONE) != PL_NONE; n++)
        snprintf(out, size, "%s %zu", safe, n);
}

void pl_names_copy(const struct pl_document *doc, const char *list, const char *name, char *out, size_t size)
{
    char base[PL_ROW_NAME_MOST];
    pl_text_safe(base, sizeof base, name);
    size_t n = strlen(base);
    while (n && base[n - 1] >= '0' && base[n - 1] <= '9')
        n--;
    if (n > 1 && base[n] && base[n - 1] == ' ') {
        base[n - 1] = '\0';
        /* Without a row of that name the number is part of what it is called: "glass plain 163". */
        if (pl_names_find(doc, list, base, PL_NONE) == PL_NONE)
            base[n - 1] = ' ';
    }
    pl_names_unused(doc, list, base, out, size);
}

/* ---- what refers to rows ---- */

struct reference {
    const char *row; /* pointer of the row that refers */
    enum pl_group_id group;
    const struct pl_field *field;
    pl_node node; /* the name, or the member whose key it is */
};

typedef void visit_reference(const struct reference *reference, void *context);

struct walk {
    const struct pl_document *doc;
    enum pl_group_id to;
    visit_reference *visit;
    void *context;
    char row[PL_POINTER_MOST];
};

static void visit_field(struct walk *w, enum pl_group_id group, const struct pl_field *f, pl_node value)
{
    struct reference reference = {w->row, group, f, value};
    enum pl_node_kind kind = pl_node_kind(w->doc, value);
    if (f->refers_to != w->to)
        return;
    if (f->kind == PL_FIELD_REFERENCE)
        w->visit(&reference, w->context);
    if ((f->kind == PL_FIELD_REFERENCES && kind == PL_NODE_LIST) || (f->kind == PL_FIELD_MAP && kind == PL_NODE_OBJECT))
        for (pl_node n = pl_node_first(w->doc, value); n != PL_NO_NODE; n = pl_node_next(w->doc, n)) {
            reference.node = n;
            w->visit(&reference, w->context);
        }
}

static void visit_row(struct walk *w, enum pl_group_id id, pl_node row);

static void visit_group(struct walk *w, enum pl_group_id id, pl_node value)
{
    size_t length = strlen(w->row), index = 0;
    pl_pointer_append(w->row, sizeof w->row, pl_groups[id].key);
    size_t in_list = strlen(w->row);
    if (!pl_groups[id].list)
        visit_row(w, id, value);
    for (pl_node row = pl_node_first(w->doc, value); pl_groups[id].list && row != PL_NO_NODE;
         row = pl_node_next(w->doc, row)) {
        pl_pointer_append_index(w->row, sizeof w->row, index++);
        visit_row(w, id, row);
        w->row[in_list] = '\0';
    }
    w->row[length] = '\0';
}

/* Groups lie three deep at most. */
static void visit_row(struct walk *w, enum pl_group_id id, pl_node row)
{
    const struct pl_group *g = &pl_groups[id];
    if (pl_node_kind(w->doc, row) != PL_NODE_OBJECT)
        return;
    for (size_t i = 0; i < g->n_fields; i++) {
        pl_node value = pl_node_member(w->doc, row, g->fields[i].key);
        if (value != PL_NO_NODE)
            visit_field(w, id, &g->fields[i], value);
    }
    for (size_t i = 1; i < PL_GROUPS; i++) {
        pl_node value = pl_groups[i].parent == id ? pl_node_member(w->doc, row, pl_groups[i].key) : PL_NO_NODE;
        if (value != PL_NO_NODE)
            visit_group(w, (enum pl_group_id)i, value);
    }
}

static void visit_references(const struct pl_document *doc, enum pl_group_id to, visit_reference *visit, void *context)
{
    struct walk w = {.doc = doc, .to = to, .visit = visit, .context = context};
    visit_row(&w, PL_GROUP_PART, pl_document_root(doc));
}

static bool refers_to(const struct pl_document *doc, const struct reference *r, const char *name)
{
    return pl_names_same(r->field->kind == PL_FIELD_MAP ? pl_node_key(doc, r->node) : pl_node_text(doc, r->node), name);
}

/* References are to the first of rows with one name. */
static bool is_meant(const struct pl_document *doc, const struct pl_row_place *place, const char *name)
{
    return *name && pl_names_find(doc, place->list, name, PL_NONE) == place->index;
}

/* ---- users ---- */

enum { USERS_NAMED = 4 };

struct users {
    const struct pl_document *doc;
    const char *name;
    size_t count;
    char words[USERS_NAMED][96];
};

void pl_row_whose_words(const struct pl_document *doc, const char *row, char *out, size_t size)
{
    char words[48], list[PL_POINTER_MOST], parent[PL_POINTER_MOST], whose[40];
    enum pl_group_id group;
    pl_field_at(row, &group);
    pl_part_row_words(doc, row, words, sizeof words);
    pl_row_parent(row, list, sizeof list);
    if (pl_groups[group].list)
        pl_row_parent(list, parent, sizeof parent);
    else
        snprintf(parent, sizeof parent, "%s", list);
    bool alone = !*parent || (pl_row_count(doc, "/elements") < 2 && pl_row_has(doc, "%s/name", row));
    pl_part_row_words(doc, parent, whose, sizeof whose);
    snprintf(out, size, "%s%s%s", words, alone ? "" : " of ", alone ? "" : whose);
}

static void note_user(const struct reference *r, void *context)
{
    struct users *u = context;
    /* A tip limit is the load case's own and goes with it. */
    if (r->field->kind == PL_FIELD_MAP || !refers_to(u->doc, r, u->name))
        return;
    if (u->count < USERS_NAMED)
        pl_row_whose_words(u->doc, r->row, u->words[u->count], sizeof u->words[0]);
    u->count++;
}

size_t pl_row_users(const struct pl_document *doc, const char *row, char *sentence, size_t size)
{
    struct pl_row_place place;
    struct pl_buffer out = {0};
    struct users u = {.doc = doc, .name = pl_row_text(doc, "%s/name", row)};
    snprintf(sentence, size, "%s", "");
    if (!pl_row_place(doc, row, &place) || !is_meant(doc, &place, u.name))
        return 0;
    visit_references(doc, place.group, note_user, &u);
    size_t named = u.count > USERS_NAMED ? USERS_NAMED - 1 : u.count;
    for (size_t i = 0; i < named; i++)
        pl_buffer_printf(&out, "%s%s", !i ? "" : i + 1 < u.count ? ", " : " and ", u.words[i]);
    if (named < u.count)
        pl_buffer_printf(&out, " and %zu more", u.count - named);
    pl_buffer_text(&out, u.count == 1 ? " uses it" : " use it");
    if (u.count && !out.failed)
        pl_text_safe(sentence, size, out.text);
    pl_buffer_free(&out);
    return u.count;
}

/* ---- another name ---- */

struct spans {
    const struct pl_document *doc;
    const char *name;
    struct pl_row_span *list;
    size_t count, capacity;
    bool failed;
};

static void add_span(struct spans *s, struct pl_row_span span)
{
    if (s->count == s->capacity) {
        size_t capacity = s->capacity ? 2 * s->capacity : 16;
        struct pl_row_span *list = pl_part_memory(s->list, capacity * sizeof *list);
        s->failed |= !list;
        if (!list)
            return;
        s->list = list;
        s->capacity = capacity;
    }
    s->list[s->count++] = span;
}

static void note_span(const struct reference *r, void *context)
{
    struct spans *s = context;
    bool is_key = r->field->kind == PL_FIELD_MAP;
    if (refers_to(s->doc, r, s->name))
        add_span(s, is_key ? pl_row_key_span(s->doc, r->node) : pl_row_value_span(s->doc, r->node));
}

static void rename_all(struct pl_row_edit *e, const struct pl_row_place *place, const char *row, const char *name)
{
    pl_node node = pl_row_find(e->doc, "%s/name", row);
    if (node == PL_NO_NODE || e->status != PL_OK) {
        pl_row_set_text(e, name, "%s/name", row);
        return;
    }
    struct spans s = {.doc = e->doc, .name = pl_node_text(e->doc, node)};
    add_span(&s, pl_row_value_span(e->doc, node));
    if (is_meant(e->doc, place, s.name))
        visit_references(e->doc, place->group, note_span, &s);
    char *quoted = pl_json_quote(name);
    if (quoted && !s.failed)
        pl_row_rewrite(e, row, s.list, s.count, quoted);
    else
        e->status = pl_row_no_memory(e->problems, row);
    free(quoted);
    free(s.list);
}

enum pl_status pl_row_rename(struct pl_document *doc, const char *row, const char *name, struct pl_problems *problems)
{
    struct pl_row_place place;
    struct pl_row_edit e;
    char pointer[PL_POINTER_MOST], from[96], to[96], rule[64];
    snprintf(pointer, sizeof pointer, "%s/name", row);
    if (!pl_row_place(doc, row, &place) || place.index == place.count ||
        strcmp(pl_groups[place.group].fields[0].key, "name"))
        return pl_row_refuse(problems, row, "has no name to change", NULL);
    if (!*name)
        return pl_row_refuse(problems, pointer, "must not be empty", NULL);
    snprintf(rule, sizeof rule, "is the name of another %s", pl_groups[place.group].noun);
    if (pl_names_find(doc, place.list, name, place.index) != PL_NONE)
        return pl_row_refuse(problems, pointer, rule, name);
    if (!strcmp(pl_row_text(doc, "%s", pointer), name))
        return PL_OK;
    pl_part_row_words(doc, row, from, sizeof from);
    pl_text_safe(to, sizeof to, name);
    snprintf(rule, sizeof rule, "rename %s:", pl_groups[place.group].noun);
    pl_row_begin_change(&e, doc, problems, pointer, rule, from, to);
    rename_all(&e, &place, row, name);
    return pl_row_end(&e);
}
