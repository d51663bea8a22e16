#include "layout.h"

#include <string.h>

static size_t unit_start(const struct pl_json_node *node)
{
    return node->key_end ? node->key_start : node->start;
}

static bool holds_line_end(const char *bytes, size_t from, size_t to)
{
    return memchr(bytes + from, '\n', to - from) != NULL;
}

static bool is_blank(char c)
{
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

/* Children from index on; past the last one all are PL_NO_NODE. */
static void child_and_next(const struct pl_document *doc, pl_node container, size_t index, pl_node pair[2])
{
    pl_node node = pl_node_first(doc, container);
    for (size_t i = 0; i < index; i++)
        node = pl_node_next(doc, node);
    pair[0] = node;
    pair[1] = pl_node_next(doc, node);
}

/* ---- lines ---- */

/* The blanks at the start of the line that byte at stands on. */
static size_t indent_of(const char *bytes, size_t at, size_t *line)
{
    size_t start = at, end;
    while (start && bytes[start - 1] != '\n')
        start--;
    for (end = start; end < at && (bytes[end] == ' ' || bytes[end] == '\t');)
        end++;
    *line = start;
    return end - start;
}

static bool first_on_its_line(const char *bytes, size_t at)
{
    size_t line, indent = indent_of(bytes, at, &line);
    return line + indent == at;
}

static void add_line_end(struct pl_buffer *out, const struct pl_text *text)
{
    const char *first = memchr(text->bytes, '\n', text->length);
    pl_buffer_text(out, first && first > text->bytes && first[-1] == '\r' ? "\r\n" : "\n");
}

/* By how much a container's lines are further in than those it stands among. */
static void add_one_level(struct pl_buffer *out, const struct pl_document *doc, const struct pl_json_node *container)
{
    const char *bytes = doc->now.text->bytes;
    size_t line, outer_line, indent = indent_of(bytes, unit_start(container), &line);
    if (container->parent != PL_JSON_NONE) {
        size_t outer = indent_of(bytes, unit_start(pl_inside(doc, container->parent)), &outer_line);
        if (outer < indent && !memcmp(bytes + outer_line, bytes + line, outer)) {
            pl_buffer_add(out, bytes + line + outer, indent - outer);
            return;
        }
    }
    pl_buffer_text(out, "  ");
}

/* ---- separators ---- */

/* The mark between two things with the white space around it.  On one line, more than one
 * blank behind it only lines up columns there, and is not copied. */
static void add_gap(struct pl_buffer *out, const char *bytes, size_t from, size_t to, char mark)
{
    size_t end = (size_t)((const char *)memchr(bytes + from, mark, to - from) - bytes) + 1;
    if (holds_line_end(bytes, from, to))
        end = to;
    else if (end < to)
        end++;
    pl_buffer_add(out, bytes + from, end - from);
}

/* Between the only child and a second one. */
static void add_first_separator(struct pl_buffer *out, const char *bytes, const struct pl_json_node *container,
                                const struct pl_json_node *only)
{
    size_t from = container->start + 1, to = unit_start(only);
    pl_buffer_text(out, ",");
    if (holds_line_end(bytes, from, to))
        pl_buffer_add(out, bytes + from, to - from);
    else if (!only->key_end || is_blank(bytes[only->start - 1])) /* {"a":1} stays as tight as it is */
        pl_buffer_text(out, " ");
}

static void add_separator(struct pl_buffer *out, const struct pl_document *doc, pl_node container, size_t index)
{
    const char *bytes = doc->now.text->bytes;
    const struct pl_json_node *inside = pl_inside(doc, container);
    pl_node pair[2];
    size_t first = index < inside->count ? index : inside->count - 1; /* of the two it stands between */
    child_and_next(doc, container, first ? first - 1 : 0, pair);
    if (pair[1] == PL_NO_NODE)
        add_first_separator(out, bytes, inside, pl_inside(doc, pair[0]));
    else
        add_gap(out, bytes, pl_inside(doc, pair[0])->end, unit_start(pl_inside(doc, pair[1])), ',');
}

/* ---- inserting ---- */

struct newcomer {
    const char *key, *value;
    size_t value_length;
    const struct pl_json_node *beside; /* a member to take the spacing of the colon from, or NULL */
};

static void add_newcomer(struct pl_buffer *out, const char *bytes, const struct newcomer *fresh)
{
    if (fresh->key) {
        pl_buffer_text(out, fresh->key);
        if (fresh->beside && fresh->beside->key_end)
            add_gap(out, bytes, fresh->beside->key_end, fresh->beside->start, ':');
        else
            pl_buffer_text(out, ": ");
    }
    pl_buffer_add(out, fresh->value, fresh->value_length);
}

/* The first child.  It gets lines of its own when the brackets stand on different lines, or
 * when it holds something itself and the container begins a line. */
static void fill(const struct pl_document *doc, const struct pl_json_node *container, const struct newcomer *fresh,
                 struct pl_splice *splice)
{
    const char *bytes = doc->now.text->bytes;
    size_t line, indent = indent_of(bytes, unit_start(container), &line);
    bool holds = fresh->value[0] == '[' || fresh->value[0] == '{';
    splice->at = container->start + 1;
    splice->length = container->end - 1 - splice->at;
    if (holds_line_end(bytes, splice->at, container->end) ||
        (holds && first_on_its_line(bytes, unit_start(container)))) {
        add_line_end(&splice->with, doc->now.text);
        pl_buffer_add(&splice->with, bytes + line, indent);
        add_one_level(&splice->with, doc, container);
        add_newcomer(&splice->with, bytes, fresh);
        add_line_end(&splice->with, doc->now.text);
        pl_buffer_add(&splice->with, bytes + line, indent);
    } else {
        pl_buffer_add(&splice->with, bytes + splice->at, splice->length);
        add_newcomer(&splice->with, bytes, fresh);
        pl_buffer_add(&splice->with, bytes + splice->at, splice->length);
    }
}

void pl_layout_insert(const struct pl_document *doc, pl_node container, size_t index, const char *key,
                      const char *value, size_t value_length, struct pl_splice *splice)
{
    const char *bytes = doc->now.text->bytes;
    const struct pl_json_node *inside = pl_inside(doc, container);
    struct newcomer fresh = {.key = key, .value = value, .value_length = value_length, .beside = inside};
    pl_node pair[2];
    *splice = (struct pl_splice){0};
    if (!inside->count) {
        fill(doc, inside, &fresh, splice);
        return;
    }
    bool last = index == inside->count;
    child_and_next(doc, container, last ? index - 1 : index, pair);
    fresh.beside = pl_inside(doc, pair[0]);
    splice->at = last ? fresh.beside->end : unit_start(fresh.beside);
    if (last)
        add_separator(&splice->with, doc, container, index);
    add_newcomer(&splice->with, bytes, &fresh);
    if (!last)
        add_separator(&splice->with, doc, container, index);
}

/* ---- removing and moving ---- */

void pl_layout_remove(const struct pl_document *doc, pl_node node, struct pl_splice *splice)
{
    const char *bytes = doc->now.text->bytes;
    const struct pl_json_node *inside = pl_inside(doc, node), *container = pl_inside(doc, inside->parent);
    pl_node before = PL_NO_NODE, next = pl_node_next(doc, node);
    for (pl_node n = pl_node_first(doc, inside->parent); n != node; n = pl_node_next(doc, n))
        before = n;
    size_t from = container->start + 1, to = container->end - 1;
    bool takes_next = next != PL_NO_NODE &&
                      (before == PL_NO_NODE || holds_line_end(bytes, pl_inside(doc, before)->end, unit_start(inside)));
    if (takes_next) { /* what follows stands where it stood */
        from = unit_start(inside);
        to = unit_start(pl_inside(doc, next));
    } else if (before != PL_NO_NODE) {
        from = pl_inside(doc, before)->end;
        to = inside->end;
    }
    *splice = (struct pl_splice){.at = from, .length = to - from};
}

void pl_layout_move(const struct pl_document *doc, pl_node list, size_t from, size_t to, struct pl_splice *splice)
{
    const char *bytes = doc->now.text->bytes;
    const uint32_t *items = pl_inside(doc, list)->is.children;
    size_t low = from < to ? from : to, high = from < to ? to : from;
    size_t start = pl_inside(doc, items[low])->start, end = pl_inside(doc, items[high])->end;
    *splice = (struct pl_splice){.at = start, .length = end - start};
    for (size_t slot = low; slot <= high; slot++) {
        const struct pl_json_node *here = pl_inside(doc, items[slot]);
        const struct pl_json_node *item = pl_inside(doc, items[slot == to ? from : from < to ? slot + 1 : slot - 1]);
        pl_buffer_add(&splice->with, bytes + item->start, item->end - item->start);
        if (slot < high)
            pl_buffer_add(&splice->with, bytes + here->end, pl_inside(doc, items[slot + 1])->start - here->end);
    }
}
