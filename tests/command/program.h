/* program.h - the built program run by tests, without a shell.
 *
 * PLYLOFT in the environment is the program (build/plyloft when it is not set).  What it prints goes to files that
 * are read when it has ended; one that does not end within a minute is ended, and the test fails.  Standard input
 * is a file, /dev/null when none is named.
 */
#ifndef PLYLOFT_TESTS_PROGRAM_H
#define PLYLOFT_TESTS_PROGRAM_H

#include "../support.h"

#include <fcntl.h>
#include <signal.h>
#include <spawn.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

extern char **environ;

#define SAMPLE_PART "samples/front-wing.json"
#define WEAK_PART "samples/underbuilt.json"
#define WHOLE_PART "tests/part/every-field.json"

struct run {
    int status;
    char *out, *err;
    double seconds;
};

/* A folder for what the test in hand writes, made and taken away by scratch_make and scratch_remove. */
static char *scratch;

static inline int scratch_make(void **state)
{
    (void)state;
    scratch = make_folder();
    return 0;
}

static inline int scratch_remove(void **state)
{
    (void)state;
    remove_folder(scratch);
    scratch = NULL;
    return 0;
}

/* A path in the scratch folder; freed by the caller. */
static inline char *in_scratch(const char *name)
{
    char *path = NULL;
    assert_true(asprintf(&path, "%s/%s", scratch, name) > 0);
    return path;
}

static inline double now_seconds(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static inline int wait_for(pid_t pid, double seconds)
{
    int status = 0;
    for (double end = now_seconds() + seconds; now_seconds() < end;) {
        pid_t ended = waitpid(pid, &status, WNOHANG);
        assert_true(ended >= 0);
        if (ended == pid)
            return status;
        nanosleep(&(struct timespec){0, 1000000}, NULL);
    }
    kill(pid, SIGKILL);
    waitpid(pid, &status, 0);
    fail_msg("the program did not end within %g seconds", seconds);
    return -1;
}

/* Runs the program with words (NULL ends them); stdin_path may be NULL, stdout_path too. */
static inline struct run run_with(const char *stdin_path, const char *stdout_path, const char *const *words)
{
    const char *program = getenv("PLYLOFT") ? getenv("PLYLOFT") : "build/plyloft", *arguments[32] = {program};
    char *folder = make_folder(), *out = NULL, *err = NULL;
    posix_spawn_file_actions_t files;
    pid_t pid;
    for (int i = 0; words[i]; i++) {
        assert_in_range(i, 0, 29);
        arguments[i + 1] = words[i];
    }
    assert_true(asprintf(&out, "%s/out", folder) > 0 && asprintf(&err, "%s/err", folder) > 0);
    write_whole_file(out, "", 0);
    assert_int_equal(posix_spawn_file_actions_init(&files), 0);
    posix_spawn_file_actions_addopen(&files, 0, stdin_path ? stdin_path : "/dev/null", O_RDONLY, 0);
    posix_spawn_file_actions_addopen(&files, 1, stdout_path ? stdout_path : out, O_WRONLY | O_TRUNC, 0);
    posix_spawn_file_actions_addopen(&files, 2, err, O_WRONLY | O_CREAT | O_TRUNC, 0600);
    double start = now_seconds();
    if (posix_spawn(&pid, program, &files, NULL, (char *const *)(uintptr_t)arguments, environ))
        fail_msg("%s cannot be run", program);
    int status = wait_for(pid, 60);
    struct run run = {
        .seconds = now_seconds() - start, .out = read_whole_file(out, NULL), .err = read_whole_file(err, NULL)};
    if (!WIFEXITED(status))
        fail_msg("the program was ended by signal %d: %s", WTERMSIG(status), run.err);
    run.status = WEXITSTATUS(status);
    posix_spawn_file_actions_destroy(&files);
    free(out);
    free(err);
    remove_folder(folder);
    return run;
}

#define RUN(...) run_with(NULL, NULL, (const char *const[]){__VA_ARGS__, NULL})
#define RUN_ON(stdin_path, ...) run_with(stdin_path, NULL, (const char *const[]){__VA_ARGS__, NULL})

static inline void run_free(struct run *run)
{
    free(run->out);
    free(run->err);
    *run = (struct run){0};
}

static inline void check_status(const struct run *run, int want, const char *file, int line)
{
    if (run->status == want)
        return;
    print_error("exit status %d, not %d\n%s%s", run->status, want, run->err, run->out);
    _fail(file, line);
}

static inline void check_has(const char *text, const char *words, bool want, const char *file, int line)
{
    if (!strstr(text, words) == !want)
        return;
    print_error("\"%s\" is %s in:\n%s", words, want ? "not" : "", text);
    _fail(file, line);
}

#define assert_status(run, want) check_status(run, want, __FILE__, __LINE__)
#define assert_has(text, words) check_has(text, words, true, __FILE__, __LINE__)
#define assert_has_not(text, words) check_has(text, words, false, __FILE__, __LINE__)

#endif
