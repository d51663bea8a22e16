/* document.h - the part file as text and tree, and its edits.
 *
 * The document is the only thing edited.  It holds the file's own bytes; the tree over
 * them says where each value starts and ends, so an edit replaces just the bytes of what
 * it names, and everything untouched - unknown keys, order, spelling, spacing - is
 * written back as it was read.  Undoing an edit puts the very bytes back.
 *
 * Reading is strict (RFC 8259): UTF-8, the grammar, no key twice in an object, no number
 * outside the range of a double, no NUL and no half surrogate in a text, at most 64 levels
 * and 16 MB.  After every edit the text is read again under the same rules, so a document
 * is valid JSON at any time.  Knows nothing of wings.
 *
 * Places are JSON Pointers (RFC 6901).  In pl_edit_insert the last token of a list may
 * be "-" (after the last).
 */
#ifndef PLYLOFT_DOCUMENT_H
#define PLYLOFT_DOCUMENT_H

#include "plyloft/problems.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum { PL_DOCUMENT_MOST_BYTES = 16 * 1024 * 1024, PL_DOCUMENT_MOST_DEPTH = 64 };

struct pl_document;

/* A value of the tree, valid until the next edit, undo or redo. */
typedef size_t pl_node;
#define PL_NO_NODE SIZE_MAX

enum pl_node_kind { PL_NODE_NULL, PL_NODE_FALSE, PL_NODE_TRUE, PL_NODE_NUMBER, PL_NODE_TEXT, PL_NODE_LIST, PL_NODE_OBJECT };

/* Reads bytes (copied).  On failure *out is NULL and problems has one error with place
 * "line L, column C" (columns in characters, both from 1).  A byte order mark is an error. */
enum pl_status pl_document_read(struct pl_document **out, const char *bytes, size_t length,
                                struct pl_problems *problems);
void pl_document_free(struct pl_document *doc);  /* NULL is fine */

/* The bytes to be saved, NUL-terminated, valid until the next edit. */
const char *pl_document_bytes(const struct pl_document *doc, size_t *length);

/* ---- the tree ---- */
pl_node pl_document_root(const struct pl_document *doc);
pl_node pl_document_find(const struct pl_document *doc, const char *pointer);  /* PL_NO_NODE when there is none */

enum pl_node_kind pl_node_kind(const struct pl_document *doc, pl_node node);
double pl_node_number(const struct pl_document *doc, pl_node node);      /* 0 for other kinds */
const char *pl_node_text(const struct pl_document *doc, pl_node node);   /* decoded UTF-8, "" for other kinds */
const char *pl_node_key(const struct pl_document *doc, pl_node node);    /* decoded; NULL for list items and the root */
size_t pl_node_count(const struct pl_document *doc, pl_node node);       /* items or members */
pl_node pl_node_first(const struct pl_document *doc, pl_node node);      /* first item or member; PL_NO_NODE */
pl_node pl_node_next(const struct pl_document *doc, pl_node node);       /* next sibling; PL_NO_NODE */
pl_node pl_node_member(const struct pl_document *doc, pl_node object, const char *key);

/* The value's own bytes, made safe and cut to size: what a message shows as found. */
void pl_node_spelling(const struct pl_document *doc, pl_node node, char *out, size_t size);

/* ---- edits ---- */

/* All edits up to the matching pl_edit_end are one step of undo with that name.  When
 * merge_key is not NULL and equals that of the newest step, and nothing was undone or saved
 * since, the step joins it: its name is replaced, and one undo takes all back. */
enum pl_status pl_edit_begin(struct pl_document *doc, const char *name, const char *merge_key);
enum pl_status pl_edit_end(struct pl_document *doc);
/* Name of the step that one begun now with this merge_key would join; NULL when it would stand alone. */
const char *pl_edit_joins(const struct pl_document *doc, const char *merge_key);
/* The next step joins none before it, whatever its merge_key. */
void pl_edit_stand_alone(struct pl_document *doc);
void pl_edit_abandon(struct pl_document *doc);  /* takes back what was done since begin */

/* Single changes; json is one JSON value as text.  Outside begin/end each is a step of its own,
 * named by its pointer.  On failure the document is as before and problems has the sentence.
 * set also adds a member that the object does not have yet (last, in the spacing of its
 * neighbours); on a list the item must exist. */
enum pl_status pl_edit_set(struct pl_document *doc, const char *pointer, const char *json, struct pl_problems *problems);
enum pl_status pl_edit_insert(struct pl_document *doc, const char *pointer, const char *json,
                              struct pl_problems *problems);
enum pl_status pl_edit_remove(struct pl_document *doc, const char *pointer, struct pl_problems *problems);
/* Moves a list item to another index of the same list; the bytes of the items are kept. */
enum pl_status pl_edit_move(struct pl_document *doc, const char *pointer, size_t to, struct pl_problems *problems);

/* A value's own bytes, as text to hand to set or insert; freed by the caller, NULL when there is
 * no such value or no memory. */
char *pl_document_copy(const struct pl_document *doc, const char *pointer);

/* ---- undo ---- */
bool pl_document_undo(struct pl_document *doc);  /* false: nothing to undo, or no memory (then nothing changed) */
bool pl_document_redo(struct pl_document *doc);
size_t pl_document_steps(const struct pl_document *doc);      /* steps kept, done and undone */
size_t pl_document_steps_done(const struct pl_document *doc);
const char *pl_document_step_name(const struct pl_document *doc, size_t step);

/* Rises with every edit, undo and redo. */
unsigned long pl_document_revision(const struct pl_document *doc);
/* Bytes differ from those at reading or at the last pl_document_saved. */
bool pl_document_changed(const struct pl_document *doc);
void pl_document_saved(struct pl_document *doc);

/* Escapes one reference token of a pointer ("a/b" -> "a~1b") onto the end of out. */
void pl_pointer_append(char *out, size_t size, const char *token);
void pl_pointer_append_index(char *out, size_t size, size_t index);

/* Writes text as a JSON string, quotes included; freed by the caller, NULL without memory. */
char *pl_json_quote(const char *text);

#endif
