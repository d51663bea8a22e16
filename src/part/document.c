/* The document's text and tree, read and looked at.  Edits are in edit.c and undo.c. */
#include "document_inside.h"

#include "plyloft/text.h"

#include <stdlib.h>
#include <string.h>

struct pl_text *pl_text_make(size_t length)
{
    struct pl_text *text = pl_part_memory(NULL, sizeof *text + length + 1);
    if (!text)
        return NULL;
    text->length = length;
    text->holders = 1;
    text->bytes[length] = '\0';
    return text;
}

void pl_text_drop(struct pl_text *text)
{
    if (text && !--text->holders)
        free(text);
}

enum pl_status pl_content_make(struct pl_content *content, struct pl_text *text, const char *subject,
                               struct pl_json_error *error)
{
    enum pl_status status = pl_json_read(&content->tree, text->bytes, text->length, subject, error);
    content->text = status == PL_OK ? text : NULL;
    return status;
}

void pl_content_drop(struct pl_content *content)
{
    pl_text_drop(content->text);
    pl_json_free(&content->tree);
    content->text = NULL;
}

/* ---- reading ---- */

static enum pl_status no_memory(struct pl_problems *problems)
{
    pl_problem_add(problems, PL_ERROR, "", "there is not enough memory", NULL);
    return PL_NO_MEMORY;
}

static enum pl_status read_text(struct pl_document *doc, struct pl_text *text, struct pl_problems *problems)
{
    struct pl_json_error error = {0};
    enum pl_status status = pl_content_make(&doc->now, text, "the file", &error);
    if (status == PL_OK) {
        doc->saved = text;
        text->holders++;
    } else if (status == PL_NO_MEMORY) {
        no_memory(problems);
    } else {
        char place[64];
        pl_json_place(text->bytes, text->length, error.at, place, sizeof place);
        pl_problem_add(problems, PL_ERROR, place, error.rule, error.found);
    }
    return status;
}

enum pl_status pl_document_read(struct pl_document **out, const char *bytes, size_t length,
                                struct pl_problems *problems)
{
    *out = NULL;
    struct pl_document *doc = pl_part_memory(NULL, sizeof *doc);
    if (!doc)
        return no_memory(problems);
    *doc = (struct pl_document){0};
    /* What is too large is still refused at a place: where it becomes so. */
    size_t kept = length > PL_DOCUMENT_MOST_BYTES ? PL_DOCUMENT_MOST_BYTES + 1 : length;
    struct pl_text *text = pl_text_make(kept);
    if (!text) {
        free(doc);
        return no_memory(problems);
    }
    if (kept)
        memcpy(text->bytes, bytes, kept);
    enum pl_status status = read_text(doc, text, problems);
    if (status == PL_OK) {
        *out = doc;
    } else {
        pl_text_drop(text);
        free(doc);
    }
    return status;
}

void pl_document_free(struct pl_document *doc)
{
    if (!doc)
        return;
    pl_steps_free(doc);
    pl_content_drop(&doc->now);
    pl_text_drop(doc->saved);
    free(doc);
}

const char *pl_document_bytes(const struct pl_document *doc, size_t *length)
{
    if (length)
        *length = doc->now.text->length;
    return doc->now.text->bytes;
}

char *pl_document_copy(const struct pl_document *doc, const char *pointer)
{
    pl_node node = pl_document_find(doc, pointer);
    if (node == PL_NO_NODE)
        return NULL;
    size_t length = pl_inside(doc, node)->end - pl_inside(doc, node)->start;
    char *copy = pl_part_memory(NULL, length + 1);
    if (!copy)
        return NULL;
    memcpy(copy, doc->now.text->bytes + pl_inside(doc, node)->start, length);
    copy[length] = '\0';
    return copy;
}

/* ---- saved or not ---- */

unsigned long pl_document_revision(const struct pl_document *doc)
{
    return doc->revision;
}

bool pl_document_changed(const struct pl_document *doc)
{
    const struct pl_text *now = doc->now.text, *saved = doc->saved;
    return now != saved && (now->length != saved->length || memcmp(now->bytes, saved->bytes, now->length) != 0);
}

void pl_document_saved(struct pl_document *doc)
{
    pl_text_drop(doc->saved);
    doc->saved = doc->now.text;
    doc->saved->holders++;
    doc->may_merge = false;
}

/* ---- the tree ---- */

const struct pl_json_node *pl_inside(const struct pl_document *doc, pl_node node)
{
    static const struct pl_json_node none = {.parent = PL_JSON_NONE, .kind = PL_NODE_NULL};
    return node < doc->now.tree.count ? &doc->now.tree.nodes[node] : &none;
}

pl_node pl_document_root(const struct pl_document *doc)
{
    (void)doc;
    return 0;
}

enum pl_node_kind pl_node_kind(const struct pl_document *doc, pl_node node)
{
    return (enum pl_node_kind)pl_inside(doc, node)->kind;
}

double pl_node_number(const struct pl_document *doc, pl_node node)
{
    const struct pl_json_node *inside = pl_inside(doc, node);
    return inside->kind == PL_NODE_NUMBER ? inside->is.number : 0;
}

const char *pl_node_text(const struct pl_document *doc, pl_node node)
{
    const struct pl_json_node *inside = pl_inside(doc, node);
    return inside->kind == PL_NODE_TEXT ? inside->is.text : "";
}

const char *pl_node_key(const struct pl_document *doc, pl_node node)
{
    return pl_inside(doc, node)->key;
}

size_t pl_node_count(const struct pl_document *doc, pl_node node)
{
    return pl_inside(doc, node)->count;
}

pl_node pl_node_first(const struct pl_document *doc, pl_node node)
{
    return pl_inside(doc, node)->count ? node + 1 : PL_NO_NODE;
}

pl_node pl_node_next(const struct pl_document *doc, pl_node node)
{
    const struct pl_json_node *inside = pl_inside(doc, node);
    return inside->parent != PL_JSON_NONE && inside->after < pl_inside(doc, inside->parent)->after ? inside->after
                                                                                                   : PL_NO_NODE;
}

pl_node pl_node_member(const struct pl_document *doc, pl_node object, const char *key)
{
    if (pl_inside(doc, object)->kind != PL_NODE_OBJECT)
        return PL_NO_NODE;
    uint32_t member = pl_json_member(&doc->now.tree, (uint32_t)object, key, strlen(key), false);
    return member == PL_JSON_NONE ? PL_NO_NODE : member;
}

void pl_node_spelling(const struct pl_document *doc, pl_node node, char *out, size_t size)
{
    const struct pl_json_node *inside = pl_inside(doc, node);
    const char *start = doc->now.text->bytes + inside->start;
    size_t length = inside->end - inside->start;
    char copy[1024]; /* longer than any message has room for */
    if (length >= sizeof copy) {
        for (length = sizeof copy - 1; ((unsigned char)start[length] & 0xc0) == 0x80;)
            length--;
    }
    memcpy(copy, start, length);
    copy[length] = '\0';
    pl_text_safe(out, size, copy);
}
