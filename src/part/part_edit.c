#include "plyloft/part_edit.h"

#include "plyloft/buffer.h"
#include "plyloft/part_rows.h"
#include "plyloft/quantity.h"
#include "plyloft/text.h"

#include "build.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static double number_at(const struct pl_document *doc, const char *pointer, double otherwise)
{
    pl_node node = pl_document_find(doc, pointer);
    return node != PL_NO_NODE && pl_node_kind(doc, node) == PL_NODE_NUMBER ? pl_node_number(doc, node) : otherwise;
}

static void parent_of(const char *pointer, char *out, size_t size)
{
    snprintf(out, size, "%s", pointer);
    char *slash = strrchr(out, '/');
    if (slash)
        *slash = '\0';
}

/* "/elements/N" at the start of pointer. */
static bool element_of(const char *pointer, size_t *element)
{
    int used = 0;
    return sscanf(pointer, "/elements/%zu%n", element, &used) == 1 && (pointer[used] == '/' || !pointer[used]);
}

static double half_span_mm(const struct pl_document *doc, size_t element)
{
    char pointer[PL_POINTER_MOST];
    snprintf(pointer, sizeof pointer, "/elements/%zu/stations", element);
    pl_node stations = pl_document_find(doc, pointer);
    size_t n = stations == PL_NO_NODE ? 0 : pl_node_count(doc, stations);
    snprintf(pointer, sizeof pointer, "/elements/%zu/stations/%zu/y_mm", element, n ? n - 1 : 0);
    return number_at(doc, pointer, 0);
}

static bool ends_in(const char *pointer, const char *key)
{
    const char *slash = strrchr(pointer, '/');
    return slash && !strcmp(slash + 1, key);
}

/* ---- words ---- */

static void left_out_words(const struct pl_field *f, char *out, size_t size)
{
    if (!strcmp(f->key, "half_length_mm"))
        snprintf(out, size, "tip");
    else if (f->kind == PL_FIELD_CHOICE)
        snprintf(out, size, "%s", f->choices[(int)f->left_out]);
    else if (f->kind == PL_FIELD_FLAG)
        snprintf(out, size, "false");
    else if (f->kind == PL_FIELD_NUMBER && pl_given(f->left_out))
        pl_number_digits(out, size, f->left_out, 6);
    else if (!strcmp(f->key, "on"))
        snprintf(out, size, "car");
    else
        snprintf(out, size, "-");
}

/* "61 points", "100 : 30", "flap load, flap lift": lists are shown as what they are. */
static void list_words(const struct pl_document *doc, const struct pl_field *f, pl_node list, char *out, size_t size)
{
    size_t n = 0;
    if (f->kind == PL_FIELD_POINTS) {
        snprintf(out, size, "%zu points", pl_node_count(doc, list));
        return;
    }
    snprintf(out, size, "%s", pl_node_count(doc, list) ? "" : "-");
    for (pl_node item = pl_node_first(doc, list); item != PL_NO_NODE && n + 1 < size; item = pl_node_next(doc, item)) {
        char one[128];
        if (pl_node_kind(doc, item) == PL_NODE_TEXT)
            pl_text_safe(one, sizeof one, pl_node_text(doc, item));
        else
            pl_node_spelling(doc, item, one, sizeof one);
        snprintf(out + n, size - n, "%s%s", n ? (f->kind == PL_FIELD_PAIR ? " : " : ", ") : "", one);
        n = strlen(out);
    }
}

void pl_part_value_words(const struct pl_document *doc, const char *pointer, char *out, size_t size)
{
    enum pl_group_id group;
    const struct pl_field *f = pl_field_at(pointer, &group);
    pl_node node = pl_document_find(doc, pointer);
    if (node != PL_NO_NODE && pl_node_kind(doc, node) == PL_NODE_TEXT)
        pl_text_safe(out, size, pl_node_text(doc, node));
    else if (node != PL_NO_NODE && f && pl_node_kind(doc, node) == PL_NODE_LIST)
        list_words(doc, f, node, out, size);
    else if (node != PL_NO_NODE)
        pl_node_spelling(doc, node, out, size);
    else if (f)
        left_out_words(f, out, size);
    else
        snprintf(out, size, "-");
}

