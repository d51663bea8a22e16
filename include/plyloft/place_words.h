/* place_words.h - a place of the part in words, for a person who does not see the file.
 *
 * A JSON Pointer is for the command line and for those who edit the file; on the screen a value is told by its row's
 * name and its label.  Words are safe to print.
 */
#ifndef PLYLOFT_PLACE_WORDS_H
#define PLYLOFT_PLACE_WORDS_H

#include "plyloft/document.h"

/* "top cap, plies", "station 2 of main, chord", "main, ply groups", "the whole file" for ""; the value need not be
 * there.  Without memory the pointer. */
void pl_part_place_words(const struct pl_document *doc, const char *pointer, char *out, size_t size);

/* The order of a list: "main, order of ply groups". */
void pl_part_order_words(const struct pl_document *doc, const char *pointer, char *out, size_t size);

#endif
