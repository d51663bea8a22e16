/* recovery_inside.h - what keeping and finding unsaved work share; private to src/part.
 *
 * recovery.c writes and removes, recovery_find.c looks for what was left.  Here is what
 * both must agree on: names, and which session is which.
 */
#ifndef PLYLOFT_PART_RECOVERY_INSIDE_H
#define PLYLOFT_PART_RECOVERY_INSIDE_H

#include "plyloft/recovery.h"

#define PL_RECOVERY_FORMAT "plyloft-recovery"

enum { PL_RECOVERY_VERSION = 1, PL_HASH_DIGITS = 16 };

/* What the files of one part have in common: its path from the root on, links followed; "" for NULL and "-".  NULL
 * without memory. */
char *pl_recovery_identity(const char *part_path);

/* In digits, as in the name of a file. */
void pl_hash_write(char digits[PL_HASH_DIGITS + 1], uint64_t hash);

/* A running process of this machine.  start tells one from another that got the same number later: the system's own
 * count, 0 where it gives none. */
struct pl_session_mark {
    long process;
    long long start;
    char host[256];
};

void pl_session_mark_own(struct pl_session_mark *mark);

/* Whether it still runs, and is not this process.  One on another machine that shares our folders cannot be asked,
 * and counts as gone. */
bool pl_session_runs(const struct pl_session_mark *mark);

#endif
