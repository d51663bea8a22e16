/* json_writer.h - JSON written as it comes, for results that programs read.
 *
 * The writer puts the commas, the line ends and the escapes; the caller gives values in
 * order.  Every call takes the key, which is NULL for items of a list and for the whole.
 * Texts may hold anything: broken UTF-8 becomes U+FFFD, and characters that must not
 * reach a terminal are escaped.  Numbers are free of the locale.  Reads nothing back.
 *
 * Members of the whole begin a line, and so do objects and lists that stand in a list;
 * all else runs on.  With one_line nothing begins a line.
 */
#ifndef PLYLOFT_JSON_WRITER_H
#define PLYLOFT_JSON_WRITER_H

#include "plyloft/buffer.h"

#include <stdbool.h>

enum { PL_JSON_MOST_DEPTH = 32 };

struct pl_json_writer {
    struct pl_buffer *out;
    bool one_line;
    int depth;
    char closing[PL_JSON_MOST_DEPTH]; /* ] or }, of the open ones, outermost first */
    bool any[PL_JSON_MOST_DEPTH];     /* something stands in it */
    bool lines[PL_JSON_MOST_DEPTH];   /* and began a line */
};

/* Writes behind what out holds. */
void pl_json_start(struct pl_json_writer *w, struct pl_buffer *out, bool one_line);

void pl_json_object(struct pl_json_writer *w, const char *key);
void pl_json_list(struct pl_json_writer *w, const char *key);
void pl_json_close(struct pl_json_writer *w); /* the innermost object or list */

void pl_json_text(struct pl_json_writer *w, const char *key, const char *text); /* NULL: null */
void pl_json_number(struct pl_json_writer *w, const char *key, double value);   /* 10 digits; not finite: null */
void pl_json_whole(struct pl_json_writer *w, const char *key, long long value);
void pl_json_bool(struct pl_json_writer *w, const char *key, bool value);
void pl_json_null(struct pl_json_writer *w, const char *key);

/* Closes what is open and ends the line; false when there was no memory for all of it. */
bool pl_json_end(struct pl_json_writer *w);

/* Text in quotes, onto the end of out. */
void pl_json_quote_onto(struct pl_buffer *out, const char *text);

#endif
