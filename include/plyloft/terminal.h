/* terminal.h - the terminal: frames go out, keys and signals come in as events.
 *
 * Puts a frame on the terminal and waits for what happens next.  Decides what the
 * terminal can show: UTF-8 or ASCII by the locale (main calls setlocale), colours or
 * none by the terminal's description and NO_COLOR.  Its source is the only one that
 * knows curses.  One terminal a process: standard input and output.  Knows no page.
 *
 * While it is open SIGINT, SIGTERM, SIGQUIT, SIGHUP, SIGWINCH, SIGTSTP and SIGCONT become
 * events; the terminal is put back by pl_terminal_close, at exit, on stop, and in a crash.
 */
#ifndef PLYLOFT_TERMINAL_H
#define PLYLOFT_TERMINAL_H

#include "plyloft/frame.h"
#include "plyloft/problems.h"

struct pl_terminal_options {
    bool plain;  /* ASCII even where UTF-8 would do */
    bool mouse;  /* clicks become events; off unless asked for, since it takes marking text away */
};

/* What frames should reckon with. */
struct pl_terminal_caps {
    bool plain;   /* give frames this */
    bool colour;
    bool mouse;
};

enum pl_event_kind {
    PL_EVENT_TIMEOUT,
    PL_EVENT_KEY,       /* key: code of keys.h */
    PL_EVENT_CLICK,     /* row, column */
    PL_EVENT_RESIZE,    /* rows, columns; also after a stop: paint again whatever the size */
    PL_EVENT_HANGUP,    /* SIGHUP, or the terminal is gone; then every wait says so */
    PL_EVENT_TERMINATE
};

struct pl_event {
    enum pl_event_kind kind;
    int key;
    int row, column;
    int rows, columns;
};

/* Takes the terminal over; nothing is shown before the first paint.  On failure nothing is left changed and
 * problems says why in a sentence: PL_CANNOT_READ (standard input is no terminal), PL_CANNOT_WRITE (nor is
 * standard output, or TERM is of no use) or PL_NO_MEMORY. */
enum pl_status pl_terminal_open(const struct pl_terminal_options *options, struct pl_problems *problems);

/* Puts the terminal back as it was found.  Harmless when not open. */
void pl_terminal_close(void);

struct pl_terminal_caps pl_terminal_caps(void);
void pl_terminal_mouse(bool on);
void pl_terminal_size(int *rows, int *columns);

/* Shows f; writes only cells that differ from the frame before, all at once. */
void pl_terminal_paint(const struct pl_frame *f);

/* Waits for the next event, at most timeout_ms (-1: for ever; 0: not at all). */
void pl_terminal_wait(struct pl_event *event, int timeout_ms);

#endif
