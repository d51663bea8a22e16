#include "plyloft/field.h"

#include "build.h"

#include <stdio.h>
#include <string.h>

/* A walk over the document by the table.  The first pass makes rows and reads everything but references, the
 * second resolves references, since a name may stand anywhere in the file. */
struct walk {
    struct pl_part *part;
    const struct pl_document *doc;
    struct pl_problems *problems;
    bool references;
    bool unknown_kind;  /* a choice of the row in hand could not be read: what it decides on is not asked for */
    char pointer[PL_POINTER_MOST];
};

static void *member(void *row, size_t at)
{
    return (char *)row + at;
}

static void tell(struct walk *w, enum pl_severity severity, const char *rule)
{
    pl_part_tell(w->doc, w->problems, severity, w->pointer, rule);
}

/* Goes one token down; back takes the length it returns. */
static size_t down(struct walk *w, const char *key)
{
    size_t length = strlen(w->pointer);
    pl_pointer_append(w->pointer, sizeof w->pointer, key);
    return length;
}

static size_t down_index(struct walk *w, size_t index)
{
    size_t length = strlen(w->pointer);
    pl_pointer_append_index(w->pointer, sizeof w->pointer, index);
    return length;
}

static void back(struct walk *w, size_t length)
{
    w->pointer[length] = '\0';
}

/* ---- single values ---- */

static bool in_range(struct walk *w, const struct pl_field *f, double value)
{
    bool low = value < f->least || (f->above && value == f->least), high = value > f->most || (f->below && value == f->most);
    char words[96];
    if (low || high) {
        pl_field_range_words(f, words, sizeof words);
        tell(w, PL_ERROR, words);
        return false;
    }
    if ((f->usual[0] != 0 || f->usual[1] != 0) && (value < f->usual[0] || value > f->usual[1])) {
        char least[32], most[32];
        pl_number_digits(least, sizeof least, f->usual[0], 6);
        pl_number_digits(most, sizeof most, f->usual[1], 6);
        snprintf(words, sizeof words, "is unusual: %s to %s is typical", least, most);
        tell(w, PL_WARNING, words);
    }
    return true;
}

static void read_number(struct walk *w, const struct pl_field *f, pl_node node, void *row)
{
    double value = pl_node_number(w->doc, node);
    if (pl_node_kind(w->doc, node) != PL_NODE_NUMBER)
        tell(w, PL_ERROR, "must be a number");
    else if (in_range(w, f, value))
        *(double *)member(row, f->at) = value * pl_unit_to_si(f->unit);
}

static void read_whole(struct walk *w, const struct pl_field *f, pl_node node, void *row)
{
    double value = pl_node_number(w->doc, node);
    if (pl_node_kind(w->doc, node) != PL_NODE_NUMBER || value != floor(value))
        tell(w, PL_ERROR, "must be a whole number");
    else if (in_range(w, f, value))
        *(int *)member(row, f->at) = (int)value;
}

static const char *safe_text(struct walk *w, pl_node node)
{
    const char *text = pl_node_text(w->doc, node);
    size_t size = 3 * strlen(text) + 4;
    char *safe = pl_arena_take_raw(&w->part->arena, size, 1);
    if (safe)
        pl_text_safe(safe, size, text);
    return safe;
}

static void read_text(struct walk *w, const struct pl_field *f, pl_node node, void *row)
{
    if (pl_node_kind(w->doc, node) != PL_NODE_TEXT)
        tell(w, PL_ERROR, "must be a text");
    else if (!f->optional && !pl_node_text(w->doc, node)[0])
        tell(w, PL_ERROR, "must not be empty");
    else
        *(const char **)member(row, f->at) = safe_text(w, node);
}

static void read_flag(struct walk *w, const struct pl_field *f, pl_node node, void *row)
{
    enum pl_node_kind kind = pl_node_kind(w->doc, node);
    if (kind != PL_NODE_TRUE && kind != PL_NODE_FALSE)
        tell(w, PL_ERROR, "must be true or false");
    else
        *(bool *)member(row, f->at) = kind == PL_NODE_TRUE;
}

static void read_choice(struct walk *w, const struct pl_field *f, pl_node node, void *row)
{
    char words[160] = "must be one of";
    for (size_t i = 0; i < f->n_choices; i++) {
        if (pl_node_kind(w->doc, node) == PL_NODE_TEXT && !strcmp(pl_node_text(w->doc, node), f->choices[i])) {
            *(int *)member(row, f->at) = (int)i;
            return;
        }
        size_t n = strlen(words);
        snprintf(words + n, sizeof words - n, "%s %s", i ? "," : "", f->choices[i]);
    }
    w->unknown_kind = true;
    tell(w, PL_ERROR, words);
}

