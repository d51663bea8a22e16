#include "plyloft/signals.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stddef.h>
#include <unistd.h>

static const struct {
    int number;
    unsigned means;  /* 0: a crash */
} watched[] = {
    {SIGINT, PL_SIGNAL_INTERRUPT},  {SIGTERM, PL_SIGNAL_TERMINATE}, {SIGQUIT, PL_SIGNAL_TERMINATE},
    {SIGHUP, PL_SIGNAL_HANGUP},     {SIGWINCH, PL_SIGNAL_RESIZE},   {SIGTSTP, PL_SIGNAL_STOP},
    {SIGCONT, PL_SIGNAL_CONTINUE},  {SIGSEGV, 0},                   {SIGBUS, 0},
    {SIGFPE, 0},                    {SIGILL, 0},                    {SIGABRT, 0},
};

enum { WATCHED = sizeof watched / sizeof watched[0] };

static struct sigaction before[WATCHED];
static int pipe_ends[2] = {-1, -1};
static void (*crash)(void);

static void send_byte(int number)
{
    int saved_errno = errno;
    unsigned char byte = (unsigned char)number;
    /* A full pipe holds thousands of signals not looked at yet: one more says nothing new. */
    if (write(pipe_ends[1], &byte, 1) < 0) {
    }
    errno = saved_errno;
}

/* Afterwards the signal takes the course it would have taken without us: a fault happens again when
 * its instruction is tried again (whoever looks into it sees the true place), any other is sent again. */
static void on_crash(int number, siginfo_t *info, void *context)
{
    (void)context;
    if (crash)
        crash();
    for (int i = 0; i < WATCHED; i++)
        if (watched[i].number == number)
            sigaction(number, &before[i], NULL);
    if (number == SIGABRT || info->si_code <= 0)
        raise(number);
}

static void watch(int i)
{
    struct sigaction act = {0};
    sigemptyset(&act.sa_mask);
    act.sa_flags = SA_RESTART;
    if (watched[i].means) {
        act.sa_handler = send_byte;
    } else {
        act.sa_sigaction = on_crash;
        act.sa_flags |= SA_SIGINFO;
    }
    sigaction(watched[i].number, NULL, &before[i]);
    if (before[i].sa_handler == SIG_IGN)
        return;
    sigaction(watched[i].number, &act, NULL);
}

static bool open_pipe(void)
{
    if (pipe(pipe_ends) < 0) {
        pipe_ends[0] = pipe_ends[1] = -1;
        return false;
    }
    for (int i = 0; i < 2; i++) {
        fcntl(pipe_ends[i], F_SETFD, FD_CLOEXEC);
        fcntl(pipe_ends[i], F_SETFL, O_NONBLOCK);
    }
    return true;
}

bool pl_signals_open(void (*at_crash)(void))
{
    if (pipe_ends[0] >= 0)
        return true;
    if (!open_pipe())
        return false;
    crash = at_crash;
    for (int i = 0; i < WATCHED; i++)
        watch(i);
    return true;
}

void pl_signals_close(void)
{
    if (pipe_ends[0] < 0)
        return;
    for (int i = 0; i < WATCHED; i++)
        sigaction(watched[i].number, &before[i], NULL);
    close(pipe_ends[0]);
    close(pipe_ends[1]);
    pipe_ends[0] = pipe_ends[1] = -1;
}

int pl_signals_fd(void)
{
    return pipe_ends[0];
}

unsigned pl_signals_take(void)
{
    unsigned char bytes[64];
    unsigned found = 0;
    ssize_t n;
    while (pipe_ends[0] >= 0 && (n = read(pipe_ends[0], bytes, sizeof bytes)) > 0)
        for (ssize_t k = 0; k < n; k++)
            for (int i = 0; i < WATCHED; i++)
                if (watched[i].number == bytes[k])
                    found |= watched[i].means;
    return found;
}

void pl_signals_stop(void)
{
    struct sigaction ours, stops = {0};
    sigemptyset(&stops.sa_mask);
    stops.sa_handler = SIG_DFL;
    sigaction(SIGTSTP, &stops, &ours);
    raise(SIGTSTP);
    sigaction(SIGTSTP, &ours, NULL);
}
