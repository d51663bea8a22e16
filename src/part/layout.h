/* layout.h - where new bytes go so that a file still looks kept by hand; private to src/part.
 *
 * Works out which bytes of the text an insertion, removal or move replaces, and by what:
 * commas, white space and indentation follow what stands beside.  Changes nothing itself,
 * and knows neither steps nor pointers.
 */
#ifndef PLYLOFT_PART_LAYOUT_H
#define PLYLOFT_PART_LAYOUT_H

#include "document_inside.h"

#include "plyloft/buffer.h"

/* What replaces length bytes from at on. */
struct pl_splice {
    size_t at, length;
    struct pl_buffer with; /* to be freed; failed when there was no memory */
};

/* A value of value_length bytes becomes item index of a list, or the last member of an
 * object under the quoted key.  index is at most the count; key is NULL for a list. */
void pl_layout_insert(const struct pl_document *doc, pl_node container, size_t index, const char *key,
                      const char *value, size_t value_length, struct pl_splice *splice);

/* The value goes, with one comma and the white space that was its own.  Not for the root. */
void pl_layout_remove(const struct pl_document *doc, pl_node node, struct pl_splice *splice);

/* Item from of a list becomes item to, both within it and different. */
void pl_layout_move(const struct pl_document *doc, pl_node list, size_t from, size_t to, struct pl_splice *splice);

#endif
