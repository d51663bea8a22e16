/* part_rows_edit.h - the edits that changes of rows are made of; private to src/part.
 *
 * Pointers are made printf-wise, and the status of a whole step is tested once, at its end.  Knows no table of
 * fields: it sees the document from inside (document_inside.h), where a group is something else.
 */
#ifndef PLYLOFT_PART_ROWS_EDIT_H
#define PLYLOFT_PART_ROWS_EDIT_H

#include "build.h"

#define PL_LIKE_PRINTF(at) __attribute__((format(printf, at, at + 1)))

/* ---- values by pointer ---- */
pl_node pl_row_find(const struct pl_document *doc, const char *pointer, ...) PL_LIKE_PRINTF(2);
bool pl_row_has(const struct pl_document *doc, const char *pointer, ...) PL_LIKE_PRINTF(2);
double pl_row_number(const struct pl_document *doc, const char *pointer, ...) PL_LIKE_PRINTF(2);    /* NAN: none */
const char *pl_row_text(const struct pl_document *doc, const char *pointer, ...) PL_LIKE_PRINTF(2); /* "": none */
size_t pl_row_count(const struct pl_document *doc, const char *pointer, ...) PL_LIKE_PRINTF(2);
void pl_row_parent(const char *pointer, char *out, size_t size);

/* ---- a step of undo in the making ---- */

/* Behind the first failure nothing more is done, so that only the end is tested. */
struct pl_row_edit {
    struct pl_document *doc;
    struct pl_problems *problems;
    enum pl_status status;
    bool open;
};

/* Begins the step named printf-wise. */
void pl_row_begin(struct pl_row_edit *e, struct pl_document *doc, struct pl_problems *problems, const char *merge_key,
                  const char *name, ...) PL_LIKE_PRINTF(5);

/* Begins one named "what from -> to" that merges with the one before on the same pointer: from the first value then. */
void pl_row_begin_change(struct pl_row_edit *e, struct pl_document *doc, struct pl_problems *problems,
                         const char *pointer, const char *what, const char *from, const char *to);

enum pl_status pl_row_end(struct pl_row_edit *e); /* takes all back after a failure */

void pl_row_set(struct pl_row_edit *e, const char *json, const char *pointer, ...) PL_LIKE_PRINTF(3);
void pl_row_set_number(struct pl_row_edit *e, double value, const char *pointer, ...) PL_LIKE_PRINTF(3);
void pl_row_set_text(struct pl_row_edit *e, const char *text, const char *pointer, ...) PL_LIKE_PRINTF(3);
void pl_row_insert(struct pl_row_edit *e, const char *json, const char *pointer, ...) PL_LIKE_PRINTF(3);
void pl_row_unset(struct pl_row_edit *e, const char *pointer, ...) PL_LIKE_PRINTF(2); /* also when nothing is there */

/* A member under another key with another value, where it stood. */
void pl_row_replace(struct pl_row_edit *e, const char *row, const char *key, const char *new_key, const char *json);

/* Where a value, or the key of a member with its quotes, stands in the document's bytes. */
struct pl_row_span {
    size_t start, end;
};
struct pl_row_span pl_row_value_span(const struct pl_document *doc, pl_node node);
struct pl_row_span pl_row_key_span(const struct pl_document *doc, pl_node node);

/* Writes the same text in place of every span (which get sorted), at least one, as one change: each change costs a
 * reading of the whole. */
void pl_row_rewrite(struct pl_row_edit *e, const char *place, struct pl_row_span *spans, size_t count,
                    const char *text);

enum pl_status pl_row_refuse(struct pl_problems *problems, const char *pointer, const char *rule, const char *found);
enum pl_status pl_row_no_memory(struct pl_problems *problems, const char *pointer);

#endif