static void read_pair(struct walk *w, const struct pl_field *f, pl_node node, void *row)
{
    double *pair = member(row, f->at);
    if (pl_node_kind(w->doc, node) != PL_NODE_LIST || pl_node_count(w->doc, node) != 2) {
        tell(w, PL_ERROR, "must be a list of two numbers");
        return;
    }
    pl_node item = pl_node_first(w->doc, node);
    for (size_t i = 0; i < 2; i++, item = pl_node_next(w->doc, item)) {
        size_t length = down_index(w, i);
        double value = pl_node_number(w->doc, item);
        if (pl_node_kind(w->doc, item) != PL_NODE_NUMBER)
            tell(w, PL_ERROR, "must be a number");
        else if (in_range(w, f, value))
            pair[i] = value;
        back(w, length);
    }
}

static bool read_point(struct walk *w, pl_node node, struct pl_point *point)
{
    const struct pl_document *doc = w->doc;
    pl_node x = pl_node_kind(doc, node) == PL_NODE_LIST ? pl_node_first(doc, node) : PL_NO_NODE;
    pl_node z = x != PL_NO_NODE ? pl_node_next(doc, x) : PL_NO_NODE;
    if (z == PL_NO_NODE || pl_node_count(doc, node) != 2 || pl_node_kind(doc, x) != PL_NODE_NUMBER
        || pl_node_kind(doc, z) != PL_NODE_NUMBER) {
        tell(w, PL_ERROR, "must be a pair of numbers, x and z in chords");
        return false;
    }
    *point = (struct pl_point){pl_node_number(doc, x), pl_node_number(doc, z)};
    return true;
}

enum { POINTS_MOST = 10000 };

static void read_points(struct walk *w, const struct pl_field *f, pl_node node, void *row)
{
    size_t count = pl_node_count(w->doc, node), n = 0;
    if (pl_node_kind(w->doc, node) != PL_NODE_LIST || count > POINTS_MOST) {
        tell(w, PL_ERROR, "must be a list of at most 10000 points");
        return;
    }
    struct pl_point *points = pl_arena_take(&w->part->arena, count + 1, sizeof *points);
    for (pl_node p = pl_node_first(w->doc, node); points && p != PL_NO_NODE; p = pl_node_next(w->doc, p), n++) {
        size_t length = down_index(w, n);
        bool good = read_point(w, p, &points[n]);
        back(w, length);
        if (!good)
            return;
    }
    *(struct pl_point **)member(row, f->at) = points;
    *(size_t *)member(row, f->count_at) = n;
}

/* ---- references ---- */

static const char *row_name(const struct pl_group *g, const void *row)
{
    return *(const char *const *)((const char *)row + g->fields[0].at);  /* the first field of a named row is its name */
}

static size_t find_name(struct walk *w, const char *text, enum pl_group_id group)
{
    const struct pl_group *g = &pl_groups[group];
    const char *rows = *(const char *const *)((const char *)w->part + g->at);
    size_t count = *(const size_t *)((const char *)w->part + g->count_at);
    for (size_t i = 0; i < count; i++) {
        const char *name = row_name(g, rows + i * g->stride);
        if (name && !strcmp(name, text))
            return i;
    }
    return PL_NONE;
}

static size_t resolve(struct walk *w, const char *text, enum pl_group_id group)
{
    size_t index = find_name(w, text, group);
    char words[96];
    snprintf(words, sizeof words, "names no %s of this part", pl_groups[group].noun);
    if (index == PL_NONE)
        tell(w, PL_ERROR, words);
    return index;
}

static size_t read_name(struct walk *w, pl_node node, enum pl_group_id group)
{
    if (pl_node_kind(w->doc, node) != PL_NODE_TEXT) {
        tell(w, PL_ERROR, "must be a name");
        return PL_NONE;
    }
    const char *text = safe_text(w, node);
    return text ? resolve(w, text, group) : PL_NONE;
}

static void read_names(struct walk *w, const struct pl_field *f, pl_node node, void *row)
{
    size_t count = pl_node_count(w->doc, node), n = 0, i = 0;
    if (pl_node_kind(w->doc, node) != PL_NODE_LIST) {
        tell(w, PL_ERROR, "must be a list of names");
        return;
    }
    size_t *list = pl_arena_take(&w->part->arena, count, sizeof *list);
    for (pl_node p = pl_node_first(w->doc, node); list && p != PL_NO_NODE; p = pl_node_next(w->doc, p), i++) {
        size_t length = down_index(w, i), index = read_name(w, p, f->refers_to);
        if (index != PL_NONE)
            list[n++] = index;
        back(w, length);
    }
    *(size_t **)member(row, f->at) = list;
    *(size_t *)member(row, f->count_at) = list ? n : 0;
}

