#include "plyloft/arena.h"

#include <stdalign.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

struct pl_arena_block {
    struct pl_arena_block *older;
    size_t size;
    alignas(max_align_t) unsigned char bytes[];
};

enum { LEAST_BLOCK = 64 * 1024 };

static bool grow(struct pl_arena *a, size_t least)
{
    size_t size = a->total > LEAST_BLOCK ? a->total : LEAST_BLOCK;
    if (size < least)
        size = least;
    struct pl_arena_block *block = malloc(sizeof *block + size);
    if (!block)
        return false;
    block->older = a->blocks;
    block->size = size;
    a->blocks = block;
    a->used = 0;
    a->total += size;
    return true;
}

void *pl_arena_take_raw(struct pl_arena *a, size_t count, size_t size)
{
    const size_t align = alignof(max_align_t);
    if (size && count > (SIZE_MAX / 2 - align) / size) {
        a->failed = true;
        return NULL;
    }
    size_t want = (count * size + align - 1) / align * align;
    if (!a->blocks || a->blocks->size - a->used < want)
        if (!grow(a, want)) {
            a->failed = true;
            return NULL;
        }
    void *p = a->blocks->bytes + a->used;
    a->used += want;
    return p;
}

void *pl_arena_take(struct pl_arena *a, size_t count, size_t size)
{
    void *p = pl_arena_take_raw(a, count, size);
    if (p)
        memset(p, 0, count * size);
    return p;
}

void pl_arena_reset(struct pl_arena *a)
{
    a->used = 0;
    a->failed = false;
    if (!a->blocks || !a->blocks->older)
        return;
    size_t total = a->total;
    pl_arena_free(a);
    grow(a, total);  /* when it fails the next take tries again */
}

void pl_arena_free(struct pl_arena *a)
{
    while (a->blocks) {
        struct pl_arena_block *older = a->blocks->older;
        free(a->blocks);
        a->blocks = older;
    }
    *a = (struct pl_arena){0};
}
