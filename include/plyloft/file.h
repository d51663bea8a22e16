/* file.h - reading and saving a part file, whole or not at all.
 *
 * Saving writes a new file beside the old one, syncs it, and renames it over; a symbolic
 * link is followed, so the link stays and its target is replaced; permissions are kept.
 * Whatever fails, the old file is whole and no new one is left behind.
 */
#ifndef PLYLOFT_FILE_H
#define PLYLOFT_FILE_H

#include "plyloft/problems.h"

#include <stddef.h>

/* Reads path, or standard input for "-", into *bytes (freed by the caller; NUL-terminated).  Only regular
 * files of at most 16 MB are read, never blocking on a fifo or a device; standard input may be a pipe. */
enum pl_status pl_file_read(const char *path, char **bytes, size_t *length, struct pl_problems *problems);

enum pl_status pl_file_save(const char *path, const char *bytes, size_t length, struct pl_problems *problems);

#endif