static void read_map(struct walk *w, const struct pl_field *f, pl_node node, void *row)
{
    size_t count = pl_node_count(w->doc, node), n = 0;
    if (pl_node_kind(w->doc, node) != PL_NODE_OBJECT) {
        tell(w, PL_ERROR, "must be an object with a number for each load case named");
        return;
    }
    struct pl_tip_limit *list = pl_arena_take(&w->part->arena, count, sizeof *list);
    for (pl_node p = pl_node_first(w->doc, node); list && p != PL_NO_NODE; p = pl_node_next(w->doc, p)) {
        size_t length = down(w, pl_node_key(w->doc, p)), size = 3 * strlen(pl_node_key(w->doc, p)) + 4;
        char *name = pl_arena_take_raw(&w->part->arena, size, 1);
        double value = pl_node_number(w->doc, p);
        if (name)
            pl_text_safe(name, size, pl_node_key(w->doc, p));
        size_t index = name ? resolve(w, name, f->refers_to) : PL_NONE;
        if (pl_node_kind(w->doc, p) != PL_NODE_NUMBER)
            tell(w, PL_ERROR, "must be a number");
        else if (in_range(w, f, value) && index != PL_NONE)
            list[n++] = (struct pl_tip_limit){index, value * pl_unit_to_si(f->unit)};
        back(w, length);
    }
    *(struct pl_tip_limit **)member(row, f->at) = list;
    *(size_t *)member(row, f->count_at) = list ? n : 0;
}

/* ---- fields, rows, groups ---- */

static bool is_reference(const struct pl_field *f)
{
    return f->kind == PL_FIELD_REFERENCE || f->kind == PL_FIELD_REFERENCES || f->kind == PL_FIELD_MAP;
}

static void read_value(struct walk *w, const struct pl_field *f, pl_node node, void *row)
{
    switch (f->kind) {
    case PL_FIELD_NUMBER: read_number(w, f, node, row); break;
    case PL_FIELD_WHOLE: read_whole(w, f, node, row); break;
    case PL_FIELD_TEXT: read_text(w, f, node, row); break;
    case PL_FIELD_FLAG: read_flag(w, f, node, row); break;
    case PL_FIELD_CHOICE: read_choice(w, f, node, row); break;
    case PL_FIELD_PAIR: read_pair(w, f, node, row); break;
    case PL_FIELD_POINTS: read_points(w, f, node, row); break;
    case PL_FIELD_REFERENCE: *(size_t *)member(row, f->at) = read_name(w, node, f->refers_to); break;
    case PL_FIELD_REFERENCES: read_names(w, f, node, row); break;
    case PL_FIELD_MAP: read_map(w, f, node, row); break;
    }
}

static void leave_out(const struct pl_field *f, void *row)
{
    if (f->kind == PL_FIELD_NUMBER)
        *(double *)member(row, f->at) = f->left_out * pl_unit_to_si(f->unit);
    else if (f->kind == PL_FIELD_WHOLE || f->kind == PL_FIELD_CHOICE)
        *(int *)member(row, f->at) = (int)f->left_out;
    else if (f->kind == PL_FIELD_REFERENCE)
        *(size_t *)member(row, f->at) = PL_NONE;
}

static void read_field(struct walk *w, const struct pl_field *f, pl_node object, void *row)
{
    pl_node node = pl_node_member(w->doc, object, f->key);
    bool belongs = !f->when || f->when(row);
    size_t length = down(w, f->key);
    if (!w->references)
        leave_out(f, row);
    if (w->references == is_reference(f)) {
        if (node != PL_NO_NODE && belongs)
            read_value(w, f, node, row);
        else if (node == PL_NO_NODE && belongs && !f->optional && !(f->when && w->unknown_kind)) {
            w->unknown_kind = w->unknown_kind || f->kind == PL_FIELD_CHOICE;
            tell(w, PL_ERROR, "is missing");
        }
        else if (node != PL_NO_NODE && !belongs && !w->references)
            tell(w, PL_WARNING, "is not used here");
    }
    back(w, length);
}

static bool known_key(const struct pl_group *g, enum pl_group_id id, const char *key)
{
    for (size_t i = 0; i < g->n_fields; i++)
        if (!strcmp(g->fields[i].key, key))
            return true;
    for (size_t i = 1; i < PL_GROUPS; i++)
        if (pl_groups[i].parent == id && !strcmp(pl_groups[i].key, key))
            return true;
    return false;
}

static void tell_unknown_keys(struct walk *w, enum pl_group_id id, pl_node object)
{
    for (pl_node n = pl_node_first(w->doc, object); n != PL_NO_NODE; n = pl_node_next(w->doc, n)) {
        const char *key = pl_node_key(w->doc, n);
        if (known_key(&pl_groups[id], id, key))
            continue;
        size_t length = down(w, key);
        pl_problem_add(w->problems, PL_WARNING, w->pointer, "is not a key that this version knows; it is kept on saving", NULL);
        back(w, length);
    }
}

