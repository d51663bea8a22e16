/* recent.h - the part files opened last, newest first.
 *
 * Kept as {"format": "plyloft-recent", "version": 1, "parts": [absolute paths]} in
 * "recent.json" in the state folder (places.h), replaced as a whole.  A list that cannot be
 * read is no loss worth stopping for: it is told in a warning and begins anew.  Problems
 * have the file as their place.
 */
#ifndef PLYLOFT_RECENT_H
#define PLYLOFT_RECENT_H

#include "plyloft/problems.h"

#include <stdbool.h>
#include <stddef.h>

enum { PL_RECENT_MOST = 20 };

struct pl_recent_part {
    char *path;   /* absolute, not safe to print */
    bool exists;  /* when the list was read */
};

struct pl_recent {
    struct pl_recent_part parts[PL_RECENT_MOST]; /* no path twice */
    size_t count;
};

/* An empty list, with the status and the sentence, when there is no place for it or no memory.  PL_OK with a warning
 * when it begins anew. */
enum pl_status pl_recent_read(struct pl_recent *recent, struct pl_problems *problems);
void pl_recent_free(struct pl_recent *recent);

/* Puts a part first, or takes it off the list, in the file.  Links among the folders of the path are followed, the
 * name itself is kept as given.  Standard input, "-", and a name that is not UTF-8, which JSON cannot hold, are not
 * remembered.  After a failure the file is as it was. */
enum pl_status pl_recent_add(const char *part_path, struct pl_problems *problems);
enum pl_status pl_recent_remove(const char *part_path, struct pl_problems *problems);

#endif
