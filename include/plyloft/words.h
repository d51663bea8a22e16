/* words.h - figures of a verdict in words, the same on screen and in print.
 *
 * Sentences only; no figure is worked out here.
 */
#ifndef PLYLOFT_WORDS_H
#define PLYLOFT_WORDS_H

#include "plyloft/check.h"

/* "170 right", "230 left", "centre": millimetres from the centreline. */
void pl_place_words(double y_m, char *out, size_t size);

/* "ply, first skin, 190 left", "wrinkling, top, 170 right". */
void pl_lowest_words(const struct pl_lowest *lowest, char *out, size_t size);

/* "as given", "pinned", "pinned, pad 2 carries more": how the lowest of a case came about. */
void pl_solution_words(bool pinned, int variant, char *out, size_t size);

/* "1.08", "12.3", "over 999". */
void pl_reserve_words(double reserve, char *out, size_t size);

/* Cautions that belong to a verdict (handbook, section 12), in order; at most most of them, their number. */
size_t pl_cautions(const struct pl_part *part, const struct pl_verdict *verdict, const char **out, size_t most);

#endif