void pl_part_row_words(const struct pl_document *doc, const char *pointer, char *out, size_t size)
{
    char name[PL_POINTER_MOST];
    enum pl_group_id group;
    pl_field_at(pointer, &group);
    snprintf(name, sizeof name, "%s/name", pointer);
    pl_node node = pl_document_find(doc, name);
    const char *last = strrchr(pointer, '/');
    if (node != PL_NO_NODE && pl_node_kind(doc, node) == PL_NODE_TEXT && pl_node_text(doc, node)[0])
        pl_text_safe(out, size, pl_node_text(doc, node));
    else if (last && last[1] >= '0' && last[1] <= '9')
        snprintf(out, size, "%s %lu", pl_groups[group].noun, strtoul(last + 1, NULL, 10) + 1);
    else
        snprintf(out, size, "%s", pl_groups[group].noun);
}

static const char arrow[] = " \u2192 ";

/* A step that joins the one before keeps its name up to the arrow: from the first value to the last. */
static bool joined_words(const struct pl_document *doc, const char *merge_key, const char *to, char *out, size_t size)
{
    const char *name = pl_edit_joins(doc, merge_key), *at = name ? strstr(name, arrow) : NULL;
    if (at)
        snprintf(out, size, "%.*s%s%s", (int)(at - name), name, arrow, to);
    return at;
}

void pl_part_step_words(const struct pl_document *doc, const char *pointer, const char *from, const char *to, char *out,
                        size_t size)
{
    char row[PL_POINTER_MOST], who[64], what[64];
    enum pl_group_id group;
    const struct pl_field *f = pl_field_at(pointer, &group);
    pl_text_safe(what, sizeof what, to);
    if (joined_words(doc, pointer, what, out, size))
        return;
    parent_of(pointer, row, sizeof row);
    pl_part_row_words(doc, row, who, sizeof who);
    snprintf(out, size, "%s: %s %s%s%s", who, f ? f->label : "value", from, arrow, what);
}

/* ---- one value ---- */

/* Objects that a value is to stand in and that are not there yet: limits, the limits of tips. */
static enum pl_status make_parents(struct pl_document *doc, const char *pointer, struct pl_problems *problems)
{
    char parent[PL_POINTER_MOST];
    parent_of(pointer, parent, sizeof parent);
    if (!*parent || pl_document_find(doc, parent) != PL_NO_NODE)
        return PL_OK;
    enum pl_status status = make_parents(doc, parent, problems);
    return status == PL_OK ? pl_edit_set(doc, parent, "{}", problems) : status;
}

/* Sets (or with json NULL takes out) one value as a named, merging step. */
static enum pl_status change(struct pl_document *doc, const char *pointer, const char *json, const char *shown,
                             struct pl_problems *problems)
{
    char name[256], from[64];
    pl_part_value_words(doc, pointer, from, sizeof from);
    pl_part_step_words(doc, pointer, from, shown, name, sizeof name);
    enum pl_status status = pl_edit_begin(doc, name, pointer);
    if (status != PL_OK)
        return status;
    if (json)
        status = make_parents(doc, pointer, problems);
    if (status == PL_OK && json)
        status = pl_edit_set(doc, pointer, json, problems);
    else if (!json && pl_document_find(doc, pointer) != PL_NO_NODE)
        status = pl_edit_remove(doc, pointer, problems);
    if (status != PL_OK) {
        pl_edit_abandon(doc);
        return status;
    }
    return pl_edit_end(doc);
}

static enum pl_status change_text(struct pl_document *doc, const char *pointer, const char *text, struct pl_problems *problems)
{
    char *json = pl_json_quote(text);
    if (!json)
        return PL_NO_MEMORY;
    enum pl_status status = change(doc, pointer, json, text, problems);
    free(json);
    return status;
}

static enum pl_status change_number(struct pl_document *doc, const char *pointer, double value, struct pl_problems *problems)
{
    char json[64];
    size_t element;
    if (pl_part_is_half_span(doc, pointer, &element))
        return pl_part_set_half_span(doc, element, value, problems);
    pl_number_digits(json, sizeof json, value, 10);
    return change(doc, pointer, json, json, problems);
}

static enum pl_status refuse(struct pl_problems *problems, const char *pointer, const char *rule, const char *typed)
{
    pl_problem_add(problems, PL_ERROR, pointer, rule, typed);
    return PL_BAD_INPUT;
}

