/* keep.h - texts copied into an arena; private to src/study.
 *
 * NULL without memory, which the arena remembers: callers test it once, at their end.
 */
#ifndef PLYLOFT_STUDY_KEEP_H
#define PLYLOFT_STUDY_KEEP_H

#include "plyloft/arena.h"

const char *pl_keep_bytes(struct pl_arena *arena, const char *bytes, size_t length);  /* a NUL behind them */
const char *pl_keep_text(struct pl_arena *arena, const char *text);
const char *pl_keep_safe(struct pl_arena *arena, const char *text);  /* made safe to print */

#endif
