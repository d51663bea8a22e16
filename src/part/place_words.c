#include "plyloft/place_words.h"

#include "plyloft/buffer.h"
#include "plyloft/field.h"
#include "plyloft/part_rows.h"
#include "plyloft/text.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The next token of a pointer, as it was before it was escaped; the rest, NULL at the end. */
static const char *next_token(const char *pointer, char *token, size_t size)
{
    size_t n = 0;
    if (*pointer != '/')
        return NULL;
    for (pointer++; *pointer && *pointer != '/'; pointer++) {
        bool escaped = *pointer == '~' && (pointer[1] == '0' || pointer[1] == '1');
        char c = escaped && *++pointer == '1' ? '/' : escaped ? '~' : *pointer;
        if (n + 1 < size)
            token[n++] = c;
    }
    token[n] = '\0';
    return pointer;
}

static bool is_number(const char *token)
{
    return *token && strspn(token, "0123456789") == strlen(token);
}

/* A label inside a sentence: names and symbols keep their capital ("Tg dry", "E along", "NACA digits"). */
static void add_label(struct pl_buffer *out, const char *label)
{
    bool keeps = label[1] < 'a' || label[1] > 'z' || !strncmp(label, "Tg ", 3) || !strncmp(label, "Poisson", 7);
    char first = keeps ? label[0] : (char)(label[0] | 0x20);
    pl_buffer_add(out, &first, 1);
    pl_buffer_text(out, label + 1);
}

/* Places inside a value: "points 4, x", "mix by weight 1", "tip deflection, pit jack". */
static void add_inside(struct pl_buffer *out, const struct pl_field *field, const char *rest)
{
    char token[128];
    for (size_t i = 0; (rest = next_token(rest, token, sizeof token)); i++)
        if (field && field->kind == PL_FIELD_POINTS && i)
            pl_buffer_printf(out, ", %s", strcmp(token, "0") ? "z" : "x");
        else if (is_number(token))
            pl_buffer_printf(out, " %lu", strtoul(token, NULL, 10) + 1);
        else
            pl_buffer_printf(out, ", %s", token);
}

/* A list of the table's: "ply groups", "cloths". */
static const struct pl_group *list_in(enum pl_group_id parent, const char *key)
{
    for (size_t i = 1; i < PL_GROUPS; i++)
        if (pl_groups[i].parent == parent && pl_groups[i].list && !strcmp(pl_groups[i].key, key))
            return &pl_groups[i];
    return NULL;
}

/* What of the row; rest is the pointer behind the row's. */
static void add_what(struct pl_buffer *out, bool order, enum pl_group_id group, const char *rest)
{
    char token[128];
    rest = next_token(rest, token, sizeof token);
    if (!rest)
        return;
    const struct pl_group *list = list_in(group, token);
    const struct pl_field *field = pl_field_named(group, token);
    pl_buffer_text(out, order ? "order of " : "");
    if (list)
        pl_buffer_printf(out, "%ss", list->noun);
    else if (field)
        add_label(out, field->label);
    else
        pl_buffer_text(out, token);
    add_inside(out, field, rest);
}

static void place_words(const struct pl_document *doc, const char *pointer, bool order, char *out, size_t size)
{
    enum pl_group_id group;
    size_t length = pl_field_row(pointer, &group);
    struct pl_buffer words = {0}, row = {0};
    char who[128] = "";
    pl_buffer_add(&row, pointer, length);
    if (length && !row.failed)
        pl_row_whose_words(doc, row.text, who, sizeof who);
    pl_buffer_text(&words, who);
    pl_buffer_text(&words, *who && pointer[length] ? ", " : "");
    add_what(&words, order, group, pointer + length);
    bool failed = words.failed || row.failed;
    pl_text_safe(out, size, failed ? pointer : words.length ? words.text : "the whole file");
    pl_buffer_free(&words);
    pl_buffer_free(&row);
}

void pl_part_place_words(const struct pl_document *doc, const char *pointer, char *out, size_t size)
{
    place_words(doc, pointer, false, out, size);
}

void pl_part_order_words(const struct pl_document *doc, const char *pointer, char *out, size_t size)
{
    place_words(doc, pointer, true, out, size);
}
