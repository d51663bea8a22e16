/* file.h - reading and saving a part file, whole or not at all.
 *
 * Saving writes a new file beside the old one, syncs it, and renames it over; a symbolic
 * link is followed, so the link stays and its target is replaced; permissions are kept.
 * Whatever fails, the old file is whole and no new one is left behind.
 *
 * Only a program killed in the middle of a save leaves its new file behind, as
 * ".plyloft-" and 16 hexadecimal digits.  The next save in that folder takes such files
 * away when they are this user's and an hour older than what it saved: no save lasts that
 * long, so none that is still under way loses its file.
 *
 * A stamp remembers what a file was, so that a change by another program is noticed.
 */
#ifndef PLYLOFT_FILE_H
#define PLYLOFT_FILE_H

#include "plyloft/problems.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* Reads path, or standard input for "-", into *bytes (freed by the caller; NUL-terminated).  Only regular
 * files of at most 16 MB are read, never blocking on a fifo or a device; standard input may be a pipe. */
enum pl_status pl_file_read(const char *path, char **bytes, size_t *length, struct pl_problems *problems);

enum pl_status pl_file_save(const char *path, const char *bytes, size_t length, struct pl_problems *problems);

/* What a file was when it was read or saved; all zeros: there was none. */
struct pl_file_stamp {
    bool exists;
    uint64_t device, inode, size;
    int64_t modified_ns, looked_ns; /* its own time, and ours when we looked */
    uint64_t hash;                  /* of its bytes, of standard input too */
};

/* The same, and set *stamp.  A save sets it once the file is in place, even if its folder then cannot be synced;
 * after any other failure it is as before. */
enum pl_status pl_file_read_stamped(const char *path, char **bytes, size_t *length, struct pl_file_stamp *stamp,
                                    struct pl_problems *problems);
enum pl_status pl_file_save_stamped(const char *path, const char *bytes, size_t length, struct pl_file_stamp *stamp,
                                    struct pl_problems *problems);

enum pl_file_change { PL_FILE_AS_IT_WAS, PL_FILE_CHANGED, PL_FILE_GONE };

/* Looks at the file again.  Its bytes alone decide: a file touched, or replaced by a copy, is as it was, and the
 * stamp then takes its new place and time.  They are read only when something else differs, or when the file was
 * so young at the last look that its time need not show a later change.  What can no longer be read has changed;
 * standard input never does. */
enum pl_file_change pl_file_look(const char *path, struct pl_file_stamp *stamp);

/* A hash to tell texts apart that were not made to deceive. */
uint64_t pl_file_hash(const char *bytes, size_t length);

#endif
