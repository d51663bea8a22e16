/* pseudo.h - a program on a pseudo-terminal, for tests of what goes over the wire.
 *
 * start() runs a function in a child whose terminal the test holds the other end of; what the child
 * says about itself comes line by line through a pipe of its own, what it sends the terminal gathers in
 * `output`.  A child that says nothing for ten seconds fails the test.
 */
#ifndef PLYLOFT_TESTS_PSEUDO_H
#define PLYLOFT_TESTS_PSEUDO_H

#include "../support.h"

#include "plyloft/buffer.h"
#include "plyloft/terminal.h"

#include <locale.h>
#include <poll.h>
#include <pty.h>
#include <signal.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <sys/wait.h>
#include <termios.h>
#include <time.h>
#include <unistd.h>

/* What the child finds when it starts; NULL takes a variable away. */
struct surroundings {
    const char *term, *no_color, *locale, *escdelay;
    int rows, columns;
};

struct pseudo {
    pid_t child;
    int master, reports;
    struct termios found;      /* modes before the child touched them */
    struct pl_buffer output;   /* all the terminal was sent */
    char line[4096];           /* the last report */
};

static inline void set_variable(const char *name, const char *value)
{
    if (value)
        setenv(name, value, 1);
    else
        unsetenv(name);
}

static inline void be_child(const struct surroundings *s, int go, int report_end, void (*body)(FILE *report))
{
    char byte;
    set_variable("TERM", s->term);
    set_variable("NO_COLOR", s->no_color);
    set_variable("ESCDELAY", s->escdelay);
    set_variable("LINES", NULL);
    set_variable("COLUMNS", NULL);
    if (!setlocale(LC_ALL, s->locale ? s->locale : "C.UTF-8") && !s->locale)
        setlocale(LC_ALL, "en_US.UTF-8");
    FILE *report = fdopen(report_end, "w");
    if (!report || read(go, &byte, 1) != 1)
        _exit(9);
    setvbuf(report, NULL, _IOLBF, 0);
    body(report);
    fclose(report);
    _exit(0);
}

static inline void start(struct pseudo *p, const struct surroundings *s, void (*body)(FILE *report))
{
    int report_pipe[2], go[2];
    struct winsize w = {.ws_row = (unsigned short)(s->rows ? s->rows : 24),
                        .ws_col = (unsigned short)(s->columns ? s->columns : 80)};
    *p = (struct pseudo){0};
    assert_int_equal(pipe(report_pipe), 0);
    assert_int_equal(pipe(go), 0);
    p->child = forkpty(&p->master, NULL, NULL, &w);
    assert_true(p->child >= 0);
    if (p->child == 0) {
        close(report_pipe[0]);
        close(go[1]);
        be_child(s, go[0], report_pipe[1], body);
    }
    close(report_pipe[1]);
    close(go[0]);
    p->reports = report_pipe[0];
    assert_int_equal(tcgetattr(p->master, &p->found), 0);
    assert_int_equal(write(go[1], "g", 1), 1);
    close(go[1]);
}

/* Takes in what the terminal was sent; false when the other side has closed it. */
static inline bool take_output(struct pseudo *p)
{
    char bytes[4096];
    ssize_t n = read(p->master, bytes, sizeof bytes);
    if (n > 0)
        pl_buffer_add(&p->output, bytes, (size_t)n);
    return n > 0;
}

/* The next report; NULL when the child has closed its pipe.  Takes in output meanwhile. */
static inline const char *report(struct pseudo *p)
{
    size_t n = 0;
    bool open = p->master >= 0;
    for (;;) {
        struct pollfd fds[2] = {{.fd = p->reports, .events = POLLIN}, {.fd = open ? p->master : -1, .events = POLLIN}};
        if (poll(fds, 2, 10000) <= 0)
            fail_msg("the child says nothing after \"%s\"", p->line);
        if (fds[1].revents)
            open = take_output(p);
        if (!fds[0].revents)
            continue;
        if (read(p->reports, p->line + n, 1) != 1)
            return NULL;
        if (p->line[n] == '\n') {
            p->line[n] = '\0';
            return p->line;
        }
        if (++n == sizeof p->line)
            fail_msg("the report is too long");
    }
}

static inline void assert_reports(struct pseudo *p, const char *want)
{
    const char *got = report(p);
    assert_string_equal(got ? got : "(the end)", want);
}

static inline void type(struct pseudo *p, const char *bytes)
{
    assert_int_equal(write(p->master, bytes, strlen(bytes)), strlen(bytes));
}

static inline bool same_modes(const struct termios *a, const struct termios *b)
{
    return a->c_iflag == b->c_iflag && a->c_oflag == b->c_oflag && a->c_lflag == b->c_lflag &&
           memcmp(a->c_cc, b->c_cc, sizeof a->c_cc) == 0;
}

/* Waits for the child's end and gives its status; the reports left are not looked at. */
static inline int finish(struct pseudo *p)
{
    int status = 0;
    while (report(p)) {
    }
    /* The child may be held in closing its terminal until what it sent is taken. */
    for (int tries = 0; waitpid(p->child, &status, WNOHANG) == 0; tries++) {
        struct pollfd fd = {.fd = p->master, .events = POLLIN};
        if (poll(&fd, 1, 10) > 0 && !take_output(p))
            usleep(10000);
        if (tries > 1000)
            fail_msg("the child does not end");
    }
    if (p->master >= 0) {
        struct pollfd fd = {.fd = p->master, .events = POLLIN};
        while (poll(&fd, 1, 0) > 0 && take_output(p)) {
        }
    }
    close(p->reports);
    return status;
}

static inline void forget(struct pseudo *p)
{
    if (p->master >= 0)
        close(p->master);
    pl_buffer_free(&p->output);
}

static inline const char *output_of(const struct pseudo *p)
{
    return p->output.text ? p->output.text : "";
}

static inline void say_whether_described(FILE *out)
{
    struct pl_problems problems = {0};
    enum pl_status status = pl_terminal_open(&(struct pl_terminal_options){0}, &problems);
    bool missing = status != PL_OK && strstr(pl_problems_first_error(&problems)->rule, "no description");
    fprintf(out, missing ? "missing\n" : "described\n");
    pl_problems_free(&problems);
}

/* Systems differ in the descriptions of terminals they install; says so when one is missing. */
static inline bool is_described(const char *term)
{
    struct pseudo p;
    start(&p, &(struct surroundings){.term = term}, say_whether_described);
    const char *said = report(&p);
    bool described = said && !strcmp(said, "described");
    finish(&p);
    forget(&p);
    if (!described)
        print_message("left out: there is no description of %s here\n", term);
    return described;
}

static inline double seconds(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

#endif