/* "tip", "car", "-": the word that a cell shows for a value left out, typed. */
static bool means_left_out(const struct pl_field *f, const char *typed)
{
    char left_out[64];
    left_out_words(f, left_out, sizeof left_out);
    return f->optional && !strcmp(typed, left_out) && !strpbrk(left_out, "0123456789");
}

static enum pl_status refuse_number(struct pl_problems *problems, const char *pointer, const char *why, const char *typed)
{
    char rule[PL_QUANTITY_WHY + 32];
    snprintf(rule, sizeof rule, "must be a number: %s", why);
    return refuse(problems, pointer, rule, typed);
}

static size_t count_digits(const char *at)
{
    return strspn(at, "0123456789");
}

/* "1,000" of a count: a comma before just three figures is a decimal sign to one reader and sets thousands apart for
 * another.  Why it is refused then; false where there is no such comma. */
static bool is_two_sided(const char *typed, char *why, size_t size)
{
    for (const char *at = typed, *end; *at; at += count_digits(at) ? count_digits(at) : 1) {
        int n = (int)count_digits(at);
        char number[32], decimal[32];
        if (!n || n > 12 || at[n] != ',' || count_digits(at + n + 1) != 3)
            continue;
        snprintf(number, sizeof number, "%.*s.%.3s", n, at, at + n + 1);
        pl_number_digits(decimal, sizeof decimal, pl_number_read(number, &end), 16);
        snprintf(why, size, "could be %s or %.*s%.3s: type it without the comma", decimal, n, at, at + n + 1);
        return true;
    }
    return false;
}

static enum pl_status type_number(struct pl_document *doc, const char *pointer, const struct pl_field *f, const char *typed,
                                  struct pl_problems *problems)
{
    char why[PL_QUANTITY_WHY];
    double value;
    if (f->kind == PL_FIELD_WHOLE && is_two_sided(typed, why, sizeof why))
        return refuse(problems, pointer, why, typed);
    if (pl_quantity_read(typed, f->unit, &value, why, sizeof why) != PL_OK)
        return refuse_number(problems, pointer, why, typed);
    if (f->kind == PL_FIELD_WHOLE && value != floor(value))
        return refuse(problems, pointer, "must be a whole number", typed);
    return change_number(doc, pointer, value, problems);
}

static enum pl_status type_pair(struct pl_document *doc, const char *pointer, const struct pl_field *f, const char *typed,
                                struct pl_problems *problems)
{
    char why[PL_QUANTITY_WHY], numbers[2][40], json[96];
    double pair[2];
    if (pl_quantity_read_pair(typed, f->unit, pair, why, sizeof why) != PL_OK)
        return refuse_number(problems, pointer, why, typed);
    for (size_t i = 0; i < 2; i++)
        pl_number_digits(numbers[i], sizeof numbers[i], pair[i], 10);
    snprintf(json, sizeof json, "[%s, %s]", numbers[0], numbers[1]);
    return change(doc, pointer, json, json, problems);
}

/* Digits take the place of a profile's points. */
static enum pl_status type_digits(struct pl_document *doc, const char *row, const char *pointer, const char *typed,
                                  struct pl_problems *problems)
{
    char points[PL_POINTER_MOST], name[128];
    snprintf(points, sizeof points, "%.*s/points", PL_POINTER_MOST - 16, row);
    if (pl_document_find(doc, points) == PL_NO_NODE)
        return change_text(doc, pointer, typed, problems);
    snprintf(name, sizeof name, "profile by digits: %.40s", typed);
    enum pl_status status = pl_edit_begin(doc, name, NULL);
    if (status != PL_OK)
        return status;
    status = pl_edit_remove(doc, points, problems);
    if (status == PL_OK)
        status = change_text(doc, pointer, typed, problems);
    if (status == PL_OK)
        return pl_edit_end(doc);
    pl_edit_abandon(doc);
    return status;
}

/* The name of a row of a list is what others refer to it by. */
static enum pl_status type_text(struct pl_document *doc, const char *pointer, const char *typed, struct pl_problems *problems)
{
    char row[PL_POINTER_MOST];
    enum pl_group_id group;
    parent_of(pointer, row, sizeof row);
    pl_field_at(row, &group);
    if (ends_in(pointer, "name") && pl_groups[group].list)
        return pl_row_rename(doc, row, typed, problems);
    if (ends_in(pointer, "naca") && group == PL_GROUP_PROFILE)
        return type_digits(doc, row, pointer, typed, problems);
    return change_text(doc, pointer, typed, problems);
}

