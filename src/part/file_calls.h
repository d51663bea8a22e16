/* file_calls.h - the system calls that reading and saving rest on; private to src/part.
 *
 * They stand in a table so that a test can hand in one in which some call fails, is
 * interrupted or does only part of its work.  The library itself uses pl_file_calls.
 */
#ifndef PLYLOFT_PART_FILE_CALLS_H
#define PLYLOFT_PART_FILE_CALLS_H

#include "plyloft/file.h"

#include <sys/types.h>

struct pl_file_calls {
    int (*open)(const char *path, int flags, mode_t mode);
    ssize_t (*read)(int fd, void *to, size_t size);
    ssize_t (*write)(int fd, const void *from, size_t size);
    int (*fsync)(int fd);
    int (*close)(int fd);
    int (*rename)(const char *from, const char *to);
};

extern const struct pl_file_calls pl_file_calls;

/* pl_file_read and pl_file_save by these calls. */
enum pl_status pl_file_read_by(const struct pl_file_calls *calls, const char *path, char **bytes, size_t *length,
                               struct pl_problems *problems);
enum pl_status pl_file_save_by(const struct pl_file_calls *calls, const char *path, const char *bytes, size_t length,
                               struct pl_problems *problems);

/* ---- shared by file.c and file_save.c ---- */

/* Adds "what: the system's sentence for error", without the colon when error is 0; gives status back. */
enum pl_status pl_file_failed(struct pl_problems *problems, enum pl_status status, const char *what, int error);

/* As open, closed on exec, and tried again when interrupted. */
int pl_file_open(const struct pl_file_calls *calls, const char *path, int flags, mode_t mode);

/* "is a directory", "is a fifo" ...; NULL for a regular file. */
const char *pl_file_kind(mode_t mode);

#endif
