/* support.h - what test programs of every room share.
 *
 * Numbers are compared in double and printed when they differ; files and folders are made
 * under the system's temporary folder.  A helper that cannot do its work fails the test.
 */
#ifndef PLYLOFT_TESTS_SUPPORT_H
#define PLYLOFT_TESTS_SUPPORT_H

#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <setjmp.h>

#include <cmocka.h>

/* |got - want| at most relative x |want|; a want of 0 must be met exactly, and NAN never is. */
#define assert_close(got, want, relative) check_close((got), (want), (relative), #got, __FILE__, __LINE__)

void check_close(double got, double want, double relative, const char *what, const char *file, int line);

/* The file's bytes with a NUL behind them; freed by the caller.  length may be NULL. */
char *read_whole_file(const char *path, size_t *length);
void write_whole_file(const char *path, const char *bytes, size_t length);

/* A new empty folder; its path is freed by remove_folder, which takes all it holds along. */
char *make_folder(void);
void remove_folder(char *path);

/* Names in the folder, "." and ".." left out. */
size_t count_in_folder(const char *path);

#endif