static enum pl_status type_choice(struct pl_document *doc, const char *pointer, const struct pl_field *f, const char *typed,
                                  struct pl_problems *problems)
{
    /* The start of a word is enough when only one begins so. */
    const char *found = NULL;
    for (size_t i = 0; i < f->n_choices; i++)
        if (!strncmp(f->choices[i], typed, strlen(typed))) {
            if (found)
                return refuse(problems, pointer, "fits several choices", typed);
            found = f->choices[i];
        }
    return found ? change_text(doc, pointer, found, problems) : refuse(problems, pointer, "is not one of the choices", typed);
}

/* Without the blanks around it; false when it does not fit. */
static bool trim(const char *typed, char *out, size_t size)
{
    while (*typed == ' ')
        typed++;
    size_t n = strlen(typed);
    while (n && typed[n - 1] == ' ')
        n--;
    snprintf(out, size, "%.*s", (int)n, typed);
    return n < size;
}

enum pl_status pl_part_type(struct pl_document *doc, const char *pointer, const char *text, struct pl_problems *problems)
{
    enum pl_group_id group;
    const struct pl_field *f = pl_field_at(pointer, &group);
    char typed[1000];
    if (!f || f->derived)
        return refuse(problems, pointer, "cannot be typed", text);
    if (!trim(text, typed, sizeof typed))
        return refuse(problems, pointer, "is too long to be typed", text);
    if (!*typed && !f->optional)
        return refuse(problems, pointer, "must not be empty", NULL);
    if (!*typed || means_left_out(f, typed))
        return change(doc, pointer, NULL, *typed ? typed : "left out", problems);
    switch (f->kind) {
    case PL_FIELD_NUMBER:
    case PL_FIELD_WHOLE: return type_number(doc, pointer, f, typed, problems);
    case PL_FIELD_PAIR: return type_pair(doc, pointer, f, typed, problems);
    case PL_FIELD_TEXT: return type_text(doc, pointer, typed, problems);
    case PL_FIELD_REFERENCE: return change_text(doc, pointer, typed, problems);
    case PL_FIELD_CHOICE: return type_choice(doc, pointer, f, typed, problems);
    case PL_FIELD_FLAG:
        if (strcmp(typed, "true") && strcmp(typed, "false"))
            return refuse(problems, pointer, "must be true or false", typed);
        return change(doc, pointer, typed, typed, problems);
    case PL_FIELD_MAP:
        if (ends_in(pointer, f->key))
            break;  /* the whole of it, not one entry */
        return type_number(doc, pointer, f, typed, problems);
    case PL_FIELD_REFERENCES:
    case PL_FIELD_POINTS:
        break;
    }
    return refuse(problems, pointer, "cannot be typed as one value", typed);
}

/* ---- steps ---- */

static enum pl_status step_number(struct pl_document *doc, const char *pointer, const struct pl_field *f, int way,
                                  struct pl_problems *problems)
{
    size_t element = 0;
    double base = pl_given(f->left_out) ? f->left_out : f->usual[0];
    if (ends_in(pointer, "half_length_mm") && element_of(pointer, &element))
        base = half_span_mm(doc, element);
    double from = number_at(doc, pointer, base), to = from + way * f->step;
    to = fmin(f->most, fmax(f->least, to));
    if (f->above && to <= f->least)
        return PL_OK;
    return to == from ? PL_OK : change_number(doc, pointer, to, problems);
}

static enum pl_status step_choice(struct pl_document *doc, const char *pointer, const struct pl_field *f, int way,
                                  struct pl_problems *problems)
{
    pl_node node = pl_document_find(doc, pointer);
    size_t now = (size_t)f->left_out, n = f->n_choices;
    for (size_t i = 0; node != PL_NO_NODE && i < n; i++)
        if (!strcmp(pl_node_text(doc, node), f->choices[i]))
            now = i;
    return change_text(doc, pointer, f->choices[(now + n + (size_t)(n + (size_t)way)) % n], problems);
}

