/* Rows of a whole run without a screen, and of memory in a long session. */
#include "bench.h"

#include "screen/session.h"

#include <fcntl.h>
#include <math.h>
#include <spawn.h>
#include <stdint.h>
#include <stdio.h>
#include <sys/wait.h>
#include <unistd.h>

#if defined(__GLIBC__) && __GLIBC_PREREQ(2, 33)
#include <malloc.h>
#define HAS_HEAP_IN_USE
#endif

#define COUNT(list) (sizeof(list) / sizeof *(list))

extern char **environ;

/* ---- plyloft check PART --json ---- */

static bool run_check(void *context, struct bench_figure *f)
{
    const char *program = context;
    char check[] = "check", part[] = BENCH_SAMPLE, json[] = "--json", name[] = "plyloft";
    char *const arguments[] = {name, check, part, json, NULL};
    posix_spawn_file_actions_t files;
    pid_t child;
    int status = 0;
    if (posix_spawn_file_actions_init(&files) != 0)
        return false;
    posix_spawn_file_actions_addopen(&files, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
    bool good = posix_spawn(&child, program, &files, NULL, arguments, environ) == 0;
    posix_spawn_file_actions_destroy(&files);
    if (!good || waitpid(child, &status, 0) != child)
        return false;
    if (WIFEXITED(status) && WEXITSTATUS(status) <= 1)
        return true;
    bench_missing(f, "%s check ends with status %d", program, WIFEXITED(status) ? WEXITSTATUS(status) : 128);
    return false;
}

static void whole_check(struct bench_figure *f)
{
    const char *program = bench_program(f);
    if (program)
        bench_time(f, 40, run_check, (void *)(uintptr_t)program);
}

/* ---- memory after many edits ---- */

/* Memory asked for and not given back, where the C library tells: what is resident alone would not show it, since
 * earlier rows leave some to be used again.  NAN elsewhere. */
static double heap_mb(void)
{
#ifdef HAS_HEAP_IN_USE
    struct mallinfo2 m = mallinfo2();
    return (double)(m.uordblks + m.hblkhd) / (1024 * 1024);
#else
    return (double)NAN;
#endif
}

/* Plies of the two caps in turn, so that no edit joins the one before. */
static bool edit(struct pl_session *s, int edits, struct bench_figure *f)
{
    for (int i = 0; i < edits; i++) {
        s->cursors[PL_PAGE_CLOTH][0] = (struct pl_cursor){i & 1 ? 2 : 1, 0};
        pl_session_key(s, i & 2 ? '-' : '+');
        if (!s->valid) {
            bench_missing(f, "after an edit the part could not be judged");
            return false;
        }
    }
    return true;
}

struct state { double resident_mb, own_mb, heap_mb; size_t steps; };

static bool state_of(const struct pl_session *s, struct state *out, struct bench_figure *f)
{
    out->heap_mb = heap_mb();
    out->steps = pl_document_steps(s->document);
    if (bench_resident_mb(getpid(), &out->resident_mb, &out->own_mb))
        return true;
    bench_missing(f, "this system has no /proc that says it");
    return false;
}

static void measure_session(struct pl_session *s, struct bench_figure *f)
{
    enum { WARM_UP = 8, EDITS = 10000 };
    struct state before, after;
    char grown[48] = "";
    if (!edit(s, WARM_UP, f) || !state_of(s, &before, f))
        return;
    double start_ms = bench_now_ms();
    if (!edit(s, EDITS, f) || !state_of(s, &after, f))
        return;
    if (pl_given(after.heap_mb))
        snprintf(grown, sizeof grown, "heap in use grew %.2f MB, ", after.heap_mb - before.heap_mb);
    bench_set(f, after.resident_mb, "MB");
    bench_note(f, "of this process, %.1f before; %s%zu more steps of undo, %.2f ms an edit", before.resident_mb, grown,
               after.steps - before.steps, (bench_now_ms() - start_ms) / EDITS);
}

/* On a short wing of one case: an edit leaves as much behind as in the sample, in a fifth of the time. */
static void memory_after_edits(struct bench_figure *f)
{
    struct pl_session *s = NULL;
    struct pl_problems problems = {0};
    const char *path = bench_part_short(f);
    enum pl_status status = path ? pl_session_open(&s, path, &problems) : PL_CANNOT_READ;
    if (status == PL_OK)
        measure_session(s, f);
    else
        bench_missing_status(f, path, status, &problems);
    pl_session_close(s);
    pl_problems_free(&problems);
}

static const struct bench_row rows[] = {
    {"plyloft check PART --json, the whole process", "-", whole_check},
    {"resident memory after 10,000 edits in a session", "-", memory_after_edits},
};

const struct bench_group bench_process = {"without a screen", rows, COUNT(rows)};
