/* arena.h - memory that is given back all at once.
 *
 * The part and each result set live in an arena.  Resetting keeps the memory, and
 * joins it into one block, so that a warm rebuild of the same size allocates nothing.
 */
#ifndef PLYLOFT_ARENA_H
#define PLYLOFT_ARENA_H

#include <stdbool.h>
#include <stddef.h>

struct pl_arena_block;

struct pl_arena {
    struct pl_arena_block *blocks;  /* newest first */
    size_t used;                    /* of the newest */
    size_t total;                   /* bytes in all blocks */
    bool failed;                    /* an allocation returned NULL since the last reset */
};

/* An empty arena is all zeros. */

/* Zeroed memory for count things of size bytes, aligned for any type; NULL when there
 * is no more (and failed is set).  count 0 gives a valid pointer. */
void *pl_arena_take(struct pl_arena *a, size_t count, size_t size);

/* The same without zeroing, for arrays that are filled at once. */
void *pl_arena_take_raw(struct pl_arena *a, size_t count, size_t size);

void pl_arena_reset(struct pl_arena *a);
void pl_arena_free(struct pl_arena *a);

#endif
