/* keeping.h - a home of its own for each test of what is kept beside part files.
 *
 * HOME and the XDG folders lie in a new folder, which the test's end takes away.  System
 * calls and memory fail when a test wants them to.
 */
#ifndef PLYLOFT_TESTS_KEEPING_H
#define PLYLOFT_TESTS_KEEPING_H

#include "../support.h"

#include "../../src/part/file_calls.h"
#include "../../src/part/json.h"

#include "plyloft/problems.h"

#include <errno.h>
#include <fcntl.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static char *folder;

/* name in the folder; valid until the eighth call after. */
static inline char *in_folder(const char *name)
{
    static char paths[8][700];
    static unsigned next;
    char *path = paths[next++ % 8];
    snprintf(path, sizeof paths[0], "%s/%s", folder, name);
    return path;
}

/* The folder's own path is free of links, so that paths that were followed begin with it. */
static inline int make_home(void **state)
{
    (void)state;
    char *made = make_folder();
    folder = realpath(made, NULL);
    assert_non_null(folder);
    free(made);
    setenv("HOME", in_folder("home"), 1);
    setenv("XDG_STATE_HOME", in_folder("state"), 1);
    setenv("XDG_DATA_HOME", in_folder("data"), 1);
    setenv("XDG_CONFIG_HOME", in_folder("config"), 1);
    return 0;
}

static inline int unmake_home(void **state)
{
    (void)state;
    remove_folder(folder);
    return 0;
}

static inline void put(const char *name, const char *text)
{
    write_whole_file(in_folder(name), text, strlen(text));
}

static inline void assert_file(const char *name, const char *want)
{
    char *bytes = read_whole_file(in_folder(name), NULL);
    assert_string_equal(bytes, want);
    free(bytes);
}

static inline bool is_there(const char *name)
{
    return access(in_folder(name), F_OK) == 0;
}

/* One problem, at a place; its rule and what was found. */
static inline void assert_problem(struct pl_problems *problems, enum pl_severity severity, const char *place,
                                  const char *rule, const char *found)
{
    assert_int_equal(problems->count, 1);
    assert_string_equal(problems->list[0].place, place);
    assert_string_equal(problems->list[0].rule, rule);
    assert_string_equal(problems->list[0].found, found);
    assert_int_equal(problems->list[0].severity, severity);
    pl_problems_free(problems);
}

/* ---- calls that fail, through src/part/file_calls.h ---- */

enum call { OPEN, WRITE, FSYNC, CLOSE, RENAME, NO_CALL };

static struct {
    enum call call;
    int nth, error, seen;
} fault;

static inline bool call_fails(enum call call)
{
    if (call != fault.call || ++fault.seen != fault.nth)
        return false;
    errno = fault.error;
    return true;
}

static inline int faulty_open(const char *path, int flags, mode_t mode)
{
    return call_fails(OPEN) ? -1 : open(path, flags, mode);
}

/* A few bytes at a time, so that there are several writes to fail. */
static inline ssize_t faulty_write(int fd, const void *from, size_t size)
{
    return call_fails(WRITE) ? -1 : write(fd, from, size < 40 ? size : 40);
}

static inline int faulty_fsync(int fd)
{
    return call_fails(FSYNC) ? -1 : fsync(fd);
}

static inline int faulty_close(int fd)
{
    bool failing = call_fails(CLOSE);
    int result = close(fd);
    errno = failing ? fault.error : errno;
    return failing ? -1 : result;
}

static inline int faulty_rename(const char *from, const char *to)
{
    return call_fails(RENAME) ? -1 : rename(from, to);
}

static const struct pl_file_calls faulty = {faulty_open,  read,         faulty_write,
                                            faulty_fsync, faulty_close, faulty_rename};

static inline void set_fault(enum call call, int nth, int error)
{
    fault.call = call;
    fault.nth = nth;
    fault.error = error;
    fault.seen = 0;
}

/* Every way in which a save comes to nothing. */
static const struct {
    enum call call;
    int nth, error;
    const char *sentence;
} failures[] = {
    {OPEN, 1, EMFILE, "its folder cannot be opened: Too many open files"},
    {OPEN, 2, ENOSPC, "no new file can be made in its folder: No space left on device"},
    {WRITE, 1, ENOSPC, "cannot be saved: No space left on device"},
    {WRITE, 3, ENOSPC, "cannot be saved: No space left on device"},
    {FSYNC, 1, EIO, "cannot be saved: Input/output error"},
    {CLOSE, 1, EDQUOT, "cannot be saved: Disk quota exceeded"},
    {RENAME, 1, EROFS, "cannot be saved: Read-only file system"},
};

enum { N_FAILURES = sizeof failures / sizeof *failures };

/* ---- memory that runs out: src/part takes all of its own from here ---- */

static size_t allocations, failing_allocation; /* failing_allocation 0: none fails */

void *pl_part_memory(void *old, size_t size)
{
    return ++allocations == failing_allocation ? NULL : realloc(old, size);
}

static inline void fail_allocation(size_t n)
{
    allocations = 0;
    failing_allocation = n;
}

#define IN_A_HOME(name) cmocka_unit_test_setup_teardown(name, make_home, unmake_home)

#endif
