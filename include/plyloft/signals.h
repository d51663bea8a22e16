/* signals.h - signals turned into bytes in a pipe.
 *
 * A handler only writes a byte; the loop waits for the pipe beside the keyboard and
 * acts when nothing else is half done.  What was ignored when the program was started
 * stays ignored (SIGHUP under nohup, SIGTSTP without job control).
 * One for the whole process, as signals are.  Part of the screen; knows no terminal.
 */
#ifndef PLYLOFT_SIGNALS_H
#define PLYLOFT_SIGNALS_H

#include <stdbool.h>

enum {
    PL_SIGNAL_INTERRUPT = 1,  /* SIGINT */
    PL_SIGNAL_TERMINATE = 2,  /* SIGTERM, SIGQUIT */
    PL_SIGNAL_HANGUP = 4,
    PL_SIGNAL_RESIZE = 8,     /* SIGWINCH */
    PL_SIGNAL_STOP = 16,      /* SIGTSTP: call pl_signals_stop once the terminal is put back */
    PL_SIGNAL_CONTINUE = 32   /* SIGCONT */
};

/* at_crash is called, inside a handler, before a crash (SIGSEGV, SIGABRT and the like) takes its course.
 * False when there is no pipe to be had. */
bool pl_signals_open(void (*at_crash)(void));

/* Puts back the handlers found at opening.  Harmless when not open. */
void pl_signals_close(void);

/* To wait for reading on; -1 when not open. */
int pl_signals_fd(void);

/* Those that came since the last call, joined by |. */
unsigned pl_signals_take(void);

/* Stops this process as SIGTSTP does of its own, and returns when it goes on. */
void pl_signals_stop(void);

#endif
