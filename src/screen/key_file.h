/* key_file.h - a person's own keys, in a file that the program writes and reads.
 *
 * "keys" in the configuration folder (places.h), UTF-8, one action a line: its name, then
 * up to four keys as `plyloft screen --keys` spells them, or none.  A line that begins
 * with # is a remark.  An action that no line names keeps its usual keys, but for those
 * that a line gives to another.  The bench reads it when it starts; `plyloft screen` does
 * not, so that a script means the same everywhere.
 */
#ifndef PLYLOFT_KEY_FILE_H
#define PLYLOFT_KEY_FILE_H

#include "actions.h"

#include "plyloft/problems.h"

#include <stdbool.h>

/* The lines of text over the usual keys.  What is wrong in a line goes into problems, whose place is the line, and
 * the line is left out. */
void pl_key_file_take(struct pl_keymap *map, const char *text, struct pl_problems *problems);

/* The person's own file, if there is one; map has the usual keys else. */
void pl_key_file_read(struct pl_keymap *map, struct pl_problems *problems);

/* The file as it is written first: every action with its usual keys, as remarks.  Freed by the caller, NULL without
 * memory. */
char *pl_key_file_text(void);

/* Writes that file unless there is one: *written says which.  *path, freed by the caller, is where it stands, NULL
 * on failure. */
enum pl_status pl_key_file_write(char **path, bool *written, struct pl_problems *problems);

#endif
