/* teller.h - a child on a pseudo-terminal that opens the screen and tells every event, and what a test says to it. */
#ifndef PLYLOFT_TESTS_TELLER_H
#define PLYLOFT_TESTS_TELLER_H

#include "pseudo.h"

#include "plyloft/keys.h"
#include "plyloft/terminal.h"

static const struct surroundings usual = {.term = "xterm"};

/* ---- the child ---- */

static inline bool open_or_say(FILE *out, bool mouse)
{
    struct pl_problems problems = {0};
    enum pl_status status = pl_terminal_open(&(struct pl_terminal_options){.mouse = mouse}, &problems);
    if (status != PL_OK) {
        const struct pl_problem *problem = pl_problems_first_error(&problems);
        char sentence[600];
        pl_problem_sentence(problem, NULL, sentence, sizeof sentence);
        fprintf(out, "refused %d: %s\n", (int)status, sentence);
    }
    pl_problems_free(&problems);
    return status == PL_OK;
}

static inline void paint_words(const char *words)
{
    struct pl_frame f = {0};
    int rows, columns;
    pl_terminal_size(&rows, &columns);
    f.plain = pl_terminal_caps().plain;
    if (!pl_frame_resize(&f, rows, columns))
        _exit(8);
    pl_frame_text(&f, 0, 0, PL_ROLE_TITLE, words);
    for (int role = 0; role < PL_ROLES; role++)
        pl_frame_printf(&f, 2 + role, 1, (enum pl_role)role, "role %d ▸", role);
    pl_terminal_paint(&f);
    pl_frame_free(&f);
}

static inline void say(FILE *out, const struct pl_event *e)
{
    char name[16];
    pl_key_name(e->key, name, sizeof name);
    switch (e->kind) {
    case PL_EVENT_TIMEOUT: fprintf(out, "timeout\n"); break;
    case PL_EVENT_KEY: fprintf(out, "key %s\n", name); break;
    case PL_EVENT_CLICK: fprintf(out, "click %d %d\n", e->row, e->column); break;
    case PL_EVENT_RESIZE: fprintf(out, "size %d %d\n", e->rows, e->columns); break;
    case PL_EVENT_HANGUP: fprintf(out, "hangup\n"); break;
    case PL_EVENT_TERMINATE: fprintf(out, "terminate\n"); break;
    }
}

/* Tells every event until q, hang-up or termination. */
static inline void tell_events(FILE *out, bool mouse)
{
    struct pl_event e;
    if (!open_or_say(out, mouse))
        return;
    paint_words("bench");
    fprintf(out, "ready\n");
    do {
        pl_terminal_wait(&e, -1);
        say(out, &e);
        if (e.kind == PL_EVENT_RESIZE)
            paint_words("resized");
    } while (e.kind != PL_EVENT_HANGUP && e.kind != PL_EVENT_TERMINATE && !(e.kind == PL_EVENT_KEY && e.key == 'q'));
    pl_terminal_close();
    pl_terminal_close();  /* harmless twice */
}

static inline void events(FILE *out)
{
    tell_events(out, false);
}

static inline void events_with_mouse(FILE *out)
{
    tell_events(out, true);
}

/* ---- the test ---- */

static inline void begin(struct pseudo *p, const struct surroundings *s, void (*body)(FILE *))
{
    start(p, s, body);
    assert_reports(p, "ready");
}

static inline void end_with_q(struct pseudo *p)
{
    struct termios after;
    type(p, "q");
    assert_reports(p, "key q");
    assert_int_equal(finish(p), 0);
    assert_int_equal(tcgetattr(p->master, &after), 0);
    assert_true(same_modes(&after, &p->found));
    forget(p);
}

static inline void assert_typed(struct pseudo *p, const char *bytes, const char *key)
{
    char want[32];
    snprintf(want, sizeof want, "key %s", key);
    type(p, bytes);
    assert_reports(p, want);
}

#endif
