/* Edits by pointer: what may be done, and the sentence when it may not. */
#include "layout.h"

#include <stdlib.h>
#include <string.h>

struct edit {
    struct pl_document *doc;
    const char *pointer;
    struct pl_problems *problems;
    bool own_step;
    const char *value; /* what is to be put in, without the white space around it */
    size_t value_length;
};

static enum pl_status refuse(const struct edit *e, const char *rule, const char *found)
{
    pl_problem_add(e->problems, PL_ERROR, e->pointer, rule, found);
    return PL_BAD_INPUT;
}

static enum pl_status no_place(const struct edit *e)
{
    return refuse(e, "there is no such place", NULL);
}

static enum pl_status no_memory(const struct edit *e)
{
    pl_problem_add(e->problems, PL_ERROR, e->pointer, "there is not enough memory", NULL);
    return PL_NO_MEMORY;
}

static enum pl_status begin(struct edit *e)
{
    e->own_step = !e->doc->depth;
    return e->own_step && pl_edit_begin(e->doc, e->pointer, NULL) != PL_OK ? no_memory(e) : PL_OK;
}

static enum pl_status end(const struct edit *e, enum pl_status status)
{
    if (!e->own_step)
        return status;
    if (status == PL_OK)
        return pl_edit_end(e->doc);
    pl_edit_abandon(e->doc);
    return status;
}

/* One JSON value and nothing else, or what is spliced in might reach out of its place. */
static enum pl_status take_value(struct edit *e, const char *json)
{
    struct pl_json_tree tree = {0};
    struct pl_json_error error = {0};
    enum pl_status status = pl_json_scan(&tree, json, strlen(json), "the value", &error);
    if (status == PL_OK) {
        e->value = json + tree.nodes[0].start;
        e->value_length = tree.nodes[0].end - tree.nodes[0].start;
    } else if (status == PL_NO_MEMORY) {
        no_memory(e);
    } else {
        refuse(e, error.rule, error.found);
    }
    pl_json_free(&tree);
    return status;
}

static enum pl_status splice(const struct edit *e, size_t at, size_t length, const char *with, size_t with_length)
{
    struct pl_json_error error = {0};
    enum pl_status status = pl_document_splice(e->doc, at, length, with, with_length, &error);
    if (status == PL_NO_MEMORY)
        return no_memory(e);
    return status == PL_OK ? PL_OK : refuse(e, error.rule, error.found);
}

static enum pl_status apply(const struct edit *e, struct pl_splice *s)
{
    enum pl_status status =
        s->with.failed ? no_memory(e) : splice(e, s->at, s->length, s->with.text ? s->with.text : "", s->with.length);
    pl_buffer_free(&s->with);
    return status;
}

static enum pl_status add_member(const struct edit *e, pl_node object, const char *token)
{
    struct pl_splice s;
    char *key = pl_pointer_token_text(token), *quoted = key ? pl_json_quote(key) : NULL;
    free(key);
    if (!quoted)
        return no_memory(e);
    pl_layout_insert(e->doc, object, pl_node_count(e->doc, object), quoted, e->value, e->value_length, &s);
    free(quoted);
    return apply(e, &s);
}

/* ---- set ---- */

static enum pl_status set(const struct edit *e)
{
    const char *token;
    pl_node node = pl_document_find(e->doc, e->pointer);
    if (node != PL_NO_NODE) {
        const struct pl_json_node *old = pl_inside(e->doc, node);
        size_t length = old->end - old->start;
        if (length == e->value_length && !memcmp(e->doc->now.text->bytes + old->start, e->value, length))
            return PL_OK;
        return splice(e, old->start, length, e->value, e->value_length);
    }
    pl_node parent = pl_pointer_parent(e->doc, e->pointer, &token);
    if (pl_inside(e->doc, parent)->kind != PL_NODE_OBJECT || !pl_pointer_token_right(token, strlen(token)))
        return no_place(e);
    return add_member(e, parent, token);
}

enum pl_status pl_edit_set(struct pl_document *doc, const char *pointer, const char *json, struct pl_problems *problems)
{
    struct edit e = {.doc = doc, .pointer = pointer, .problems = problems};
    enum pl_status status = take_value(&e, json);
    if (status == PL_OK)
        status = begin(&e);
    return status == PL_OK ? end(&e, set(&e)) : status;
}

/* ---- insert ---- */

static enum pl_status insert_item(const struct edit *e, pl_node list, const char *token)
{
    struct pl_splice s;
    size_t count = pl_node_count(e->doc, list);
    size_t index = strcmp(token, "-") ? pl_pointer_index(token, strlen(token)) : count;
    if (index > count)
        return no_place(e);
    pl_layout_insert(e->doc, list, index, NULL, e->value, e->value_length, &s);
    return apply(e, &s);
}

static enum pl_status insert(const struct edit *e)
{
    const char *token;
    pl_node parent = pl_pointer_parent(e->doc, e->pointer, &token);
    enum pl_node_kind kind = pl_node_kind(e->doc, parent);
    if (kind == PL_NODE_LIST)
        return insert_item(e, parent, token);
    if (kind != PL_NODE_OBJECT || !pl_pointer_token_right(token, strlen(token)))
        return no_place(e);
    if (pl_document_find(e->doc, e->pointer) != PL_NO_NODE)
        return refuse(e, "stands there already", NULL);
    return add_member(e, parent, token);
}

enum pl_status pl_edit_insert(struct pl_document *doc, const char *pointer, const char *json,
                              struct pl_problems *problems)
{
    struct edit e = {.doc = doc, .pointer = pointer, .problems = problems};
    enum pl_status status = take_value(&e, json);
    if (status == PL_OK)
        status = begin(&e);
    return status == PL_OK ? end(&e, insert(&e)) : status;
}

/* ---- remove and move ---- */

static enum pl_status take_out(const struct edit *e)
{
    struct pl_splice s;
    pl_node node = pl_document_find(e->doc, e->pointer);
    if (node == PL_NO_NODE)
        return no_place(e);
    if (node == pl_document_root(e->doc))
        return refuse(e, "the whole document cannot be removed", NULL);
    pl_layout_remove(e->doc, node, &s);
    return apply(e, &s);
}

enum pl_status pl_edit_remove(struct pl_document *doc, const char *pointer, struct pl_problems *problems)
{
    struct edit e = {.doc = doc, .pointer = pointer, .problems = problems};
    enum pl_status status = begin(&e);
    return status == PL_OK ? end(&e, take_out(&e)) : status;
}

static enum pl_status move(const struct edit *e, size_t to)
{
    struct pl_splice s;
    const char *token;
    if (pl_document_find(e->doc, e->pointer) == PL_NO_NODE)
        return no_place(e);
    pl_node parent = pl_pointer_parent(e->doc, e->pointer, &token);
    if (pl_node_kind(e->doc, parent) != PL_NODE_LIST)
        return refuse(e, "only an item of a list can be moved", NULL);
    if (to >= pl_node_count(e->doc, parent))
        return refuse(e, "the list ends before the place to move to", NULL);
    size_t from = pl_pointer_index(token, strlen(token));
    if (from == to)
        return PL_OK;
    pl_layout_move(e->doc, parent, from, to, &s);
    return apply(e, &s);
}

enum pl_status pl_edit_move(struct pl_document *doc, const char *pointer, size_t to, struct pl_problems *problems)
{
    struct edit e = {.doc = doc, .pointer = pointer, .problems = problems};
    enum pl_status status = begin(&e);
    return status == PL_OK ? end(&e, move(&e, to)) : status;
}