/* Names of the list a reference points into, in file order; one that may be left out has "left out" before the first. */
static enum pl_status step_reference(struct pl_document *doc, const char *pointer, const struct pl_field *f, int way,
                                     struct pl_problems *problems)
{
    char list[64], to[256] = "";
    snprintf(list, sizeof list, "/%s", pl_groups[f->refers_to].key);
    pl_node rows = pl_document_find(doc, list), node = pl_document_find(doc, pointer);
    size_t none = f->optional, n = (rows == PL_NO_NODE ? 0 : pl_node_count(doc, rows)) + none, now = 0, i = none;
    if (n < 2)
        return PL_OK;
    for (pl_node row = pl_node_first(doc, rows); row != PL_NO_NODE && node != PL_NO_NODE; row = pl_node_next(doc, row), i++)
        if (!strcmp(pl_node_text(doc, pl_node_member(doc, row, "name")), pl_node_text(doc, node)))
            now = i;
    size_t next = (now + n + (size_t)(n + (size_t)way)) % n;
    if (next < none)
        return change(doc, pointer, NULL, "left out", problems);
    pl_node row = pl_node_first(doc, rows);
    for (i = none; i < next; i++)
        row = pl_node_next(doc, row);
    snprintf(to, sizeof to, "%s", pl_node_text(doc, pl_node_member(doc, row, "name")));
    return change_text(doc, pointer, to, problems);
}

enum pl_status pl_part_step(struct pl_document *doc, const char *pointer, int way, struct pl_problems *problems)
{
    enum pl_group_id group;
    const struct pl_field *f = pl_field_at(pointer, &group);
    pl_node node = pl_document_find(doc, pointer);
    if (!f || f->derived)
        return PL_OK;
    if (f->kind == PL_FIELD_NUMBER || f->kind == PL_FIELD_WHOLE || f->kind == PL_FIELD_MAP)
        return step_number(doc, pointer, f, way, problems);
    if (f->kind == PL_FIELD_CHOICE)
        return step_choice(doc, pointer, f, way, problems);
    if (f->kind == PL_FIELD_REFERENCE)
        return step_reference(doc, pointer, f, way, problems);
    if (f->kind == PL_FIELD_FLAG) {
        bool on = node != PL_NO_NODE && pl_node_kind(doc, node) == PL_NODE_TRUE;
        return change(doc, pointer, on ? "false" : "true", on ? "false" : "true", problems);
    }
    return PL_OK;
}

/* ---- the span ---- */

bool pl_part_is_half_span(const struct pl_document *doc, const char *pointer, size_t *element)
{
    char last[PL_POINTER_MOST];
    if (!element_of(pointer, element))
        return false;
    snprintf(last, sizeof last, "/elements/%zu/stations", *element);
    pl_node stations = pl_document_find(doc, last);
    size_t n = stations == PL_NO_NODE ? 0 : pl_node_count(doc, stations);
    snprintf(last, sizeof last, "/elements/%zu/stations/%zu/y_mm", *element, n ? n - 1 : 0);
    return n && !strcmp(last, pointer);
}

struct span_change {
    struct pl_document *doc;
    double from_mm, to_mm;
    struct pl_problems *problems;
};

static bool at_tip(const struct span_change *c, double value_mm)
{
    return c->from_mm > 0 && fabs(fabs(value_mm) - c->from_mm) < 1e-6;
}

/* Moves the number at pointer when it stands at the tip, on its own side. */
static enum pl_status move_if_at_tip(const struct span_change *c, const char *pointer)
{
    char json[64];
    double value_mm = number_at(c->doc, pointer, PL_NOT_GIVEN);
    if (!pl_given(value_mm) || !at_tip(c, value_mm))
        return PL_OK;
    pl_number_digits(json, sizeof json, value_mm < 0 ? -c->to_mm : c->to_mm, 10);
    return pl_edit_set(c->doc, pointer, json, c->problems);
}

/* The same for one key of every row of a list. */
static enum pl_status move_list(const struct span_change *c, const char *list, const char *key)
{
    pl_node rows = pl_document_find(c->doc, list);
    size_t n = rows == PL_NO_NODE ? 0 : pl_node_count(c->doc, rows);
    enum pl_status status = PL_OK;
    for (size_t i = 0; i < n && status == PL_OK; i++) {
        char pointer[PL_POINTER_MOST];
        snprintf(pointer, sizeof pointer, "%s/%zu/%s", list, i, key);
        status = move_if_at_tip(c, pointer);
    }
    return status;
}

static bool text_is(const struct pl_document *doc, const char *pointer, const char *text)
{
    pl_node node = pl_document_find(doc, pointer);
    return node != PL_NO_NODE && pl_node_kind(doc, node) == PL_NODE_TEXT && !strcmp(pl_node_text(doc, node), text);
}

