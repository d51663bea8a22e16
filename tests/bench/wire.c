/* The program on a pseudo-terminal, its far end held here. */
#include "bench.h"

#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <sys/wait.h>
#include <unistd.h>

#if defined(__linux__)
#include <pty.h>
#else
#include <util.h>
#endif

/* Surroundings that do not depend on who runs this: dots and colours, and nothing kept from a run before, which
 * would make it ask. */
static void be_program(const char *program, const char *part, int run)
{
    char state[640], name[32];
    snprintf(name, sizeof name, "state-%d", run);
    bench_folder_path(state, sizeof state, name);
    setenv("TERM", "xterm-256color", 1);
    setenv("LC_ALL", "C.UTF-8", 1);
    setenv("XDG_STATE_HOME", state, 1);
    unsetenv("NO_COLOR");
    unsetenv("LINES");
    unsetenv("COLUMNS");
    execl(program, program, part, (char *)NULL);
    _exit(127);
}

bool bench_wire_start(struct bench_wire *w, const char *part, struct bench_figure *f)
{
    static int runs;
    const char *program = bench_program(f);
    struct winsize size = {.ws_row = BENCH_ROWS, .ws_col = BENCH_COLUMNS};
    *w = (struct bench_wire){.child = -1, .master = -1};
    if (!program)
        return false;
    runs++;
    w->started_ms = w->last_ms = bench_now_ms();
    w->child = forkpty(&w->master, NULL, NULL, &size);
    if (w->child == 0)
        be_program(program, part, runs);
    if (w->child < 0)
        bench_missing(f, "no pseudo-terminal is to be had");
    return w->child > 0;
}

/* False when nothing came in time, or the other end is closed. */
static bool take(struct bench_wire *w, int wait_ms)
{
    char bytes[8192];
    struct pollfd fd = {.fd = w->master, .events = POLLIN};
    if (poll(&fd, 1, wait_ms) <= 0)
        return false;
    ssize_t n = read(w->master, bytes, sizeof bytes);
    if (n <= 0)
        return false;
    w->last_ms = bench_now_ms();
    pl_buffer_add(&w->output, bytes, (size_t)n);
    return true;
}

bool bench_wire_gather(struct bench_wire *w, int wait_ms, int quiet_ms, struct bench_figure *f)
{
    pl_buffer_clear(&w->output);
    while (take(w, w->output.length ? quiet_ms : wait_ms) && !w->output.failed) {
    }
    if (w->output.failed)
        bench_missing(f, "not enough memory");
    else if (!w->output.length)
        bench_missing(f, "the program wrote nothing for %d ms", wait_ms);
    return !w->output.failed && w->output.length;
}

bool bench_wire_type(struct bench_wire *w, const char *keys, struct bench_figure *f)
{
    size_t length = strlen(keys);
    w->typed_ms = bench_now_ms();
    if (write(w->master, keys, length) == (ssize_t)length)
        return true;
    bench_missing(f, "the program's terminal takes no keys");
    return false;
}

/* "q", and "d" in case it asks because something is changed; Escape ahead leaves whatever is open. */
void bench_wire_end(struct bench_wire *w)
{
    enum { TRIES = 100, TRY_MS = 10 };
    int status;
    struct bench_figure nobody_reads = {.unit = ""};
    pl_buffer_clear(&w->output);
    if (w->child > 0) {
        bench_wire_type(w, "\033", &nobody_reads);
        while (take(w, 5 * TRY_MS)) {
        }
        bench_wire_type(w, "qd", &nobody_reads);
        pid_t ended = 0;
        for (int i = 0; i < TRIES && ended == 0; i++) {
            if (!take(w, TRY_MS))
                poll(NULL, 0, 1);
            ended = waitpid(w->child, &status, WNOHANG);
        }
        if (ended == 0 && kill(w->child, SIGKILL) == 0)
            waitpid(w->child, &status, 0);
    }
    if (w->master >= 0)
        close(w->master);
    pl_buffer_free(&w->output);
}
