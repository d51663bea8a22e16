#include "keep.h"

#include "plyloft/text.h"

#include <string.h>

const char *pl_keep_bytes(struct pl_arena *arena, const char *bytes, size_t length)
{
    char *copy = pl_arena_take_raw(arena, length + 1, 1);
    if (!copy)
        return NULL;
    memcpy(copy, bytes, length);
    copy[length] = '\0';
    return copy;
}

const char *pl_keep_text(struct pl_arena *arena, const char *text)
{
    return pl_keep_bytes(arena, text, strlen(text));
}

const char *pl_keep_safe(struct pl_arena *arena, const char *text)
{
    size_t size = 3 * strlen(text) + 1;  /* a byte can become the three of U+FFFD */
    char *copy = pl_arena_take_raw(arena, size, 1);
    if (copy)
        pl_text_safe(copy, size, text);
    return copy;
}