static size_t count_at(const struct pl_document *doc, const char *pointer)
{
    pl_node node = pl_document_find(doc, pointer);
    return node == PL_NO_NODE ? 0 : pl_node_count(doc, node);
}

/* Mounts of other elements that stand on this one's tips. */
static enum pl_status move_mounts_on(const struct span_change *c, const char *name)
{
    enum pl_status status = PL_OK;
    char pointer[PL_POINTER_MOST];
    for (size_t e = 0; e < count_at(c->doc, "/elements") && status == PL_OK; e++) {
        snprintf(pointer, sizeof pointer, "/elements/%zu/mounts", e);
        size_t n = count_at(c->doc, pointer);
        for (size_t i = 0; i < n && status == PL_OK; i++) {
            snprintf(pointer, sizeof pointer, "/elements/%zu/mounts/%zu/on", e, i);
            bool here = text_is(c->doc, pointer, name);
            snprintf(pointer, sizeof pointer, "/elements/%zu/mounts/%zu/y_mm", e, i);
            status = here ? move_if_at_tip(c, pointer) : PL_OK;
        }
    }
    return status;
}

static enum pl_status move_cases(const struct span_change *c, const char *name)
{
    enum pl_status status = PL_OK;
    for (size_t i = 0; i < count_at(c->doc, "/load_cases") && status == PL_OK; i++) {
        char pointer[PL_POINTER_MOST];
        snprintf(pointer, sizeof pointer, "/load_cases/%zu/element", i);
        if (!text_is(c->doc, pointer, name))
            continue;
        snprintf(pointer, sizeof pointer, "/load_cases/%zu/y_mm", i);
        status = move_if_at_tip(c, pointer);
    }
    return status;
}

static enum pl_status move_last_station(const struct span_change *c, size_t element)
{
    char pointer[PL_POINTER_MOST], json[64];
    snprintf(pointer, sizeof pointer, "/elements/%zu/stations", element);
    size_t n = count_at(c->doc, pointer);
    snprintf(pointer, sizeof pointer, "/elements/%zu/stations/%zu/y_mm", element, n ? n - 1 : 0);
    pl_number_digits(json, sizeof json, c->to_mm, 10);
    return pl_edit_set(c->doc, pointer, json, c->problems);
}

static enum pl_status move_all(const struct span_change *c, size_t element)
{
    char list[PL_POINTER_MOST], name[256];
    snprintf(list, sizeof list, "/elements/%zu/name", element);
    pl_node node = pl_document_find(c->doc, list);
    snprintf(name, sizeof name, "%s", node == PL_NO_NODE ? "" : pl_node_text(c->doc, node));
    snprintf(list, sizeof list, "/elements/%zu/layup", element);
    enum pl_status status = move_list(c, list, "half_length_mm");
    snprintf(list, sizeof list, "/elements/%zu/mounts", element);
    if (status == PL_OK)
        status = move_list(c, list, "y_mm");
    if (status == PL_OK)
        status = move_mounts_on(c, name);
    if (status == PL_OK)
        status = move_cases(c, name);
    return status == PL_OK ? move_last_station(c, element) : status;
}

enum pl_status pl_part_set_half_span(struct pl_document *doc, size_t element, double half_mm, struct pl_problems *problems)
{
    char name[256], who[64], pointer[64], key[64], from[64], to[32];
    snprintf(key, sizeof key, "span of %zu", element);
    /* What a span passes on its way is not at the tip: start again from where the step in hand began. */
    if (pl_edit_joins(doc, key))
        pl_document_undo(doc);
    struct span_change c = {doc, half_span_mm(doc, element), half_mm, problems};
    snprintf(pointer, sizeof pointer, "/elements/%zu", element);
    pl_part_row_words(doc, pointer, who, sizeof who);
    pl_number_digits(from, sizeof from, c.from_mm, 6);
    pl_number_digits(to, sizeof to, half_mm, 6);
    snprintf(name, sizeof name, "%s: half span %s%s%s", who, from, arrow, to);
    enum pl_status status = pl_edit_begin(doc, name, key);
    if (status != PL_OK)
        return status;
    status = move_all(&c, element);
    if (status != PL_OK) {
        pl_edit_abandon(doc);
        return status;
    }
    return pl_edit_end(doc);
}