static void read_group(struct walk *w, enum pl_group_id id, pl_node object, void *parent_row);

static void tell_unused_group(struct walk *w, const struct pl_group *g, pl_node object)
{
    size_t length = down(w, g->key);
    if (!w->references && pl_node_member(w->doc, object, g->key) != PL_NO_NODE)
        pl_problem_add(w->problems, PL_WARNING, w->pointer, "is not used here", NULL);
    back(w, length);
}

static void read_row(struct walk *w, enum pl_group_id id, pl_node object, void *row)
{
    const struct pl_group *g = &pl_groups[id];
    if (pl_node_kind(w->doc, object) != PL_NODE_OBJECT) {
        if (!w->references)
            tell(w, PL_ERROR, "must be an object");
        return;
    }
    if (!w->references)
        tell_unknown_keys(w, id, object);
    w->unknown_kind = false;
    for (size_t i = 0; i < g->n_fields; i++)
        read_field(w, &g->fields[i], object, row);
    bool unknown_kind = w->unknown_kind;
    for (size_t i = 1; i < PL_GROUPS; i++) {
        if (pl_groups[i].parent != id || (pl_groups[i].when && unknown_kind))
            continue;
        if (!pl_groups[i].when || pl_groups[i].when(row))
            read_group(w, (enum pl_group_id)i, object, row);
        else
            tell_unused_group(w, &pl_groups[i], object);
    }
}

static bool make_rows(struct walk *w, const struct pl_group *g, pl_node node, void *parent_row)
{
    size_t count = pl_node_count(w->doc, node);
    char words[96];
    if (pl_node_kind(w->doc, node) != PL_NODE_LIST) {
        tell(w, PL_ERROR, "must be a list");
        return false;
    }
    if (count < g->least || count > g->most) {
        snprintf(words, sizeof words, "must have %zu to %zu items (it has %zu)", g->least, g->most, count);
        pl_problem_add(w->problems, PL_ERROR, w->pointer, words, NULL);
        return false;
    }
    void *rows = pl_arena_take(&w->part->arena, count, g->stride);
    *(void **)member(parent_row, g->at) = rows;
    *(size_t *)member(parent_row, g->count_at) = rows ? count : 0;
    return rows;
}

static void read_list(struct walk *w, enum pl_group_id id, pl_node node, void *parent_row)
{
    const struct pl_group *g = &pl_groups[id];
    if (!w->references && !make_rows(w, g, node, parent_row))
        return;
    char *rows = *(char **)member(parent_row, g->at);
    size_t count = *(size_t *)member(parent_row, g->count_at);
    pl_node item = pl_node_first(w->doc, node);
    for (size_t i = 0; i < count; i++, item = pl_node_next(w->doc, item)) {
        size_t length = down_index(w, i);
        read_row(w, id, item, rows + i * g->stride);
        back(w, length);
    }
}

static void leave_out_group(const struct pl_group *g, void *parent_row)
{
    for (size_t i = 0; !g->list && i < g->n_fields; i++)
        leave_out(&g->fields[i], member(parent_row, g->at));
}

static void read_group(struct walk *w, enum pl_group_id id, pl_node object, void *parent_row)
{
    const struct pl_group *g = &pl_groups[id];
    pl_node node = pl_node_member(w->doc, object, g->key);
    size_t length = down(w, g->key);
    if (node == PL_NO_NODE) {
        if (!w->references && !g->optional)
            tell(w, PL_ERROR, "is missing");
        if (!w->references)
            leave_out_group(g, parent_row);
    } else if (g->list) {
        read_list(w, id, node, parent_row);
    } else {
        if (g->given_at != PL_NONE)
            *(bool *)member(parent_row, g->given_at) = true;
        read_row(w, id, node, member(parent_row, g->at));
    }
    back(w, length);
}

enum pl_status pl_part_build(struct pl_part *part, const struct pl_document *doc, struct pl_problems *problems)
{
    struct pl_arena arena = part->arena;
    pl_arena_reset(&arena);
    *part = (struct pl_part){.arena = arena};
    size_t before = problems->errors;
    struct walk w = {.part = part, .doc = doc, .problems = problems};
    read_row(&w, PL_GROUP_PART, pl_document_root(doc), part);
    w.references = true;
    read_row(&w, PL_GROUP_PART, pl_document_root(doc), part);
    if (part->arena.failed)
        return PL_NO_MEMORY;
    pl_part_rules(part, doc, problems, problems->errors > before);
    return problems->errors > before ? PL_BAD_INPUT : PL_OK;
}

void pl_part_free(struct pl_part *part)
{
    pl_arena_free(&part->arena);
    *part = (struct pl_part){0};
}
