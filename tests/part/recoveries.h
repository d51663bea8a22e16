/* recoveries.h - unsaved work kept and found in tests, by this process and by others; what goes wrong here fails
 * the test.
 *
 * Each test has a part, "wing.json", in its folder.
 */
#ifndef PLYLOFT_TESTS_RECOVERIES_H
#define PLYLOFT_TESTS_RECOVERIES_H

#include "keeping.h"

#include "plyloft/recovery.h"

#include <signal.h>
#include <sys/wait.h>

static const char saved[] = "{\"plies\": 4}\n";

/* Everything that a text of JSON has to escape, and what must not reach a terminal. */
static const char edited[] = "\r\n{\t\"plies\": 5, \"n\\u00f6te\\\"\": \"a\\\\b \xe2\x80\xae \xc2\x85 \xf3\xa0\x80\x81 "
                             "\xf0\x9f\x9b\xa0 \x7f\"}  \n\n";

static inline uint64_t hash(const char *text)
{
    return pl_file_hash(text, strlen(text));
}

static inline int make_part(void **state)
{
    make_home(state);
    put("wing.json", saved);
    return 0;
}

#define WITH_A_PART(name) cmocka_unit_test_setup_teardown(name, make_part, unmake_home)

static inline enum pl_status keep(struct pl_recovery *kept, const char *name, const char *bytes)
{
    struct pl_problems problems = {0};
    enum pl_status status = pl_recovery_write(kept, name ? in_folder(name) : NULL, hash(saved), bytes, &problems);
    assert_int_equal(problems.count, 0);
    return status;
}

static inline size_t count_kept(void)
{
    return is_there("state/plyloft/recovery") ? count_in_folder(in_folder("state/plyloft/recovery")) : 0;
}

static inline struct pl_recovered find(const char *name)
{
    struct pl_problems problems = {0};
    struct pl_recovered found;
    assert_int_equal(pl_recovery_find(in_folder(name), &found, NULL, &problems), PL_OK);
    assert_int_equal(problems.count, 0);
    return found;
}

static inline void assert_found(const char *name, const char *bytes)
{
    struct pl_recovered found = find(name);
    assert_non_null(found.file);
    assert_int_equal(found.length, strlen(bytes));
    assert_string_equal(found.bytes, bytes);
    pl_recovered_free(&found);
}

static inline void assert_nothing_found(const char *name)
{
    struct pl_recovered found = find(name);
    assert_null(found.file);
}

/* A session in a process of its own: it keeps bytes, and ends, or goes on until it is killed. */
static inline pid_t other_session(const char *name, const char *bytes, bool goes_on)
{
    int ready[2];
    char told;
    assert_int_equal(pipe(ready), 0);
    pid_t child = fork();
    assert_true(child >= 0);
    if (!child) {
        struct pl_problems problems = {0};
        struct pl_recovery kept = {0};
        close(ready[0]);
        if (pl_recovery_write(&kept, in_folder(name), hash(saved), bytes, &problems) != PL_OK)
            _exit(1);
        pl_recovery_leave(&kept);
        if (write(ready[1], "!", 1) == 1 && goes_on)
            pause();
        _exit(0);
    }
    close(ready[1]);
    assert_int_equal(read(ready[0], &told, 1), 1);
    close(ready[0]);
    if (!goes_on)
        assert_int_equal(waitpid(child, NULL, 0), child);
    return child;
}

static inline void end_session(pid_t child)
{
    kill(child, SIGKILL);
    assert_int_equal(waitpid(child, NULL, 0), child);
}

#endif
