/* document_inside.h - what the document is made of; private to src/part.
 *
 * A content is the text and the tree over it, and is never changed once made: an edit makes
 * the next content, records the bytes it changed and lets go of the old one.  document.c
 * reads and looks things up, edit.c turns edits into splices, undo.c keeps the steps.
 */
#ifndef PLYLOFT_PART_DOCUMENT_INSIDE_H
#define PLYLOFT_PART_DOCUMENT_INSIDE_H

#include "json.h"

/* Text with a NUL behind it, shared between the content and the memory of what was saved. */
struct pl_text {
    size_t length;
    unsigned holders;
    char bytes[];
};

struct pl_content {
    struct pl_text *text; /* NULL: no content */
    struct pl_json_tree tree;
};

/* At a byte of the text, old_length bytes gave way to new_length others. */
struct pl_change {
    size_t at, old_length, new_length;
    char *bytes; /* the old ones, then the new ones */
};

struct pl_step {
    char *name, *merge_key; /* merge_key may be NULL */
    struct pl_change *changes;
    size_t count, capacity;
};

struct pl_group {
    struct pl_content before; /* the content at its begin, once that is no longer the present one */
    size_t changes;           /* in the open step at its begin */
};

enum { PL_GROUPS_DEEP = 8 };

struct pl_document {
    struct pl_content now;
    struct pl_text *saved;
    unsigned long revision;

    struct pl_step *steps; /* those undone behind those done */
    size_t n_steps, done, capacity;
    bool may_merge; /* nothing was undone or saved since the newest step */

    struct pl_group groups[PL_GROUPS_DEEP]; /* open ones, outermost first */
    size_t depth;
    struct pl_step open; /* what the groups will leave */
};

/* ---- document.c ---- */
struct pl_text *pl_text_make(size_t length); /* holders 1, NUL in place, bytes unset; NULL without memory */
void pl_text_drop(struct pl_text *text);     /* NULL is fine */

/* Reads text, and on success takes it over. */
enum pl_status pl_content_make(struct pl_content *content, struct pl_text *text, const char *subject,
                               struct pl_json_error *error);
void pl_content_drop(struct pl_content *content);

/* Any node, PL_NO_NODE too, which is an empty null without parent. */
const struct pl_json_node *pl_inside(const struct pl_document *doc, pl_node node);

/* ---- pointer.c ---- */

/* The value that holds, or would hold, what pointer names; *token is its last reference
 * token.  PL_NO_NODE for the root, and where there is no such value. */
pl_node pl_pointer_parent(const struct pl_document *doc, const char *pointer, const char **token);

/* The index a token names, PL_NO_NODE when it names none. */
size_t pl_pointer_index(const char *token, size_t length);

/* Whether every ~ is followed by 0 or 1. */
bool pl_pointer_token_right(const char *token, size_t length);

/* What the token stands for, in memory to be freed; NULL without memory. */
char *pl_pointer_token_text(const char *token);

/* ---- undo.c ---- */

/* Replaces old_length bytes of the text, within an open group, and reads the new text.
 * On failure nothing has changed, and error says why unless there was no memory. */
enum pl_status pl_document_splice(struct pl_document *doc, size_t at, size_t old_length, const char *with,
                                  size_t new_length, struct pl_json_error *error);
void pl_steps_free(struct pl_document *doc);

#endif
