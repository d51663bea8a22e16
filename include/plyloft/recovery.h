/* recovery.h - unsaved work kept aside, for the day the program or the machine stops.
 *
 * A session that has edits writes the whole document into a file of its own in "recovery"
 * in the state folder (places.h), as atomically as a save, and takes it away once the
 * work is saved or given up.  What a killed session leaves is found again by the part's path.
 * No session ever writes to the file of another, be it at work on the same part.
 *
 * The file is JSON: {"format": "plyloft-recovery", "version": 1, "path" (absolute; null: the
 * part had no file), "base_hash" (of the file the edits began from, 16 hexadecimal digits),
 * "written_us" (since 1970), "process", "process_start" (0: not known), "host",
 * "document" (all its bytes, as a text)}.  Its name is the hash of the path and a number
 * that nobody else comes upon.  What is not such a file is told in a warning, with the
 * file as its place, and left alone.
 *
 * When to write and to ask is the session's business; the words for it, too.
 */
#ifndef PLYLOFT_RECOVERY_H
#define PLYLOFT_RECOVERY_H

#include "plyloft/problems.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* ---- kept by a session ---- */

/* What one session keeps of one part; all zeros: nothing. */
struct pl_recovery {
    char *file;
};

/* Keeps the document's bytes, up to their NUL, in place of what was kept before.  part_path may be NULL or "-" for a
 * part without a file, and may change from call to call; base_hash is that of the file's stamp (file.h).  On failure
 * what was kept before is still there, and a problem says why.  PL_BAD_INPUT: above about 14 MB, as a text of JSON
 * too large to be read again. */
enum pl_status pl_recovery_write(struct pl_recovery *kept, const char *part_path, uint64_t base_hash, const char *bytes,
                                 struct pl_problems *problems);

/* Takes it away: the work is saved, or the person leaves without saving.  Fine when there is nothing. */
enum pl_status pl_recovery_discard(struct pl_recovery *kept, struct pl_problems *problems);

/* Frees kept; its file stays, to be found. */
void pl_recovery_leave(struct pl_recovery *kept);

/* ---- found by a later one ---- */

struct pl_recovered {
    char *file;         /* its own; NULL: nothing was found */
    char *part_path;    /* as in the file, neither safe to print nor surely UTF-8 where the name was not; may be NULL */
    char *bytes;        /* the document's, NUL-terminated */
    size_t length;
    uint64_t base_hash;
    long long written_us;
    long process;
    bool at_work;       /* that process is another one than ours, on this machine, and runs */
    bool part_changed;  /* the part's file is no longer what the edits began from, or cannot be read */
};

struct pl_recovered_list {
    struct pl_recovered *items; /* newest first */
    size_t count;
};

/* The newest recovery of a part whose session no longer runs and whose bytes are not those of the part's file.
 * *at_work, which may be NULL, is another process that keeps unsaved work on this part, or 0.  A recovery that says
 * the same as the part's file, of a session that no longer runs, is of no use and removed. */
enum pl_status pl_recovery_find(const char *part_path, struct pl_recovered *found, long *at_work,
                                struct pl_problems *problems);

/* All there are, those of sessions at work too, without their bytes: to be asked for with pl_recovery_read. */
enum pl_status pl_recovery_list(struct pl_recovered_list *list, struct pl_problems *problems);
enum pl_status pl_recovery_read(const char *file, struct pl_recovered *found, struct pl_problems *problems);

/* Removes the file of a recovery that was found. */
enum pl_status pl_recovery_dismiss(const char *file, struct pl_problems *problems);

void pl_recovered_free(struct pl_recovered *found);
void pl_recovered_list_free(struct pl_recovered_list *list);

#endif
