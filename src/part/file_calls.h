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

/* pl_file_read and pl_file_save by these calls; with a stamp, which may be NULL, and without. */
enum pl_status pl_file_read_stamped_by(const struct pl_file_calls *calls, const char *path, char **bytes,
                                       size_t *length, struct pl_file_stamp *stamp, struct pl_problems *problems);
enum pl_status pl_file_save_stamped_by(const struct pl_file_calls *calls, const char *path, const char *bytes,
                                       size_t length, struct pl_file_stamp *stamp, struct pl_problems *problems);
enum pl_status pl_file_read_by(const struct pl_file_calls *calls, const char *path, char **bytes, size_t *length,
                               struct pl_problems *problems);
enum pl_status pl_file_save_by(const struct pl_file_calls *calls, const char *path, const char *bytes, size_t length,
                               struct pl_problems *problems);

/* ---- shared by what reads and saves ---- */

/* Adds "what: the system's sentence for error", without the colon when error is 0; gives status back. */
enum pl_status pl_file_failed(struct pl_problems *problems, enum pl_status status, const char *what, int error);

/* As open, closed on exec, and tried again when interrupted. */
int pl_file_open(const struct pl_file_calls *calls, const char *path, int flags, mode_t mode);

/* "is a directory", "is a fifo" ...; NULL for a regular file. */
const char *pl_file_kind(mode_t mode);

struct stat;

/* The stamp of a file that holds these bytes. */
void pl_file_stamp_set(struct pl_file_stamp *stamp, const struct stat *about, const char *bytes, size_t length);

/* A number that no other process comes upon. */
unsigned long long pl_file_any_number(void);

/* Tells the first problem of a list of its own in one sentence about file, which begins with what; frees the list. */
void pl_file_tell(struct pl_problems *problems, enum pl_severity severity, const char *file, const char *what,
                  struct pl_problems *own);

/* ---- what is kept beside part files, by these calls (recovery.h, recent.h) ---- */

struct pl_recovery;

enum pl_status pl_recovery_write_by(const struct pl_file_calls *calls, struct pl_recovery *kept, const char *part_path,
                                    uint64_t base_hash, const char *bytes, struct pl_problems *problems);
enum pl_status pl_recent_add_by(const struct pl_file_calls *calls, const char *part_path,
                                struct pl_problems *problems);

#endif
